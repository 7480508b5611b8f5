// Which things could be found out in a place, and the task in plain words.
#include <algorithm>
#include <set>
#include <tuple>

#include "core/base/text.hpp"
#include "core/view/english.hpp"
#include "core/view/plain_words.hpp"
#include "plugins/timeline/sentences.hpp"
#include "plugins/timeline/worklist.hpp"

namespace lathbook::timeline {

namespace {

// From these widths on it is worth asking: our own figures.
constexpr double kWideThing = 10;
constexpr double kWideSource = 3;
constexpr std::size_t kCoatsNamed = 4;

// The order of two things that touch, or lie one over the other, has not been read.
bool is_unread(const Fact& fact) {
  if (fact.level == kNever || !fact.object) return false;
  if (fact.name() == "touches")
    return fact.content().qualifier("how").find("order not read") != std::string::npos;
  const std::string_view rule = fact.rule();
  return (rule == "covers" || rule == "cuts" || rule == "fills" || rule == "butts") &&
         fact.content().qualifier("contact") == "not read";
}

// Classes whose age paint layers can tell.
bool takes_paint(std::string_view element_class) {
  static const std::set<std::string_view> painted{"wall",   "partition", "plaster", "ceiling", "joinery",
                                                  "casing", "door",      "window",  "stair",   ""};
  return painted.count(element_class) != 0;
}

// Woodwork is compared with woodwork, walls with walls: they were painted together.
bool are_painted_alike(std::string_view one, std::string_view other) {
  static const std::set<std::string_view> walls{"wall", "partition", "plaster", "ceiling"};
  return walls.count(one) == walls.count(other);
}

}  // namespace

std::vector<ReasonStep> looked_for(const Facts& facts, const Words& words, const Uuid& record) {
  std::vector<ReasonStep> steps;
  for (const std::uint32_t index : facts.naming(record)) {
    const Fact& examined = facts.at(index);
    if (examined.name() != "examined" || examined.level == kNever) continue;
    for (const std::uint32_t sought : facts.about(examined.subject())) {
      const Fact& fact = facts.at(sought);
      if (fact.name() != "sought") continue;
      steps.push_back({fact.statement.id, words.name(fact.subject()) + " sought " + fact.content().value +
                                              ": " + std::string(fact.content().qualifier("outcome"))});
    }
  }
  return steps;
}

bool Worklist::is_in_scope(const Uuid& record) const {
  return std::find(scope_.items.begin(), scope_.items.end(), record) != scope_.items.end();
}

bool Worklist::share_a_place(const Uuid& one, const Uuid& other) const {
  const auto places = [&](const Uuid& thing) {
    std::set<Uuid> found;
    for (const std::uint32_t index : facts_.about(thing)) {
      const Fact& fact = facts_.at(index);
      if (fact.name() == "stands-in" && fact.object) found.insert(*fact.object);
    }
    return found;
  };
  const std::set<Uuid> mine = places(one);
  for (const Uuid& place : places(other))
    if (mine.count(place) != 0) return true;
  return false;
}

void Worklist::add_looks(const Uuid& record, TimelineTask& task) const {
  const std::vector<ReasonStep> steps = looked_for(facts_, words_, record);
  task.on.insert(task.on.end(), steps.begin(), steps.end());
}

void Worklist::add_contacts() {
  std::set<std::pair<Var, Var>> tried;
  for (const Fact& fact : facts_.all()) {
    if (!is_unread(fact) || (!is_in_scope(fact.subject()) && !is_in_scope(*fact.object))) continue;
    const MaybeInstant one =
        claims_.instants().begin(fact.subject(), std::max(1, fact.placement("placement")));
    const MaybeInstant other =
        claims_.instants().begin(*fact.object, std::max(1, fact.placement("other-placement")));
    if (!one || !other || !tried.insert(std::minmax(one->low, other->low)).second) continue;
    const std::vector<Outcome> outcomes{{one->low, other->low, 0, false, *fact.object, fact.subject()},
                                        {other->low, one->low, 0, false, fact.subject(), *fact.object}};
    // Where only one order is left, reading the contact tells nothing new.
    if (!is_open(outcomes[0]) || !is_open(outcomes[1])) continue;
    TimelineTask task;
    task.sort = "contact";
    task.records = {fact.subject(), *fact.object};
    const std::string spot(trim(fact.content().qualifier("spot")));
    task.words = "Read the contact between " + words_.name(fact.subject()) + " and " +
                 words_.name(*fact.object) + (spot.empty() ? "" : " (" + spot + ")") +
                 ": which of the two runs behind, stops against or laps over the other?";
    task.on.push_back(words_.step(fact));
    if (weigh(task, outcomes)) tasks_.push_back(std::move(task));
  }
}

void Worklist::add_layers() {
  std::vector<Uuid> coats;
  std::set<Uuid> painted;
  for (const Uuid& item : scope_.items) {
    const RecordInfo* record = facts_.record(item);
    const Fact* on = facts_.best(item, "finish-on");
    if (!record || record->kind != Kind::finish || !on || !on->object) continue;
    const Var begin = claims_.instants().begin(item, 1)->low;
    if (is_wide(begin, kWideThing)) continue;
    coats.push_back(item);
    painted.insert(*on->object);
  }
  for (const Uuid& item : scope_.items) {
    const RecordInfo* record = facts_.record(item);
    if (!record || record->kind != Kind::element || painted.count(item) != 0) continue;
    if (takes_paint(facts_.text(item, "element-class"))) add_layer_of(item, coats);
  }
}

// Beside which dated coat a scrape would tell most.
bool Worklist::add_layer_of(const Uuid& thing, const std::vector<Uuid>& coats) {
  if (claims_.instants().placements(thing) != 1) return false;
  const Var begin = claims_.instants().begin(thing, 1)->low;
  if (!is_wide(begin, kWideThing)) return false;
  std::optional<TimelineTask> best;
  bool best_is_alike = false;
  const std::string of_class = facts_.text(thing, "element-class");
  for (const Uuid& coat : coats) {
    const Uuid on = *facts_.best(coat, "finish-on")->object;
    if (on == thing || !share_a_place(on, thing)) continue;
    const Var coated = claims_.instants().begin(coat, 1)->low;
    const std::vector<Outcome> outcomes{{coated, begin, 0, false, thing, coat},
                                        {begin, coated, 0, false, coat, thing}};
    if (!is_open(outcomes[0]) || !is_open(outcomes[1])) continue;
    TimelineTask task;
    if (!weigh(task, outcomes)) continue;
    const bool alike = are_painted_alike(of_class, facts_.text(on, "element-class"));
    const auto worth = [](bool is_alike, const TimelineTask& one) {
      return std::tuple(is_alike, one.narrows, one.years);
    };
    if (best && worth(alike, task) <= worth(best_is_alike, *best)) continue;
    best_is_alike = alike;
    task.sort = "layers";
    task.records = {thing, on, coat};
    task.words = "Have the layers of " + words_.name(thing) + " read beside " + words_.name(on) +
                 ", in a sample or a tested scrape: does " + words_.name(coat) +
                 " go over it, stop at it, or run behind it?";
    best = std::move(task);
  }
  if (!best) return false;
  add_looks(thing, *best);
  tasks_.push_back(std::move(*best));
  return true;
}

void Worklist::add_sources() {
  std::set<Uuid> tried;
  for (const Uuid& item : scope_.items) {
    for (const std::uint32_t index : facts_.about(item)) {
      const Fact& fact = facts_.at(index);
      const MaybeInstant moment = fact.object ? claims_.instants().source(*fact.object) : std::nullopt;
      if (!moment || fact.rule().empty() || !tried.insert(*fact.object).second) continue;
      if (!is_wide(moment->low, kWideSource)) continue;
      TimelineTask task;
      task.sort = "source";
      task.records = {*fact.object};
      const Fact* dated = facts_.best(*fact.object, "source-date");
      task.words = "Find out when " + words_.name(*fact.object) + " was made";
      task.words += dated && dated->range ? ", now dated " + date_words(dated->content()) + "."
                                          : ", which is not dated.";
      if (dated) task.on.push_back(words_.step(*dated));
      if (weigh(task, dates(moment->low))) tasks_.push_back(std::move(task));
    }
  }
}

void Worklist::add_works() {
  for (const RecordInfo& record : facts_.records()) {
    if (record.kind != Kind::campaign) continue;
    const MaybeInstant begin = claims_.instants().works_begin(record.id);
    const MaybeInstant end = claims_.instants().works_end(record.id);
    for (const auto& [instant, what] :
         {std::pair{begin, "begun: a permit, a contract, a notice in the newspaper"},
          std::pair{end, "over: a last bill, an inspection card, a notice"}}) {
      if (!instant || !is_wide(instant->low, kWideSource)) continue;
      TimelineTask task;
      task.sort = "works";
      task.records = {record.id};
      task.words = "Find a paper that says when " + words_.name(record.id) + " were " + what + ".";
      if (weigh(task, dates(instant->low))) tasks_.push_back(std::move(task));
    }
  }
}

// One sample taken through all coats at one spot is one task; a coat that is the same on another thing need
// not be sampled there again.
void Worklist::add_coats() {
  std::vector<Coat> coats;
  std::map<Uuid, std::size_t> on_thing;
  for (const Uuid& item : scope_.items) {
    const RecordInfo* record = facts_.record(item);
    const Fact* on = facts_.best(item, "finish-on");
    if (!record || record->kind != Kind::finish || !on || !on->object ||
        claims_.instants().placements(item) != 1)
      continue;
    Coat coat{item, *on->object, claims_.instants().begin(item, 1)->low, {}};
    if (!is_wide(coat.begin, kWideThing) || !weigh(coat.task, dates(coat.begin))) continue;
    ++on_thing[coat.on];
    coats.push_back(std::move(coat));
  }
  std::stable_sort(coats.begin(), coats.end(), [&](const Coat& a, const Coat& b) {
    return std::tuple(a.task.narrows, a.task.years, on_thing[a.on]) >
           std::tuple(b.task.narrows, b.task.years, on_thing[b.on]);
  });
  while (!coats.empty()) {
    const Uuid on = coats.front().on;
    std::vector<Coat> here, others;
    for (Coat& coat : coats) (coat.on == on ? here : others).push_back(std::move(coat));
    std::vector<Uuid> also_on;
    std::erase_if(others, [&](const Coat& other) {
      const bool is_same = std::any_of(here.begin(), here.end(), [&](const Coat& one) {
        return distances(one.begin).from[other.begin] == 0 && distances(one.begin).to[other.begin] == 0;
      });
      if (is_same && std::find(also_on.begin(), also_on.end(), other.on) == also_on.end())
        also_on.push_back(other.on);
      return is_same;
    });
    tasks_.push_back(coats_task(here, std::move(also_on)));
    coats = std::move(others);
  }
}

// The coats in order of worth; what the first would tell is told.
TimelineTask Worklist::coats_task(const std::vector<Coat>& coats, std::vector<Uuid> also_on) const {
  TimelineTask task = coats.front().task;
  task.sort = "thing";
  const std::string on = words_.name(coats.front().on);
  std::vector<std::string> names, others;
  for (const Coat& coat : coats) {
    task.records.push_back(coat.coat);
    if (names.size() < kCoatsNamed) names.push_back(words_.name(coat.coat));
  }
  if (coats.size() > kCoatsNamed) names.emplace_back("another coat");
  task.words = "Have a sample taken through the coats on " + on + " and analysed: a pigment or binder of " +
               listed(names, "or") + " may have a first year.";
  for (const Uuid& thing : also_on) others.push_back(words_.name(thing));
  if (!others.empty()) task.words += " What is the same coat on " + listed(others) + " is dated with it.";
  add_looks(coats.front().on, task);
  return task;
}

// A trace bears no nails, and of what is gone, with no piece kept, only papers and pictures tell.
std::string Worklist::task_to_date(const Uuid& item) const {
  const std::string of_class = facts_.text(item, "element-class");
  const Bounds end = solution_.bounds(claims_.instants().end(item, 1)->low, level_);
  const RecordInfo* record = facts_.record(item);
  const bool many = record && is_plural(record->name);
  const std::string it = many ? "them" : "it";
  const std::string task = "Date " + words_.name(item) + ": look ";
  const auto& named = facts_.naming(item);
  const bool is_kept = std::any_of(
      named.begin(), named.end(), [&](std::uint32_t index) { return facts_.at(index).name() == "piece-of"; });
  if (of_class == "cut" || of_class == "ghost" || (end.latest <= roof_ && !is_kept))
    return task + "for " + it + " in bills, plans and photographs.";
  return task + "on " + it + " and " + (many ? "their" : "its") +
         " pieces for a mark, nails, screws or saw marks, and for " + it + " in bills and photographs.";
}

void Worklist::add_things() {
  for (const Uuid& item : scope_.items) {
    const RecordInfo* record = facts_.record(item);
    if (!record || record->kind == Kind::finish || claims_.instants().placements(item) != 1) continue;
    const Var begin = claims_.instants().begin(item, 1)->low;
    if (!is_wide(begin, kWideThing)) continue;
    TimelineTask task;
    task.sort = "thing";
    task.records = {item};
    task.words = task_to_date(item);
    if (!weigh(task, dates(begin))) continue;
    add_looks(item, task);
    tasks_.push_back(std::move(task));
  }
}

}  // namespace lathbook::timeline
