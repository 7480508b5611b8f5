// Numbers the claims and writes their constraints into the network.
#include "plugins/timeline/claims.hpp"

#include <algorithm>
#include <set>

namespace lathbook::timeline {

Cause Claims::of(std::uint32_t fact) {
  const auto [at, is_new] = single_.try_emplace(fact, static_cast<Cause>(claims_.size() + 1));
  if (is_new) {
    // A proposal that somebody lets stand for a not-before is never certain.
    const std::uint8_t least = facts_.at(fact).rule() == "proposed" ? kProbable : kCertain;
    claims_.push_back({{fact}, std::max(least, facts_.at(fact).level)});
  }
  return at->second;
}

Cause Claims::cause_of(const Fact& fact) const {
  const auto found = single_.find(facts_.index_of(fact));
  return found == single_.end() ? kStructural : found->second;
}

Cause Claims::joint(std::vector<std::uint32_t> facts) {
  std::vector<Cause> parts;
  for (const std::uint32_t fact : facts) {
    parts.push_back(of(fact));
    network_.declare(parts.back(), at(parts.back()).level);
  }
  const auto cause = static_cast<Cause>(claims_.size() + 1);
  network_.join(cause, parts);
  claims_.push_back({std::move(facts), network_.level_of(cause)});
  return cause;
}

const LayerOver* Claims::layer_over(const Uuid& lower) const {
  const auto found = over_.find(lower);
  return found == over_.end() ? nullptr : &found->second;
}

void Claims::precede(Cause cause, const MaybeInstant& x, const MaybeInstant& y, Tick gap) {
  if (!x || !y) return;
  Constraint constraint = timeline::precede(*x, *y, gap);
  constraint.cause = cause;
  constraint.level = at(cause).level;
  claims_[cause - 1].used = true;
  network_.add_constraint(constraint);
}

void Claims::within(Cause cause, const DateRange& range, const MaybeInstant& x) {
  if (range.first) precede(cause, Instant::at(first_tick(*range.first)), x);
  if (range.last) precede(cause, x, Instant::at(last_tick(*range.last)));
}

std::uint32_t Claims::choose(Cause cause, std::vector<Case> cases) {
  claims_[cause - 1].used = true;
  return network_.add_choice({std::move(cases), cause, at(cause).level});
}

const std::vector<Either>& Claims::eithers_of(const Uuid& record) const {
  static const std::vector<Either> none;
  const auto found = eithers_.find(record);
  return found == eithers_.end() ? none : found->second;
}

// The cause of a fact is known to the network as soon as it, or one with others, gives a constraint.
bool Claims::is_used(std::uint32_t fact) const {
  const auto found = single_.find(fact);
  return found != single_.end() && network_.level_of(found->second) != 0;
}

void Claims::group(std::uint32_t said, const std::vector<std::uint32_t>& members, std::uint32_t weight) {
  std::vector<Cause> causes;
  for (const std::uint32_t fact : members) causes.push_back(single_.at(fact));
  network_.add_group(causes, weight);
  groups_.push_back({said, members});
}

std::size_t Claims::statements_used() const {
  std::set<std::uint32_t> facts;
  for (const Claim& claim : claims_)
    if (claim.used) facts.insert(claim.facts.begin(), claim.facts.end());
  return facts.size();
}

Instant Claims::moment_of(std::uint32_t fact) {
  const auto [at, is_new] = moments_.try_emplace(fact, kOrigin);
  if (is_new) {
    at->second = network_.add_variable();
    network_.add_latest(at->second, last_tick(facts_.settings().known), kHorizon, 0);
    const auto& range = facts_.at(fact).range;
    if (range) within(of(fact), *range, Instant::of(at->second));
  }
  return Instant::of(at->second);
}

}  // namespace lathbook::timeline
