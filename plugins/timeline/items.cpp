// Fills one row at a time from bounds, membership and remarks.
#include "plugins/timeline/items.hpp"

#include <algorithm>

#include "core/base/text.hpp"
#include "plugins/timeline/rules.hpp"

namespace lathbook::timeline {

namespace {

// Rules by which somebody or something saw the thing in place.
bool is_sighting(std::string_view rule) {
  return rule == "seen" || rule == "seen-day" || rule == "uncovered" || rule == "uncovered-day";
}

bool concerns(const Fact& fact, std::string_view qualifier, int placement) {
  const int said = fact.placement(qualifier);
  return said == 0 || said == placement;
}

}  // namespace

bool Items::is_believed(const Fact& fact) const {
  return fact.level <= level_ && fact.is_complete() && !solution_.is_aside(claims_.cause_of(fact), level_);
}

bool Items::is_coat(const Uuid& record) const {
  const RecordInfo* info = facts_.record(record);
  return info && info->kind == Kind::finish;
}

// A contact that was not read orders nothing, and hides none the less.
bool Items::is_shown(const Fact& fact) const {
  if (fact.content().qualifier("contact") == "not read") return fact.level <= level_;
  return is_believed(fact);
}

bool Items::is_first(const Uuid& record) const {
  for (const Uuid& one : duplicates_.all_of(record)) {
    if (one == record) return true;
    if (std::find(scope_.items.begin(), scope_.items.end(), one) != scope_.items.end() ||
        std::find(scope_.pieces.begin(), scope_.pieces.end(), one) != scope_.pieces.end())
      return false;
  }
  return true;
}

std::optional<TimelineItem> Items::begin_item(const Uuid& record) const {
  const RecordInfo* info = facts_.record(record);
  const MaybeInstant made = claims_.instants().made(record);
  if (!info || !made || !is_first(record)) return std::nullopt;
  TimelineItem item;
  item.record = *info;
  for (const Uuid& one : duplicates_.all_of(record)) {
    if (one != record) item.also.push_back(*facts_.record(one));
    if (item.type.empty())
      item.type = facts_.text(one, info->kind == Kind::element ? "element-type" : "piece-type");
    if (item.material.empty()) item.material = facts_.text(one, "material");
    add_remarks(one, item.remarks);
  }
  item.made = reasons_.span(made->low);
  return item;
}

void Items::add_placements(const Uuid& record, std::vector<TimelineItem>& items) const {
  const auto row = begin_item(record);
  if (!row) return;
  const Fact* coated = facts_.best(record, "finish-on");
  const int count = claims_.instants().placements(record);
  for (int placement = 1; placement <= count; ++placement) {
    TimelineItem item = *row;
    const Standing standing{claims_.instants().begin(record, placement)->low,
                            claims_.instants().end(record, placement)->low};
    item.placement = placement;
    item.placements = count;
    if (coated) item.finish_on = coated->object;
    item.begins = reasons_.span(standing.begin);
    item.ends = reasons_.span(standing.end);
    item.last_seen = last_seen(item, standing.end);
    item.dated = item.begins.earliest.known || item.begins.latest.known;
    for (const Uuid& one : duplicates_.all_of(record))
      for (TimelineEither& either : eithers_.of(one, placement)) item.either.push_back(std::move(either));
    item.phases = membership_.parts(standing, views_of(record, placement, item));
    for (PhasePart& part : item.phases) {
      if (part.installed == Membership::no) continue;
      const std::string said = how(record, placement, part.phase);
      if (!said.empty()) part.how = said;
    }
    items.push_back(std::move(item));
  }
}

void Items::add_piece(const Uuid& record, std::vector<TimelineItem>& items) const {
  auto item = begin_item(record);
  if (!item) return;
  item->placement = 0;
  item->placements = 0;
  item->dated = item->made.earliest.known;
  items.push_back(std::move(*item));
}

void Items::add_cover(const Uuid& cover, int said, std::vector<Cover>& covers) const {
  // Which setting of the cover lay here is not said: none can be relied on to hide anything.
  if (said == 0 && claims_.instants().placements(cover) > 1) return;
  const MaybeInstant begin = claims_.instants().begin(cover, said);
  const MaybeInstant end = claims_.instants().end(cover, said);
  if (!begin || !end) return;
  const bool is_known = std::any_of(covers.begin(), covers.end(),
                                    [&](const Cover& one) { return one.standing.begin == begin->low; });
  if (!is_known) covers.push_back({{cover, std::max(said, 1)}, {begin->low, end->low}});
}

void Items::add_covers(const Uuid& record, int placement, std::vector<Cover>& covers) const {
  for (const std::uint32_t index : facts_.naming(record)) {
    const Fact& fact = facts_.at(index);
    // A coat of paint does not put the thing itself out of sight, only the coats below.
    const bool paints = is_coat(fact.subject()) && !is_coat(record);
    if (hides(fact) && !paints && is_shown(fact) && concerns(fact, "other-placement", placement))
      add_cover(fact.subject(), fact.placement("placement"), covers);
  }
  for (const std::uint32_t index : facts_.about(record)) {
    const Fact& fact = facts_.at(index);
    if (fact.content().qualifier("how") == "slid in behind" && fact.object && is_believed(fact) &&
        concerns(fact, "placement", placement))
      add_cover(*fact.object, fact.placement("other-placement"), covers);
  }
  const LayerOver* over = claims_.layer_over(record);
  if (over && claims_.at(over->cause).level <= level_ && !solution_.is_aside(over->cause, level_))
    add_cover(over->upper, 0, covers);
}

// What hides a thing hides the coats that it had by then.
void Items::add_covers_of_ground(const Uuid& coat, std::vector<Cover>& covers) const {
  const Fact* on = facts_.best(coat, "finish-on");
  if (!on || !on->object || claims_.instants().placements(coat) != 1) return;
  const Var begin = claims_.instants().begin(coat, 1)->low;
  for (Cover& cover : covers_of(*on->object, std::max(1, on->placement("placement")))) {
    const bool is_known = std::any_of(covers.begin(), covers.end(), [&](const Cover& one) {
      return one.standing.begin == cover.standing.begin;
    });
    if (!is_known && cover.standing.begin != begin &&
        solution_.distance(cover.standing.begin, begin, level_) <= 0)
      covers.push_back(std::move(cover));
  }
}

std::vector<Items::Cover> Items::covers_of(const Uuid& record, int placement) const {
  std::vector<Cover> covers;
  for (const Uuid& one : duplicates_.all_of(record)) {
    add_covers(one, placement, covers);
    add_covers_of_ground(one, covers);
  }
  return covers;
}

// Places in which a thing, or the thing that a coat is on, can be seen.
std::vector<Uuid> Items::seen_in(const Uuid& record) const {
  std::vector<Uuid> places;
  const Fact* on = facts_.best(record, "finish-on");
  for (const std::uint32_t index : facts_.about(on && on->object ? *on->object : record)) {
    const Fact& fact = facts_.at(index);
    const std::string_view role = fact.content().qualifier("role");
    if (fact.name() != "stands-in" || fact.level == kNever || !fact.object || role == "serves" ||
        role == "passes through" || facts_.text(*fact.object, "place-type") == "void")
      continue;
    if (std::find(places.begin(), places.end(), *fact.object) == places.end()) places.push_back(*fact.object);
  }
  return places;
}

// Plaster in the cellar hides nothing of a wall's upper face: each place has its own view. A cover of which
// no place is known lies over all of it.
std::vector<std::vector<Standing>> Items::views_of(const Uuid& record, int placement,
                                                   TimelineItem& item) const {
  std::vector<Uuid> places = seen_in(record);
  if (!scope_.places.empty())
    std::erase_if(places, [&](const Uuid& place) {
      return std::find(scope_.places.begin(), scope_.places.end(), place) == scope_.places.end();
    });
  if (places.empty()) places.emplace_back();
  std::vector<std::vector<Standing>> views(places.size());
  for (const Cover& cover : covers_of(record, placement)) {
    const std::vector<Uuid> over = seen_in(cover.shown.record);
    bool hides_here = false;
    for (std::size_t at = 0; at < places.size(); ++at) {
      if (places[at] != Uuid{} && !over.empty() &&
          std::find(over.begin(), over.end(), places[at]) == over.end())
        continue;
      views[at].push_back(cover.standing);
      hides_here = true;
    }
    if (hides_here) item.under.push_back(cover.shown);
  }
  return views;
}

// 'By the opening works' where a statement puts the item into the works that open the phase, or the recorder
// says which it was.
std::string Items::how(const Uuid& record, int placement, std::size_t phase) const {
  const Fact* opened = facts_.best(scope_.phases->phases[phase].phase, "opened-by");
  std::string said;
  for (const Uuid& one : duplicates_.all_of(record)) {
    for (const std::uint32_t index : facts_.about(one)) {
      const Fact& fact = facts_.at(index);
      if (!concerns(fact, "placement", placement) || fact.level > level_) continue;
      if (fact.rule() == "of-campaign" && opened && fact.object == opened->object && is_believed(fact))
        return "by the opening works";
      if (fact.name() == "phase-part") said = fact.content().value;
    }
  }
  // The recorder's word is 'by the opening campaign'; the page speaks of works.
  return said == "by the opening campaign" ? "by the opening works" : said;
}

std::string Items::last_seen(const TimelineItem& item, Var end) const {
  const Bound& bound = item.ends.earliest;
  if (item.ends.latest.known || !bound.known) return {};
  const Fact* fact = reasons_.last_fact(end, Side::earliest);
  if (!fact) return {};
  // That it stood up says nothing of how long it stayed.
  const auto own_begin = [&] {
    const Bound& begin = item.begins.earliest;
    return begin.known && begin.day == bound.day && begin.reason == bound.reason;
  };
  if (own_begin()) return {};
  if (!is_sighting(fact->rule())) return "not gone before " + plain_day(bound.day);
  MaybeInstant moment;
  if (fact->object) moment = claims_.instants().source(*fact->object);
  const bool exact = moment ? day_of(solution_.bounds(moment->low, level_).latest) == bound.day
                            : fact->range && fact->range->last == bound.day;
  return "still in place when last seen" + std::string(exact ? " on " : ", not before ") +
         plain_day(bound.day);
}

// Why a statement that could date something dates nothing; empty when it is not so.
std::string Items::silence(const Fact& fact) const {
  const Content& content = fact.content();
  if (fact.level == kNever) return "a conjecture, which dates nothing";
  if (content.qualifier("contact") == "not read") return "which orders nothing, as the contact was not read";
  const std::string missing = fact.missing_detail();
  if (missing == "contact") return "which orders nothing, as no contact is told";
  if (!missing.empty()) return "which dates nothing, as the detail '" + missing + "' is not told";
  if (fact.rule() == "proposed" && content.qualifier("accept-not-before") != "yes")
    return "and a proposal dates nothing";
  const std::string_view hidden = content.qualifier("could-be-hidden");
  if (fact.rule() == "absent" && (hidden.empty() || hidden == "yes")) {
    return hidden.empty()
               ? "from which nothing follows, as nobody has said whether something could have hidden it"
               : "from which nothing follows, as something may have hidden it";
  }
  if (fact.rule() == "absent" && trim(content.qualifier("ground")).empty())
    return "from which nothing follows until the ground is told why nothing could have hidden it";
  return {};
}

std::string Items::remark(const Fact& fact) const {
  const std::string_view name = fact.name();
  if (name == "intended-for" && fact.object) {
    for (const std::uint32_t index : facts_.about(fact.subject())) {
      const Fact& fit = facts_.at(index);
      if (fit.name() == "fitted-in" && fit.object == fact.object && fit.level != kNever) return {};
    }
    return "marked for " + words_.name(*fact.object) + "; fit not tested";
  }
  if (name == "like-seen-in" && fact.object)
    return "one like it is seen in " + words_.name(*fact.object) + ", which dates the type and not this one";
  if (name == "mentioned-in" || name == "begun" || name == "takes-over-from") return words_.of(fact);
  if (name == "touches") return words_.of(fact) + ", which orders nothing";
  if (name == "stripping-looked-for")
    return "signs of stripping on " + words_.name(fact.subject()) + ": " + fact.content().value;
  if (fact.rule().empty()) return {};
  const std::string why = silence(fact);
  return why.empty() ? why : words_.of(fact) + ", " + why;
}

void Items::add_remarks(const Uuid& record, std::vector<ReasonStep>& remarks) const {
  for (const std::uint32_t index : facts_.about(record)) {
    const Fact& fact = facts_.at(index);
    std::string words = remark(fact);
    if (!words.empty()) remarks.push_back({fact.statement.id, std::move(words)});
  }
}

}  // namespace lathbook::timeline
