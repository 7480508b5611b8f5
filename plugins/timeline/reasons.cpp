// Walks a chain from its dated end and says each claim once.
#include "plugins/timeline/reasons.hpp"

#include <algorithm>
#include <set>

namespace lathbook::timeline {

// What has been said of a chain so far.
struct Reasons::Chain {
  std::vector<ReasonStep> steps;
  std::set<Cause> said;
  std::uint8_t level = kCertain;
};

namespace {

bool is_claim(Cause cause) {
  return cause != kStructural && cause != kHorizon;
}

}  // namespace

void Reasons::add_claim(Cause cause, const std::string& before, Chain& chain) const {
  if (!is_claim(cause)) return;
  const Claim& claim = claims_.at(cause);
  chain.level = std::max(chain.level, claim.level);
  if (!chain.said.insert(cause).second) return;
  for (const std::uint32_t fact : claim.facts) {
    ReasonStep step = words_.step(claims_.facts().at(fact));
    step.words.insert(0, before);
    const bool is_known = std::any_of(chain.steps.begin(), chain.steps.end(), [&](const ReasonStep& other) {
      return other.statement == step.statement;
    });
    if (!is_known) chain.steps.push_back(std::move(step));
  }
}

// A choice that is settled leans on what rules the other cases out.
void Reasons::add_refuted(std::uint32_t choice, Chain& chain) const {
  for (const Refutation& refutation : solution_.refuted(choice, level_))
    for (const Step& step : refutation.loop)
      if (step.choice != choice) add_claim(step.cause, "it cannot have been otherwise, since ", chain);
}

void Reasons::add_step(const Step& step, Chain& chain) const {
  if (step.cases != kNone) {
    for (const Solution::Case& one : solution_.cases(step.cases))
      for (const Step& inner : one.steps)
        if (inner.cause != step.cause) add_claim(inner.cause, "in one of the cases left open, ", chain);
    add_claim(step.cause, "whichever way it was: ", chain);
    return;
  }
  add_claim(step.cause, "", chain);
  if (step.choice != kNone) add_refuted(step.choice, chain);
}

Bound Reasons::bound(Var var, Side side) const {
  const bool is_latest = side == Side::latest;
  const Bounds bounds = solution_.bounds(var, level_);
  const std::uint8_t remarks = solution_.remarks(var, level_);
  const auto has = [&](std::uint8_t latest, std::uint8_t earliest) {
    return (remarks & (is_latest ? latest : earliest)) != 0;
  };
  Bound bound;
  bound.known = !has(kLatestNoEvidence, kEarliestNoEvidence);
  bound.perhaps_wide = has(kLatestWide, kEarliestWide);
  bound.leaned = has(kLatestLeans, kEarliestLeans);
  const Tick tick = is_latest ? bounds.latest : bounds.earliest;
  if (tick == kUnbounded || tick == -kUnbounded) return bound;
  bound.day = day_of(tick);
  Chain chain;
  for (const Step& step : chains_.of(var, side)) {
    if (step.cause == kHorizon) chain.steps.push_back({Digest{}, "the limits of the inquiry"});
    add_step(step, chain);
  }
  bound.reason = std::move(chain.steps);
  bound.level = static_cast<Level>(chain.level);
  return bound;
}

// Stretches that begin on the day, or the day after, on which the one before ends are one in days.
Span Reasons::span(Var var) const {
  Span span{bound(var, Side::earliest), bound(var, Side::latest)};
  if (!span.earliest.known || !span.latest.known) return span;
  for (const Bounds& part : solution_.spans(var, level_)) {
    const DayRange days{day_of(part.earliest), day_of(part.latest)};
    if (!span.parts.empty() && days.first <= span.parts.back().last + 1)
      span.parts.back().last = days.last;
    else
      span.parts.push_back(days);
  }
  if (span.parts.size() < 2) span.parts.clear();
  return span;
}

const Fact* Reasons::last_fact(Var var, Side side) const {
  const auto steps = chains_.of(var, side);
  for (auto step = steps.rbegin(); step != steps.rend(); ++step)
    if (is_claim(step->cause)) return &claims_.facts().at(claims_.at(step->cause).facts.front());
  return nullptr;
}

}  // namespace lathbook::timeline
