// Finds the items of a place by walking places, lineage and elements.
#include "plugins/timeline/scope.hpp"

#include <algorithm>
#include <unordered_set>

namespace lathbook::timeline {

namespace {

bool is_fabric(Kind kind) {
  return kind == Kind::element || kind == Kind::finish;
}

// Rooms that this one was split from, and rooms that were merged into it, any number of times.
void add_lineage(const Facts& facts, std::vector<Uuid>& places) {
  std::unordered_set<Uuid> seen(places.begin(), places.end());
  const auto add = [&](const Uuid& place) {
    if (seen.insert(place).second) places.push_back(place);
  };
  for (std::size_t at = 0; at < places.size(); ++at) {
    const Uuid place = places[at];
    for (const std::uint32_t index : facts.about(place)) {
      const Fact& fact = facts.at(index);
      if (fact.name() == "split-from" && fact.level != kNever && fact.object) add(*fact.object);
    }
    for (const std::uint32_t index : facts.naming(place)) {
      const Fact& fact = facts.at(index);
      if (fact.name() == "merged-into" && fact.level != kNever) add(fact.subject());
    }
  }
}

const PhaseLine* line_about(const Facts& facts, const PhaseLines& lines, Uuid place) {
  std::unordered_set<Uuid> seen;
  while (seen.insert(place).second) {
    if (const PhaseLine* line = lines.of(place)) return line;
    const Fact* within = facts.best(place, "within");
    if (!within || !within->object) break;
    place = *within->object;
  }
  return nullptr;
}

const PhaseLine* longest(const PhaseLines& lines) {
  const PhaseLine* found = nullptr;
  for (const PhaseLine& line : lines.all())
    if (!found || line.phases.size() > found->phases.size()) found = &line;
  return found;
}

// Phases of the place itself or what it lies in; else of the first place within it that has some.
const PhaseLine* line_for(const Facts& facts, const PhaseLines& lines, const std::vector<Uuid>& places) {
  if (const PhaseLine* line = line_about(facts, lines, places.front())) return line;
  for (const Uuid& place : places)
    if (const PhaseLine* line = lines.of(place)) return line;
  return nullptr;
}

// Elements of which these places are among those that come into question.
std::vector<Uuid> perhaps_in(const Facts& facts, const Scope& scope) {
  std::unordered_set<Uuid> seen(scope.items.begin(), scope.items.end());
  std::vector<Uuid> found;
  for (const Uuid& place : scope.places)
    for (const std::uint32_t index : facts.naming(place)) {
      const Fact& fact = facts.at(index);
      if (fact.rule() == "one-of-places" && fact.level != kNever && seen.insert(fact.subject()).second)
        found.push_back(fact.subject());
    }
  return found;
}

void add_finishes(const Snapshot& archive, Scope& scope) {
  const auto finishes = archive.finishes_on(scope.items);
  scope.items.insert(scope.items.end(), finishes.begin(), finishes.end());
}

bool has_making(const Facts& facts, const Uuid& piece) {
  const auto& about = facts.about(piece);
  return std::any_of(about.begin(), about.end(), [&](std::uint32_t index) {
    const std::string_view rule = facts.at(index).rule();
    return rule == "made-in" || rule == "made-after" || rule == "original";
  });
}

// A piece belongs where its element is, or where it is judged original.
void add_pieces(const Facts& facts, Scope& scope, bool all) {
  const std::unordered_set<Uuid> items(scope.items.begin(), scope.items.end());
  for (const RecordInfo& record : facts.records()) {
    if ((record.kind != Kind::piece && record.kind != Kind::find) || !has_making(facts, record.id)) continue;
    const auto& about = facts.about(record.id);
    const bool belongs = std::any_of(about.begin(), about.end(), [&](std::uint32_t index) {
      const Fact& fact = facts.at(index);
      return (fact.name() == "piece-of" || fact.rule() == "original") && fact.object &&
             items.count(*fact.object) != 0;
    });
    if (all || belongs) scope.pieces.push_back(record.id);
  }
}

}  // namespace

Scope scope_of(const Snapshot& archive, const Facts& facts, const PhaseLines& lines, const Uuid& id) {
  Scope scope;
  if (id == Uuid{}) {
    for (const RecordInfo& record : facts.records())
      if (is_fabric(record.kind)) scope.items.push_back(record.id);
    scope.phases = longest(lines);
    add_pieces(facts, scope, true);
    return scope;
  }
  const RecordInfo* record = facts.record(id);
  if (!record) fail(ErrorKind::not_found, "there is no record " + id.text() + " to make a timeline of");
  scope.record = *record;
  if (record->kind == Kind::place) {
    scope.places = archive.places_within(id);
    scope.is_room = scope.places.size() == 1;
    add_lineage(facts, scope.places);
    scope.items = archive.elements_in(scope.places);
    scope.perhaps = perhaps_in(facts, scope);
    scope.phases = line_for(facts, lines, scope.places);
  } else if (is_fabric(record->kind)) {
    scope.items = {id};
    for (const std::uint32_t index : facts.about(id)) {
      const Fact& fact = facts.at(index);
      const bool stands =
          fact.name() == "stands-in" || fact.name() == "fitted-in" || fact.name() == "perhaps-in";
      if (stands && fact.object && !scope.phases) scope.phases = line_about(facts, lines, *fact.object);
    }
    if (!scope.phases) scope.phases = longest(lines);
  } else if (record->kind == Kind::piece || record->kind == Kind::find) {
    scope.pieces = {id};
    return scope;
  } else if (record->kind == Kind::phase) {
    const Fact* place = facts.best(id, "phase-of");
    if (place && place->object) scope.phases = lines.of(*place->object);
    return scope;
  } else if (record->kind == Kind::source || record->kind == Kind::campaign) {
    return scope;
  } else {
    fail(ErrorKind::invalid,
         display(*record) + " is a " + std::string(word(record->kind)) +
             "; a timeline is made of a place, an element, a finish, a piece, a source, a "
             "campaign or a phase");
  }
  add_finishes(archive, scope);
  add_pieces(facts, scope, false);
  return scope;
}

}  // namespace lathbook::timeline
