// Solves the network of the archive and fills the result for the scope.
#include "plugins/timeline/result.hpp"

#include <algorithm>
#include <set>
#include <unordered_set>

#include "core/base/number.hpp"
#include "core/base/text.hpp"
#include "plugins/timeline/conflicts.hpp"
#include "plugins/timeline/items.hpp"
#include "plugins/timeline/links.hpp"
#include "plugins/timeline/rules.hpp"
#include "plugins/timeline/scope.hpp"
#include "plugins/timeline/suggestions.hpp"
#include "plugins/timeline/what_if.hpp"
#include "plugins/timeline/worklist.hpp"

namespace lathbook::timeline {

namespace {

constexpr std::size_t kMostTasks = 12;

std::optional<Var> var_of(const MaybeInstant& instant) {
  if (!instant) return std::nullopt;
  return instant->low;
}

const Fact* opener(const Facts& facts, const Uuid& phase) {
  const Fact* fact = facts.best(phase, "opened-by");
  return fact && fact->level != kNever && fact->object ? fact : nullptr;
}

std::vector<PhaseVars> phase_vars(const Claims& claims, const PhaseLine* line) {
  std::vector<PhaseVars> vars;
  if (!line) return vars;
  for (const NumberedPhase& phase : line->phases) {
    PhaseVars& one = vars.emplace_back();
    one.opens = var_of(claims.instants().phase(phase.phase)).value_or(kOrigin);
    const Fact* opened = opener(claims.facts(), phase.phase);
    if (!opened) continue;
    one.works_begin = var_of(claims.instants().works_begin(*opened->object));
    one.works_end = var_of(claims.instants().works_end(*opened->object));
  }
  return vars;
}

std::vector<TimelinePhase> phases_of(const Claims& claims, const Reasons& reasons, const PhaseLine* line) {
  std::vector<TimelinePhase> phases;
  if (!line) return phases;
  const auto vars = phase_vars(claims, line);
  for (std::size_t at = 0; at < vars.size(); ++at) {
    TimelinePhase& phase = phases.emplace_back();
    const Uuid& id = line->phases[at].phase;
    if (const RecordInfo* record = claims.facts().record(id)) phase.record = *record;
    phase.number = line->phases[at].number;
    phase.opens = reasons.span(vars[at].opens);
    if (vars[at].works_end) phase.works_end = reasons.span(*vars[at].works_end);
    const Fact* opened = opener(claims.facts(), id);
    const RecordInfo* campaign = opened ? claims.facts().record(*opened->object) : nullptr;
    if (campaign) phase.campaign = *campaign;
  }
  return phases;
}

// Works of the scope's places, those that open its phases, and those that its items' statements name.
std::vector<TimelineWorks> works_of(const Claims& claims, const Reasons& reasons, const Scope& scope) {
  const Facts& facts = claims.facts();
  std::unordered_set<Uuid> named;
  for (const Uuid& item : scope.items)
    for (const std::uint32_t index : facts.about(item))
      if (facts.at(index).object) named.insert(*facts.at(index).object);
  for (const Uuid& place : scope.places)
    for (const std::uint32_t index : facts.naming(place))
      if (facts.at(index).name() == "campaign-of") named.insert(facts.at(index).subject());
  if (scope.phases)
    for (const NumberedPhase& phase : scope.phases->phases)
      if (const Fact* opened = opener(facts, phase.phase)) named.insert(*opened->object);
  named.insert(scope.record.id);
  std::vector<TimelineWorks> works;
  for (const RecordInfo& record : facts.records()) {
    const auto begin = claims.instants().works_begin(record.id);
    const auto end = claims.instants().works_end(record.id);
    if (!begin || !end || (scope.record.id != Uuid{} && named.count(record.id) == 0)) continue;
    works.push_back({record, reasons.span(begin->low), reasons.span(end->low)});
  }
  return works;
}

// Sources that the items' own statements name, in natural order of codes.
std::vector<TimelineEvent> sources_of(const Claims& claims, const Reasons& reasons, const Scope& scope) {
  std::unordered_set<Uuid> named;
  for (const Uuid& item : scope.items)
    for (const std::uint32_t index : claims.facts().about(item)) {
      const Fact& fact = claims.facts().at(index);
      if (fact.object && !fact.rule().empty()) named.insert(*fact.object);
    }
  named.insert(scope.record.id);
  std::vector<TimelineEvent> sources;
  for (const RecordInfo& record : claims.facts().records()) {
    if (record.kind != Kind::source || named.count(record.id) == 0) continue;
    const auto var = var_of(claims.instants().source(record.id));
    if (var) sources.push_back({record.id, reasons.span(*var)});
  }
  return sources;
}

// Elements that may have been here in some way that all can have been, with their finishes.
void add_perhaps(const Snapshot& archive, const Eithers& eithers, Scope& scope) {
  std::vector<Uuid> here;
  for (const Uuid& item : scope.perhaps)
    if (eithers.may_be_in(item, scope.places)) here.push_back(item);
  const auto finishes = archive.finishes_on(here);
  scope.items.insert(scope.items.end(), here.begin(), here.end());
  scope.items.insert(scope.items.end(), finishes.begin(), finishes.end());
}

// By earliest beginning (or, without one, by what is known of it), then by code; the undated last.
void sort_items(std::vector<TimelineItem>& items) {
  const auto day = [](const TimelineItem& item) {
    for (const Bound* bound : {&item.begins.earliest, &item.made.earliest, &item.begins.latest})
      if (bound->known) return bound->day;
    return INT64_MAX;
  };
  struct Key {
    Day day;
    std::string code;
    int placement;
    std::size_t at;
    auto operator<=>(const Key&) const = default;
  };
  std::vector<Key> keys;
  for (std::size_t at = 0; at < items.size(); ++at)
    keys.push_back({day(items[at]), sort_key(items[at].record.code), items[at].placement, at});
  std::sort(keys.begin(), keys.end());
  std::vector<TimelineItem> sorted;
  sorted.reserve(items.size());
  for (const Key& key : keys) sorted.push_back(std::move(items[key.at]));
  items = std::move(sorted);
}

std::unordered_set<Uuid> records_of(const Scope& scope) {
  std::unordered_set<Uuid> records(scope.items.begin(), scope.items.end());
  records.insert(scope.record.id);
  records.insert(scope.pieces.begin(), scope.pieces.end());
  if (scope.phases)
    for (const NumberedPhase& phase : scope.phases->phases) records.insert(phase.phase);
  return records;
}

// A setting that is yes or no.
bool asked_for(const AnalysisRequest& request, std::string_view name) {
  bool asked = false;
  for (const auto& [key, value] : request.settings) {
    if (key != name) continue;
    if (value != "yes" && value != "no")
      fail(ErrorKind::invalid, "the setting '" + std::string(name) + "' is yes or no, not " + quote(value));
    asked = value == "yes";
  }
  return asked;
}

// What else a date leans on, for one record at a time: each link is a part of the network solved anew.
void add_links(const Claims& claims, const Words& words, const Solution& solution, const Options& options,
               Timeline& timeline) {
  const std::uint8_t level = options.max_level;
  WhatIf what_if(claims, words, solution, options, level);
  const Instants& instants = claims.instants();
  for (TimelineItem& item : timeline.items) {
    const Uuid& id = item.record.id;
    if (id != timeline.scope.id) continue;
    if (const auto made = instants.made(id)) what_if.fill(item.made, made->low, item.record, Event::made);
    if (const auto begin = instants.begin(id, item.placement); begin && item.placement > 0)
      what_if.fill(item.begins, begin->low, item.record, Event::placed);
    if (const auto end = instants.end(id, item.placement); end && item.placement > 0)
      what_if.fill(item.ends, end->low, item.record, Event::gone);
  }
  for (TimelineWorks& works : timeline.works) {
    if (works.record.id != timeline.scope.id) continue;
    what_if.fill(works.begins, instants.works_begin(works.record.id)->low, works.record, Event::works_began);
    what_if.fill(works.ends, instants.works_end(works.record.id)->low, works.record, Event::works_ended);
  }
  for (TimelinePhase& phase : timeline.phases)
    if (phase.record.id == timeline.scope.id)
      what_if.fill(phase.opens, instants.phase(phase.record.id)->low, phase.record, Event::phase_opened);
  for (TimelineEvent& event : timeline.sources)
    if (event.source == timeline.scope.id)
      what_if.fill(event.when, instants.source(event.source)->low, timeline.scope, Event::source_made);
}

// Setting 'answer': of equally good ways out of a contradiction the one to take, from 1; 0 takes none.
std::uint32_t wanted_answer(const AnalysisRequest& request) {
  std::uint32_t answer = 0;
  for (const auto& [name, value] : request.settings) {
    if (name != "answer") continue;
    const auto number = number_in<std::uint32_t>(value);
    if (!number)
      fail(ErrorKind::invalid, "The timeline's setting 'answer' is '" + value +
                                   "', which is no number; give 1 for the first way out, 2 for the second");
    answer = *number;
  }
  return answer;
}

// Where there are fewer ways out the last is taken; where no contradiction has so many, nobody meant that.
void refuse_answer(std::uint32_t answer, const std::vector<TimelineConflict>& conflicts) {
  std::size_t most = 1;
  for (const auto& conflict : conflicts) most = std::max(most, conflict.ways_out.size());
  if (answer <= most) return;
  if (most == 1)
    fail(ErrorKind::invalid,
         "no contradiction here has several equally good ways out, so there is no answer " +
             std::to_string(answer) + " to take");
  fail(ErrorKind::invalid, "no contradiction here has " + std::to_string(answer) +
                               " equally good ways out; the answer is a number from 1 to " +
                               std::to_string(most));
}

// Of a claim that rests on several statements the one that was set aside.
Digest left_out(const Claims& claims, const Solution& solution, Cause cause, std::uint8_t level) {
  const auto& facts = claims.at(cause).facts;
  for (const std::uint32_t index : facts) {
    const Cause own = claims.cause_of(claims.facts().at(index));
    if (own != kStructural && solution.is_aside(own, level)) return claims.facts().at(index).statement.id;
  }
  return claims.facts().at(facts.front()).statement.id;
}

// Statements set aside that one of the dates of these records leans on.
std::set<Digest> leaned_on(const Claims& claims, const Solution& solution, const Scope& scope,
                           std::uint8_t level) {
  std::set<Digest> leaned;
  const auto take = [&](const MaybeInstant& instant) {
    if (!instant) return;
    for (const Side side : {Side::earliest, Side::latest}) {
      const Cause cause = solution.leans_on(instant->low, side, level);
      if (cause != kStructural && cause != kHorizon) leaned.insert(left_out(claims, solution, cause, level));
    }
  };
  const auto take_all = [&](const Uuid& id) {
    const Instants& instants = claims.instants();
    take(instants.made(id));
    for (int placement = 1; placement <= instants.placements(id); ++placement) {
      take(instants.begin(id, placement));
      take(instants.end(id, placement));
    }
    take(instants.source(id));
    take(instants.works_begin(id));
    take(instants.works_end(id));
    take(instants.phase(id));
  };
  for (const Uuid& item : scope.items) take_all(item);
  for (const Uuid& piece : scope.pieces) take_all(piece);
  take_all(scope.record.id);
  if (scope.phases)
    for (const NumberedPhase& phase : scope.phases->phases) take_all(phase.phase);
  return leaned;
}

}  // namespace

Timeline make_timeline(const Snapshot& archive, const AnalysisRequest& request, Services& services) {
  const Facts facts(archive, request, services);
  const PhaseLines lines(facts);
  Scope scope = scope_of(archive, facts, lines, request.scope);
  Network network;
  const Instants instants(facts, network);
  Claims claims(facts, instants, lines, network);
  apply_rules(claims);

  const auto level = static_cast<std::uint8_t>(request.level);
  Options options;
  options.max_level = level;
  options.answer = wanted_answer(request);
  const Solution solution = solve(network, options);
  const Words words(facts);
  const Reasons reasons(claims, words, solution, level);
  const PhaseMembership membership(solution, level, phase_vars(claims, scope.phases), facts.settings().known);

  Timeline timeline;
  timeline.scope = scope.record;
  timeline.reading = archive.reading();
  timeline.level = request.level;
  timeline.phases = phases_of(claims, reasons, scope.phases);
  const Duplicates duplicates(claims, solution, level);
  const Eithers eithers(claims, words, solution, level);
  const Items items(claims, words, reasons, solution, membership, duplicates, eithers, scope, level);
  add_perhaps(archive, eithers, scope);
  const std::uint64_t total = scope.items.size() + scope.pieces.size();
  for (const Uuid& item : scope.items) {
    if (services.stop_requested()) return timeline;
    items.add_placements(item, timeline.items);
    services.progress(timeline.items.size(), total);
  }
  for (const Uuid& piece : scope.pieces) items.add_piece(piece, timeline.items);
  sort_items(timeline.items);
  const bool all = request.scope == Uuid{};
  const auto records = all ? std::unordered_set<Uuid>{} : records_of(scope);
  timeline.network = network_of(claims, solution, records, level);
  timeline.works = works_of(claims, reasons, scope);
  timeline.sources = sources_of(claims, reasons, scope);
  timeline.conflicts =
      conflicts_of(claims, words, solution, records, leaned_on(claims, solution, scope, level));
  refuse_answer(options.answer, timeline.conflicts);
  timeline.set_aside_by_ruling = facts.ruled_out();
  timeline.settings = facts.settings().steps();
  timeline.statements_used = claims.statements_used();
  const bool every_task = asked_for(request, "all-tasks");
  if (asked_for(request, "tasks") || every_task || scope.is_room) {
    Worklist worklist(claims, words, solution, scope, level);
    timeline.tasks = every_task ? worklist.tasks() : worklist.tasks(kMostTasks);
  }
  timeline.proposals = suggested_works(claims, words, scope, timeline);
  if (asked_for(request, "links")) add_links(claims, words, solution, options, timeline);
  return timeline;
}

}  // namespace lathbook::timeline
