// Looks backwards from the bound, fewest statements first, along constraints that keep to its day.
#include "plugins/timeline/chains.hpp"

#include <algorithm>
#include <functional>
#include <queue>
#include <set>
#include <tuple>
#include <unordered_set>

#include "plugins/timeline/instants.hpp"

namespace lathbook::timeline {

namespace {

// More is seldom needed; the engine's own chain serves when a search is cut short.
constexpr std::size_t kMostVisits = 400;

bool is_claim(Cause cause) {
  return cause != kStructural && cause != kHorizon;
}

// How sure and how long: the weakest level, then the number of claims.
std::pair<std::uint8_t, std::size_t> measure(const std::vector<Step>& steps) {
  std::set<Cause> claims;
  std::uint8_t level = 0;
  for (const Step& step : steps) {
    // An 'or' row is worth several statements: it leans on what settles it.
    if (step.choice != kNone) return {kPossible + 1, steps.size()};
    if (!is_claim(step.cause)) continue;
    claims.insert(step.cause);
    level = std::max(level, step.level);
  }
  return {level, claims.size()};
}

}  // namespace

struct Chains::Search {
  struct Visit {
    Var var = kOrigin;
    Tick sum = 0;                      ///< of the weights from here to the bound
    std::size_t cost = 0;              ///< claims so far
    std::size_t next = 0;              ///< the visit one step nearer to the bound
    std::uint32_t constraint = kNone;  ///< by which that step goes
  };
  Side side = Side::latest;
  std::uint8_t level = 0;
  Day day = 0;
  std::vector<Visit> visits;
  using Entry = std::pair<std::size_t, std::size_t>;  // cost, visit
  std::priority_queue<Entry, std::vector<Entry>, std::greater<>> open;
};

Chains::Chains(const Network& network, const Solution& solution, std::uint8_t level)
    : network_(network),
      solution_(solution),
      level_(level),
      into_{index(Side::latest), index(Side::earliest)} {}

Chains::Into Chains::index(Side side) const {
  const auto& constraints = network_.constraints();
  const auto head = [&](const Constraint& one) { return side == Side::latest ? one.to : one.from; };
  Into into;
  into.begin.assign(network_.variables() + 1, 0);
  for (const Constraint& one : constraints) ++into.begin[head(one) + 1];
  for (std::size_t var = 0; var < network_.variables(); ++var) into.begin[var + 1] += into.begin[var];
  into.constraints.resize(constraints.size());
  std::vector<std::uint32_t> next(into.begin.begin(), into.begin.end() - 1);
  for (std::uint32_t at = 0; at < constraints.size(); ++at)
    into.constraints[next[head(constraints[at])]++] = at;
  return into;
}

void Chains::expand(Search& search, std::size_t at) const {
  const Search::Visit visit = search.visits[at];
  const Into& into = into_[static_cast<std::size_t>(search.side)];
  for (std::uint32_t index = into.begin[visit.var]; index < into.begin[visit.var + 1]; ++index) {
    const Constraint& one = network_.constraints()[into.constraints[index]];
    if (one.cause == kHorizon || one.level > search.level) continue;
    if (is_claim(one.cause) && solution_.is_aside(one.cause, level_)) continue;
    const bool is_latest = search.side == Side::latest;
    const Var from = is_latest ? one.from : one.to;
    const Tick sum = visit.sum + (is_latest ? one.weight : -one.weight);
    const Bounds bounds = solution_.bounds(from, level_);
    const Tick start = is_latest ? bounds.latest : bounds.earliest;
    if (start == kUnbounded || start == -kUnbounded || day_of(start + sum) != search.day) continue;
    search.visits.push_back(
        {from, sum, visit.cost + (is_claim(one.cause) ? 1U : 0U), at, into.constraints[index]});
    search.open.emplace(search.visits.back().cost, search.visits.size() - 1);
  }
}

std::vector<Step> Chains::plain(Var var, Side side, std::uint8_t most_level) const {
  const Bounds bounds = solution_.bounds(var, level_);
  Search search;
  search.side = side;
  search.level = most_level;
  search.day = day_of(side == Side::latest ? bounds.latest : bounds.earliest);
  search.visits.push_back({var, 0, 0, 0, kNone});
  search.open.emplace(0, 0);
  std::unordered_set<Var> done;
  while (!search.open.empty() && done.size() < kMostVisits) {
    std::size_t at = search.open.top().second;
    search.open.pop();
    const Var here = search.visits[at].var;
    if (here == kOrigin) {
      std::vector<Step> steps;
      for (; at != 0; at = search.visits[at].next) {
        const std::uint32_t index = search.visits[at].constraint;
        const Constraint& one = network_.constraints()[index];
        Step& step = steps.emplace_back();
        step.constraint = index;
        std::tie(step.from, step.to, step.weight) = std::tie(one.from, one.to, one.weight);
        step.cause = one.cause;
        step.level = one.level;
      }
      return steps;
    }
    if (done.insert(here).second) expand(search, at);
  }
  return {};
}

std::vector<Step> Chains::of(Var var, Side side) const {
  std::vector<Step> exact = solution_.reason(var, side, level_);
  const bool from_limits =
      std::any_of(exact.begin(), exact.end(), [](const Step& step) { return step.cause == kHorizon; });
  if (exact.empty() || from_limits) return exact;
  const auto known = measure(exact);
  for (std::uint8_t most_level = kCertain; most_level <= level_; ++most_level) {
    std::vector<Step> steps = plain(var, side, most_level);
    if (steps.empty()) continue;
    return measure(steps) < known ? steps : exact;
  }
  return exact;
}

}  // namespace lathbook::timeline
