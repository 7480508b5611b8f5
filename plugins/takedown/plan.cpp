#include "plugins/takedown/plan.hpp"

#include <algorithm>
#include <map>
#include <optional>
#include <set>
#include <unordered_map>

#include "core/base/calendar.hpp"
#include "core/base/text.hpp"
#include "core/view/record_view.hpp"
#include "plugins/takedown/write.hpp"

namespace lathbook::takedown {

namespace {

constexpr std::int64_t kTurnsADay = std::int64_t{1} << 20;

constexpr std::size_t kMostRings = 100000;

std::string bed_note(const std::string& sounds) {
  if (sounds == "moves") return "loose: it moves";
  if (sounds == "hollow" || sounds == "rattling") return "loose: " + sounds + " bed";
  if (sounds == "sound") return "firmly bedded: consider leaving it";
  return {};
}

// The notes once each.
class Notes {
public:
  void add(const std::string& note) {
    if (!note.empty() && std::find(notes_.begin(), notes_.end(), note) == notes_.end())
      notes_.push_back(note);
  }
  std::string text() const { return join(notes_, "; "); }

private:
  std::vector<std::string> notes_;
};

constexpr const char* kLocked = "locked together: they come away as one";

std::string note_for(const Fabric& fabric, const Step& step) {
  Notes notes;
  notes.add(step.things.size() > 1 ? kLocked : bed_note(fabric.nodes[step.things.front()].sounds));
  for (const std::uint32_t thing : step.things) notes.add(fabric.nodes[thing].licensed);
  return notes.text();
}

// What each thing holds up, so that taking it can be told.
std::vector<std::vector<std::uint32_t>> held_by(const Fabric& fabric) {
  std::vector<std::vector<std::uint32_t>> held(fabric.nodes.size());
  for (const auto& one : fabric.hindrances)
    if (one.holds) held[one.second].push_back(one.first);
  return held;
}

WorkStep told(const Fabric& fabric, const Step& step) {
  WorkStep out;
  for (const std::uint32_t thing : step.things)
    if (!fabric.nodes[thing].mark) out.things.push_back(fabric.nodes[thing].record);
  out.level = step.level * kMostRings + std::min(fabric.nodes[step.things.front()].ring, kMostRings - 1);
  out.choices = step.choices;
  for (const std::uint32_t thing : step.instead)
    if (!fabric.nodes[thing].mark) out.instead.push_back(fabric.nodes[thing].record);
  out.note = note_for(fabric, step);
  return out;
}

// Levels without those that only marks had.
void close_levels(std::vector<WorkStep>& steps) {
  std::set<std::size_t> used;
  for (const auto& step : steps) used.insert(step.level);
  for (auto& step : steps)
    step.level = static_cast<std::size_t>(std::distance(used.begin(), used.find(step.level)));
}

void tell_circles(const Fabric& fabric, const Order& found, WorkOrder& order) {
  for (const auto& members : found.circles) {
    WorkCircle circle;
    std::set<Uuid> named;
    for (const std::uint32_t thing : members)
      if (named.insert(fabric.nodes[thing].record.id).second)
        circle.things.push_back(fabric.nodes[thing].record);
    const std::set<std::uint32_t> inside(members.begin(), members.end());
    for (const auto& one : fabric.hindrances) {
      if (inside.count(one.first) != 0 && inside.count(one.second) != 0 && !fabric.only_marks(one))
        circle.reasons.push_back(
            {fabric.nodes[one.first].record, fabric.nodes[one.second].record, fabric.why(one), one.holds});
    }
    order.circles.push_back(std::move(circle));
  }
}

// Taking a step early would leave these without support: what it holds and is not away by then.
void tell_unsupported(const Fabric& fabric, const Order& found, std::vector<WorkStep>& steps,
                      const std::vector<std::size_t>& step_numbers) {
  auto held = held_by(fabric);
  for (const Leaning& one : fabric.leanings) held[one.lower].push_back(one.upper);
  std::vector<bool> gone(fabric.nodes.size(), false);
  std::size_t at = 0;
  for (std::size_t i = 0; i < found.steps.size(); ++i) {
    for (const std::uint32_t thing : found.steps[i].things) gone[thing] = true;
    if (at >= step_numbers.size() || step_numbers[at] != i) continue;
    for (const std::uint32_t thing : found.steps[i].things)
      for (const std::uint32_t upper : held[thing])
        if (!gone[upper]) steps[at].unsupported.push_back(fabric.nodes[upper].record);
    ++at;
  }
}

std::vector<WorkStep> steps_of(const Fabric& fabric, const Order& found) {
  std::vector<WorkStep> steps;
  std::vector<std::size_t> numbers;
  for (std::size_t i = 0; i < found.steps.size(); ++i) {
    WorkStep step = told(fabric, found.steps[i]);
    if (step.things.empty()) continue;
    numbers.push_back(i);
    steps.push_back(std::move(step));
  }
  tell_unsupported(fabric, found, steps, numbers);
  close_levels(steps);
  return steps;
}

// Every step the other way round. Alternatives, supports and beds are those of taking down, so they go; who
// alone may do it stays.
std::vector<WorkStep> reversed(const Fabric& fabric, const std::vector<WorkStep>& down) {
  std::map<Uuid, std::string> licensed;
  for (const Node& node : fabric.nodes)
    if (!node.licensed.empty()) licensed.emplace(node.record.id, node.licensed);
  std::vector<WorkStep> back;
  back.reserve(down.size());
  std::size_t top = 0;
  for (const auto& step : down) top = std::max(top, step.level);
  for (auto one = down.rbegin(); one != down.rend(); ++one) {
    WorkStep& step = back.emplace_back();
    step.things = one->things;
    step.level = top - one->level;
    Notes notes;
    if (step.things.size() > 1) notes.add(kLocked);
    for (const auto& thing : step.things)
      if (const auto known = licensed.find(thing.id); known != licensed.end()) notes.add(known->second);
    step.note = notes.text();
  }
  return back;
}

constexpr std::uint32_t kNobody = 0xffffffff;

// Why a node waits for evidence: which node is kept, and the last relation in words on the way from there.
struct Cause {
  std::uint32_t kept = kNobody;
  std::uint32_t hindrance = kNobody;
  bool sure = true;
};

class Causes {
public:
  explicit Causes(const Fabric& fabric)
      : fabric_(fabric), from_(fabric.nodes.size()), causes_(fabric.nodes.size()) {
    for (std::uint32_t i = 0; i < fabric.hindrances.size(); ++i)
      from_[fabric.hindrances[i].first].push_back(i);
    for (std::uint32_t i = 0; i < fabric.things.size(); ++i)
      if (fabric.things[i].stays) reach(i, {i, kNobody, true});
    spread();
    // What the whole of a field lies over may lie under the part of it that stays.
    for (const Leaning& part : fabric.partly_kept) reach(part.lower, {part.lower, kNobody, false});
    spread();
  }

