// Constraints that two statements give only together; each carries both.
#include <algorithm>
#include <cstdlib>

#include "plugins/timeline/rules.hpp"

namespace lathbook::timeline {

namespace {

// S(p) + 1 <= S(p+1), which rests on both numbers.
void phase_order(Claims& claims) {
  for (const PhaseLine& line : claims.phases().all()) {
    for (const NumberedPhase& phase : line.phases) {
      const NumberedPhase* next = claims.phases().after(phase.phase);
      if (!next) continue;
      claims.precede(claims.joint({phase.fact, next->fact}), claims.instants().phase(phase.phase),
                     claims.instants().phase(next->phase), 1);
    }
  }
}

// A coat with its number on the thing it coats, as read there by somebody.
struct Coat {
  long number = 0;
  std::uint32_t layer = 0;  ///< the statement of the number
  std::uint32_t on = 0;     ///< the statement of what it coats
};

// Coats of each thing, in the order in which the things are first named.
std::vector<std::vector<Coat>> coats_of_things(const Facts& facts) {
  std::vector<std::vector<Coat>> things;
  std::unordered_map<Uuid, std::size_t> place;
  for (const RecordInfo& record : facts.records()) {
    if (record.kind != Kind::finish) continue;
    const Fact* layer = facts.best(record.id, "layer");
    const Fact* on = facts.best(record.id, "finish-on");
    if (!layer || !on || !dates(*layer) || !dates(*on) || !on->object) continue;
    // Numbers copied from a report or guessed from another room order nothing.
    if (layer->content().evidence != EvidenceClass::physical) continue;
    const auto [at, is_new] = place.try_emplace(*on->object, things.size());
    if (is_new) things.emplace_back();
    things[at->second].push_back({std::strtol(layer->content().value.c_str(), nullptr, 10),
                                  facts.index_of(*layer), facts.index_of(*on)});
  }
  return things;
}

// Layer k+1 lies over layer k of the same thing. Where a number is given twice the numbers are of several
// spots, and nobody has said how they go together: then none of them orders anything.
void layers(Claims& claims) {
  const Facts& facts = claims.facts();
  for (std::vector<Coat>& coats : coats_of_things(facts)) {
    std::stable_sort(coats.begin(), coats.end(),
                     [](const Coat& a, const Coat& b) { return a.number < b.number; });
    const auto equal = [](const Coat& a, const Coat& b) { return a.number == b.number; };
    if (std::adjacent_find(coats.begin(), coats.end(), equal) != coats.end()) continue;
    for (std::size_t at = 0; at + 1 < coats.size(); ++at) {
      const Uuid& lower = facts.at(coats[at].layer).subject();
      const Uuid& upper = facts.at(coats[at + 1].layer).subject();
      if (claims.instants().placements(lower) != 1 || claims.instants().placements(upper) != 1) continue;
      const Cause cause =
          claims.joint({coats[at].layer, coats[at + 1].layer, coats[at].on, coats[at + 1].on});
      const MaybeInstant begin = claims.instants().begin(upper, 1);
      claims.precede(cause, claims.instants().begin(lower, 1), begin, 1);
      claims.precede(cause, begin, claims.instants().end(lower, 1), 1);
      claims.set_layer_over(lower, {upper, cause});
    }
  }
}

// What is bonded with a part of known works was put up in the same works.
void bonded_campaign(Claims& claims, std::uint32_t bond, const Uuid& known, const Uuid& with) {
  const Facts& facts = claims.facts();
  if (claims.instants().placements(known) != 1 || claims.instants().placements(with) != 1) return;
  for (const std::uint32_t index : facts.about(known)) {
    const Fact& works = facts.at(index);
    if (works.rule() != "of-campaign" || !dates(works) || !works.object) continue;
    const MaybeInstant begin = claims.instants().begin(with, 1);
    const Cause cause = claims.joint({bond, index});
    claims.precede(cause, claims.instants().works_begin(*works.object), begin);
    claims.precede(cause, begin, claims.instants().works_end(*works.object), 1);
  }
}

// What rests on one source alone, so that nothing else would hold it up.
bool rests_on(const Fact& fact, const Uuid& source) {
  if (fact.subject() == source) return false;
  if (fact.object == source) return true;
  const auto& citations = fact.content().citations;
  return !citations.empty() && std::all_of(citations.begin(), citations.end(), [&](const Citation& citation) {
    return citation.source == source;
  });
}

// Giving up all that a source says weighs more than one statement and less than two.
constexpr std::uint32_t kGroupWeight = kClaimWeight + kClaimWeight / 2;

}  // namespace

bool dates(const Fact& fact) {
  return fact.level != kNever && fact.is_complete();
}

void apply_groups(Claims& claims) {
  const Facts& facts = claims.facts();
  for (const RecordInfo& record : facts.records()) {
    if (record.kind != Kind::source) continue;
    const Fact* whole = facts.best(record.id, "falls-together");
    if (!whole || whole->level == kNever || whole->content().value != "yes") continue;
    std::vector<std::uint32_t> members;
    for (std::uint32_t index = 0; index < facts.all().size(); ++index)
      if (claims.is_used(index) && rests_on(facts.at(index), record.id)) members.push_back(index);
    if (members.size() > 1) claims.group(facts.index_of(*whole), members, kGroupWeight);
  }
}

void apply_joint_rules(Claims& claims) {
  const auto count = static_cast<std::uint32_t>(claims.facts().all().size());
  phase_order(claims);
  layers(claims);
  for (std::uint32_t index = 0; index < count; ++index) {
    const Fact& fact = claims.facts().at(index);
    if (!dates(fact)) continue;
    if (fact.rule() == "bonded" && fact.object) {
      bonded_campaign(claims, index, fact.subject(), *fact.object);
      bonded_campaign(claims, index, *fact.object, fact.subject());
    }
  }
}

}  // namespace lathbook::timeline
