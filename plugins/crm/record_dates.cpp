// What the timeline worked out about a record: how long it stood, when its phase was, what came before what.
#include <algorithm>
#include <array>
#include <iterator>

#include "plugins/crm/names.hpp"
#include "plugins/crm/record_writer.hpp"
#include "plugins/crm/terms.hpp"
#include "plugins/crm/values.hpp"

namespace lathbook::crm {

namespace {

using Bounds = std::vector<const Bound*>;

/// A bound that the archive holds: at the most probable, and not by setting a statement aside.
bool sure(const Bound& bound) {
  return bound.known && !bound.leaned && bound.level != Level::possible;
}

/// Bounds that may be told at all, as a fact or as a claim.
bool told(const Bound& bound) {
  return bound.known && !bound.leaned;
}

template <typename Wanted>
Days days_of(const Bounds& bounds, Wanted wanted) {
  const auto day = [&](std::size_t at) {
    const bool has = at < bounds.size() && wanted(*bounds[at]);
    return has ? std::optional<Day>(bounds[at]->day) : std::nullopt;
  };
  return {day(0), day(1), day(2), day(3)};
}

std::uint64_t leaning(const Bounds& bounds) {
  return static_cast<std::uint64_t>(std::count_if(
      bounds.begin(), bounds.end(), [](const Bound* bound) { return bound->known && bound->leaned; }));
}

const char* level_word(Level level) {
  return level == Level::certain ? "certain" : level == Level::probable ? "probable" : "possible";
}

/// What a relation that was read means for two geneses (docs/evidence-and-time.md): the other one is over
/// before this one begins, or is over no later than this one. CRMarchaeo 2.1.1, AP13, and CIDOC CRM P183,
/// P184.
struct Sequel {
  std::string_view relation;
  const char* predicate;
};
constexpr std::array<Sequel, 6> kSequels{{{"covers", term::ends_before_start},
                                          {"cuts", term::ends_before_start},
                                          {"takes-away", term::ends_before_start},
                                          {"fills", term::ends_no_later},
                                          {"butts", term::ends_no_later},
                                          {"fixed-to", term::ends_no_later}}};

/// The placement meant by a detail; empty when it is not said and there are several.
std::string placement(std::string_view said, const std::vector<const TimelineItem*>& items) {
  if (!said.empty()) return std::string(said);
  return items.size() <= 1 ? "1" : "";
}

}  // namespace

void RecordWriter::write_dates() {
  if (!context_.dates.known()) return;
  for (const TimelineItem* item : context_.dates.of(entry_.info.id)) {
    write_making_date(*item);
    if (item->placement > 0) write_standing_time(*item);
  }
  if (entry_.info.kind == Kind::phase) write_phase_time();
}

bool RecordWriter::has_reckoned_making() const {
  const auto items = context_.dates.of(entry_.info.id);
  return !items.empty() && (sure(items.front()->made.earliest) || sure(items.front()->made.latest));
}

void RecordWriter::write_making_date(const TimelineItem& item) {
  if (entry_.is_surface() || !has_reckoned_making()) return;
  const std::string node = name_ + "-making";
  if (dated_.count(node) != 0) return;
  if (!graph_.has(node)) describe_part("making", node);
  write_event_span(node, item.made);
}

void RecordWriter::write_event_span(const std::string& node, const Span& when) {
  const std::string span = node + "-span";
  const Days days = days_of({&when.earliest, &when.latest}, sure);
  describe_days(graph_, span, {days.first_begin, {}, {}, days.last_begin});
  graph_.add(node, term::time_span, named(span));
  dated_.insert(node);
}

void RecordWriter::write_standing_time(const TimelineItem& item) {
  const std::string number = std::to_string(item.placement);
  const Bounds bounds{&item.begins.earliest, &item.begins.latest, &item.ends.earliest, &item.ends.latest};
  context_.tally.leaning += leaning(bounds);
  const std::string installed = name_ + "-installed-" + number;
  const std::string removed = name_ + "-removed-" + number;
  if (sure(item.begins.earliest) || sure(item.begins.latest)) {
    if (!graph_.has(installed)) describe_installation(installed, true);
    if (dated_.count(installed) == 0) write_event_span(installed, item.begins);
  }
  // That it has gone is sure only when it had gone by some day.
  if (sure(item.ends.latest)) {
    if (!graph_.has(removed)) describe_installation(removed, false);
    if (dated_.count(removed) == 0) write_event_span(removed, item.ends);
  }
  write_phases_of(item, installed, removed);
  const std::string standing = name_ + "-standing-" + number;
  if (std::none_of(bounds.begin(), bounds.end(), [](const Bound* bound) { return told(*bound); })) return;
  graph_.type(standing, "crm:E93_Presence");
  graph_.add(standing, term::presence_of, named(name_));
  write_reckonings(standing, kReckonedStanding, term::temporally_specified, bounds);
}

void RecordWriter::write_phases_of(const TimelineItem& item, const std::string& installed,
                                   const std::string& removed) {
  const auto leans = [](const Span& span) { return span.earliest.leaned || span.latest.leaned; };
  for (const PhasePart& part : item.phases) {
    const Uuid& phase = context_.dates.phases().at(part.phase).record.id;
    if (part.installed == Membership::certain && !leans(item.begins) && context_.refer(phase)) {
      if (!graph_.has(installed)) describe_installation(installed, true);
      graph_.add(installed, term::falls_within_period, named(record_name(phase)));
    }
    if (part.removed == Membership::certain && !leans(item.ends) && context_.refer(phase)) {
      if (!graph_.has(removed)) describe_installation(removed, false);
      graph_.add(removed, term::falls_within_period, named(record_name(phase)));
    }
  }
}

void RecordWriter::write_phase_time() {
  const auto [phase, next] = context_.dates.phase(entry_.info.id);
  if (phase == nullptr) return;
  Bounds bounds{&phase->opens.earliest, &phase->opens.latest};
  if (next != nullptr) {
    bounds.push_back(&next->opens.earliest);
    bounds.push_back(&next->opens.latest);
    if (context_.refer(next->record.id))
      graph_.add(name_, term::ends_by_start, named(record_name(next->record.id)));
  }
  context_.tally.leaning += leaning(bounds);
  write_reckonings(name_, kReckonedTime, term::time_span, bounds);
}

void RecordWriter::write_reckonings(const std::string& about, const char* property, const char* plain,
                                    const Bounds& bounds) {
  const auto some = [&](auto wanted) {
    return std::any_of(bounds.begin(), bounds.end(), [&](const Bound* bound) { return wanted(*bound); });
  };
  if (some(sure)) {
    const std::string span = about + "-span";
    describe_days(graph_, span, days_of(bounds, sure));
    graph_.add(about, plain, named(span));
    Bounds held;
    std::copy_if(bounds.begin(), bounds.end(), std::back_inserter(held),
                 [](const Bound* bound) { return sure(*bound); });
    write_reckoning(about, "-reckoned", span, property, held);
  }
  // What rests on evidence that is only possible is claimed and not held.
  if (some([](const Bound& bound) { return told(bound) && !sure(bound); })) {
    const std::string span = about + "-perhaps-span";
    describe_days(graph_, span, days_of(bounds, told));
    Bounds all;
    std::copy_if(bounds.begin(), bounds.end(), std::back_inserter(all),
                 [](const Bound* bound) { return told(*bound); });
    write_reckoning(about, "-perhaps-reckoned", span, property, all);
  }
}

void RecordWriter::write_reckoning(const std::string& about, const char* suffix, const std::string& span,
                                   const char* property, const Bounds& bounds) {
  std::set<Digest> premises;
  Level weakest = Level::certain;
  for (const Bound* bound : bounds) {
    weakest = std::max(weakest, bound->level);
    for (const ReasonStep& step : bound->reason)
      if (step.statement != Digest{} && context_.is_premise(step.statement)) premises.insert(step.statement);
  }
  if (premises.empty()) return;
  context_.reckoned = true;
  const std::string claim = about + suffix;
  graph_.type(claim, "crminf:I17_One-Proposition_Set");
  graph_.add(claim, term::domain, named(about));
  graph_.add(claim, term::range, named(span));
  graph_.add(claim, term::property_type, named(property_name(property)));
  const std::string belief = claim + "-belief";
  graph_.type(belief, "crminf:I2_Belief");
  graph_.add(belief, term::that, named(claim));
  graph_.add(belief, term::holds, words(level_word(weakest)));
  const std::string inference = claim + "-inference";
  graph_.type(inference, "crminf:I5_Inference_Making");
  graph_.add(inference, term::concluded, named(belief));
  graph_.add(inference, term::applied_logic, named(kTimelineLogic));
  for (const Digest& premise : premises)
    graph_.add(inference, term::used_premise, named(statement_name(premise, "belief")));
}

void RecordWriter::write_sequence(const Held& one) {
  const auto sequel = std::find_if(kSequels.begin(), kSequels.end(),
                                   [&](const Sequel& row) { return row.relation == one.rule.property; });
  if (sequel == kSequels.end() || !context_.dates.known() || claiming_) return;
  const Content& said = one.statement->content;
  const auto other = Uuid::parse(said.value);
  if (!other) return;
  const std::string here = placement(said.qualifier("placement"), context_.dates.of(entry_.info.id));
  const std::string there = placement(said.qualifier("other-placement"), context_.dates.of(*other));
  if (here.empty() || there.empty()) return;
  const std::string later = name_ + "-installed-" + here;
  const std::string earlier = record_name(*other, "installed-" + there);
  if (!graph_.has(later)) describe_installation(later, true);
  graph_.type(earlier, "crmarchaeo:A4_Stratigraphic_Genesis");
  graph_.add(earlier, term::produced_unit, named(record_name(*other)));
  graph_.add(earlier, sequel->predicate, named(later));
  graph_.add(later, term::stratigraphic_relation, named(earlier));
}

}  // namespace lathbook::crm