  /// Nothing for what does not surely wait, stays itself, or is a mark.
  std::optional<WorkBlock> block_of(std::uint32_t node) const {
    const Cause& cause = causes_[node];
    if (cause.kept == kNobody || !cause.sure || fabric_.things[node].stays || fabric_.nodes[node].mark)
      return std::nullopt;
    WorkBlock block;
    block.thing = fabric_.nodes[node].record;
    block.kept = fabric_.nodes[cause.kept].record;
    block.words =
        display(block.thing) + " cannot come away while " + display(block.kept) + " stays as evidence";
    if (cause.hindrance == kNobody) return block;
    const ReasonStep why = fabric_.why(fabric_.hindrances[cause.hindrance]);
    block.words += ", for " + why.words;
    block.statement = why.statement;
    return block;
  }

  /// The field of which a part stays that may lie over this; null where none does, or where it is sure.
  const RecordInfo* perhaps_over(std::uint32_t node) const {
    const Cause& cause = causes_[node];
    return cause.kept == kNobody || cause.sure ? nullptr : &fabric_.nodes[cause.kept].record;
  }

private:
  void reach(std::uint32_t node, const Cause& cause) {
    if (causes_[node].kept != kNobody) return;
    causes_[node] = cause;
    reached_.push_back(node);
  }

  void spread() {
    for (; at_ < reached_.size(); ++at_) {
      const Cause cause = causes_[reached_[at_]];
      for (const std::uint32_t index : from_[reached_[at_]]) {
        const Hindrance& one = fabric_.hindrances[index];
        reach(one.second, {cause.kept, fabric_.only_marks(one) ? cause.hindrance : index, cause.sure});
      }
    }
  }

