// Walking the reasons of bounds, and putting links into words a caller can print from.
#include "plugins/timeline/network_reasons.hpp"

#include <unordered_map>

namespace lathbook::timeline {

Step State::describe(Link link) const {
  Step step;
  if (is_derived(link)) {
    const Derived& bound = derived_of(link);
    const Var var = graph.order[bound.node];
    step.choice = bound.choice;
    step.cases = link - graph.first_derived();
    step.from = bound.side == Side::latest ? kOrigin : var;
    step.to = bound.side == Side::latest ? var : kOrigin;
    step.weight = bound.weight;
    step.cause = network().choices()[bound.choice].cause;
    step.level = network().choices()[bound.choice].level;
    return step;
  }
  const Constraint& constraint = graph.constraint(link);
  step.from = constraint.from;
  step.to = constraint.to;
  step.weight = constraint.weight;
  step.cause = constraint.cause;
  step.level = constraint.level;
  if (!graph.is_option(link)) {
    step.constraint = link;
    return step;
  }
  const auto option = static_cast<std::uint32_t>(link - network().constraints().size());
  const std::uint32_t alternative = network().alternative_of(option);
  step.choice = network().alternatives()[alternative].choice;
  step.alternative = alternative - network().choices()[step.choice].first_alternative;
  return step;
}

Refutation State::describe(const Refuted& refuted) const {
  Refutation words;
  words.choice = refuted.choice;
  words.alternative = refuted.alternative;
  words.level = refuted.level;
  words.clash = -sum_of(*this, refuted.loop);
  words.claims = refuted.support;
  words.assumed = refuted.assumed;
  for (const Link link : refuted.loop) words.loop.push_back(describe(link));
  return words;
}

std::vector<Link> chain_of(const State& state, const Values& values, Var var, Side side) {
  std::vector<Link> chain;
  while (var != kOrigin) {
    const Link link = values[state.graph.place[var]].link;
    if (link == kNone) return {};
    chain.push_back(link);
    var = state.before(link, side);
  }
  if (side == Side::latest) std::reverse(chain.begin(), chain.end());
  return chain;
}

void sort_unique(std::vector<Cause>& claims) {
  std::sort(claims.begin(), claims.end());
  claims.erase(std::unique(claims.begin(), claims.end()), claims.end());
}

void add_parts(const Network& network, Cause cause, std::vector<Cause>& claims) {
  if (const auto* parts = network.parts_of(cause))
    claims.insert(claims.end(), parts->begin(), parts->end());
  else
    claims.push_back(cause);
}

void add_claims(const State& state, Link link, std::vector<Cause>& claims) {
  if (state.is_derived(link)) {
    const auto& support = state.derived_of(link).support;
    claims.insert(claims.end(), support.begin(), support.end());
    return;
  }
  const Constraint& constraint = state.graph.constraint(link);
  if (constraint.level == 0) return;
  add_parts(state.network(), constraint.cause, claims);
  if (!state.graph.is_option(link)) return;
  for (const Refuted& refuted : state.choices[state.describe(link).choice].refuted)
    claims.insert(claims.end(), refuted.support.begin(), refuted.support.end());
}

std::vector<Cause> claims_of(const State& state, const std::vector<Link>& links) {
  std::vector<Cause> claims;
  for (const Link link : links) add_claims(state, link, claims);
  sort_unique(claims);
  return claims;
}

std::vector<Refuted> refuted_behind(const State& state, const std::vector<Link>& links) {
  std::vector<Refuted> behind;
  std::vector<bool> seen(state.choices.size(), false);
  std::vector<Link> open = links;
  while (!open.empty()) {
    const Link link = open.back();
    open.pop_back();
    const bool derived = state.is_derived(link);
    if (!derived && !state.graph.is_option(link)) continue;
    if (derived)
      for (const Derived::Case& one : state.derived_of(link).cases)
        open.insert(open.end(), one.chain.begin(), one.chain.end());
    const std::uint32_t choice = state.describe(link).choice;
    if (seen[choice]) continue;
    seen[choice] = true;
    for (const Refuted& refuted : state.choices[choice].refuted) {
      behind.push_back(refuted);
      open.insert(open.end(), refuted.loop.begin(), refuted.loop.end());
    }
  }
  return behind;
}

Tick sum_of(const State& state, const std::vector<Link>& links) {
  Tick sum = 0;
  for (const Link link : links) sum += state.weight_of(link);
  return sum;
}

Var from_of(const State& state, Link link) {
  return state.describe(link).from;
}
Var to_of(const State& state, Link link) {
  return state.describe(link).to;
}

std::vector<Link> simple_loop(const State& state, const std::vector<Link>& walk) {
  std::vector<Link> kept;
  std::vector<Var> at = {from_of(state, walk.front())};  // where the walk stands after each kept link
  std::unordered_map<Var, std::size_t> position = {{at.front(), 0}};
  for (const Link link : walk) {
    kept.push_back(link);
    const Var to = to_of(state, link);
    const auto known = position.find(to);
    if (known == position.end()) {
      at.push_back(to);
      position.emplace(to, kept.size());
      continue;
    }
    const auto start = kept.begin() + static_cast<std::ptrdiff_t>(known->second);
    std::vector<Link> loop(start, kept.end());
    if (sum_of(state, loop) < 0) return loop;
    kept.erase(start, kept.end());
    while (at.size() > kept.size() + 1) {
      position.erase(at.back());
      at.pop_back();
    }
  }
  return kept;
}

}  // namespace lathbook::timeline