  const Fabric& fabric_;
  std::vector<std::vector<std::uint32_t>> from_;
  std::vector<Cause> causes_;
  std::vector<std::uint32_t> reached_;
  std::size_t at_ = 0;
};

}  // namespace

namespace {

// By field of which a part is kept: "N-204.61 to N-204.84 of N-204 Ivory tile field".
std::map<Uuid, std::string> parts_kept(const Fabric& fabric) {
  std::map<Uuid, std::pair<RecordInfo, std::vector<RecordInfo>>> kept;
  for (const Leaning& part : fabric.partly_kept) {
    const RecordInfo& field = fabric.nodes[part.lower].record;
    auto& one = kept[field.id];
    one.first = field;
    one.second.push_back(fabric.nodes[part.upper].record);
  }
  std::map<Uuid, std::string> words;
  for (const auto& [id, one] : kept) words[id] = codes(one.second) + " of " + display(one.first);
  return words;
}

}  // namespace

void keep_beneath(const Fabric& wide, Fabric& here, WorkOrder& order) {
  const Causes causes(wide);
  std::unordered_map<Uuid, std::uint32_t> places;
  for (std::uint32_t i = 0; i < wide.nodes.size(); ++i)
    if (!wide.nodes[i].mark) places.emplace(wide.nodes[i].record.id, i);
  const auto parts = parts_kept(wide);
  for (std::uint32_t i = 0; i < here.nodes.size(); ++i) {
    const auto place = places.find(here.nodes[i].record.id);
    if (here.nodes[i].mark || place == places.end()) continue;
    if (const RecordInfo* field = causes.perhaps_over(place->second))
      here.nodes[i].beneath = parts.at(field->id);
    if (auto block = causes.block_of(place->second)) {
      here.things[i].stays = true;
      order.blocked.push_back(std::move(*block));
    }
  }
}

bool plan_back(const Fabric& out, WorkOrder& order) {
  const auto down = steps_of(out, order_of(out.things, out.hindrances));
  if (down.empty()) return false;
  order.back = reversed(out, down);
  return true;
}

void plan(const Fabric& fabric, WorkOrder& order) {
  const Order found = order_of(fabric.things, fabric.hindrances);
  order.down = steps_of(fabric, found);
  order.back = reversed(fabric, order.down);
  tell_circles(fabric, found, order);
  order.retained = fabric.retained;
  order.upright = fabric.upright;
  order.flat = fabric.flat;
}

void tell_beneath(const Fabric& here, const std::vector<bool>& meant, WorkOrder& order) {
  std::map<std::string, std::vector<RecordInfo>> by_part;
  for (std::size_t i = 0; i < here.nodes.size(); ++i)
    if (meant[i] && !here.nodes[i].mark && !here.nodes[i].beneath.empty())
      by_part[here.nodes[i].beneath].push_back(here.nodes[i].record);
  for (const auto& [part, things] : by_part)
    order.warnings.push_back(
        {{},
         things.front(),
         "look first: what stays as evidence, " + part + ", may lie over " + codes(things),
         {}});
}

void tell_reasons(const Fabric& fabric, WorkOrder& order) {
  for (const auto& one : fabric.hindrances)
    if (!fabric.only_marks(one))
      order.reasons.push_back(
          {fabric.nodes[one.first].record, fabric.nodes[one.second].record, fabric.why(one), one.holds});
}

void judge(const Fabric& fabric, WorkOrder& order) {
  order.followed = fabric.followed;
  // Days part the moments; within a day the turns do, where they were written down.
  std::vector<std::int64_t> when(fabric.nodes.size(), -1);
  for (std::size_t i = 0; i < fabric.nodes.size(); ++i)
    if (fabric.nodes[i].out >= 0) when[i] = fabric.nodes[i].out * kTurnsADay + fabric.nodes[i].turn;
  std::vector<Hindrance> holding;
  for (const auto& one : fabric.hindrances)
    if (one.holds && !fabric.nodes[one.first].mark && !fabric.nodes[one.second].mark) holding.push_back(one);
  for (const std::size_t index : broken_by(when, holding)) {
    const Node& upper = fabric.nodes[holding[index].first];
    const Node& lower = fabric.nodes[holding[index].second];
    if (upper.propped || upper.sounds == "sound") continue;
    if (upper.out == lower.out && (upper.turn == 0 || lower.turn == 0)) continue;
    const ReasonStep why = fabric.why(holding[index]);
    std::string words = display(lower.record) + " was taken on " + iso_day(lower.out) + " while " +
                        display(upper.record) + " still stood" +
                        (upper.out < 0            ? std::string()
                         : upper.out == lower.out ? " (taken after it on that day)"
                                                  : " (taken on " + iso_day(upper.out) + ")") +
                        ": " + why.words;
    if (upper.sounds.empty()) words += "; whether its bed held was not recorded";
    order.warnings.push_back({lower.record, upper.record, std::move(words), why.statement});
  }
}

}  // namespace lathbook::takedown
