// Remarks on bounds: which lean on a claim that was set aside, which an open choice could still narrow.
#include "plugins/timeline/network_solver.hpp"

namespace lathbook::timeline {

namespace {

// Rounds of spreading from choice to choice before the whole component is called wide.
constexpr int kRounds = 8;

std::uint8_t bit(Side side, std::uint8_t latest, std::uint8_t earliest) {
  return side == Side::latest ? latest : earliest;
}

}  // namespace

Tick Solver::offer_of(Var var, Side side) const {
  return var == kOrigin ? 0 : values_[static_cast<std::size_t>(side)][state_.graph.place[var]].dist;
}

void Solver::remark_leaning(std::uint32_t component, std::uint8_t level, CoreShrinker& shrinker) {
  const std::vector<Cause> aside = shrinker.aside();
  if (aside.empty()) return;
  std::vector<CoreShrinker::Item> items;
  for (const Cause cause : aside)
    for (const CoreShrinker::Item& item : shrinker.items_of(cause))
      if (item.arc != kNone) items.push_back(item);
  for (const Side side : {Side::latest, Side::earliest}) lean_side(component, level, side, items);
}

// Each constraint that was set aside is offered once to the bounds as they are and what follows from it is
// spread along what is believed: bounds that get tighter lean on it.
void Solver::lean_side(std::uint32_t component, std::uint8_t level, Side side,
                       const std::vector<CoreShrinker::Item>& items) {
  const Graph& graph = state_.graph;
  const Values& known = values_[static_cast<std::size_t>(side)];
  trial_ = known;
  bool any = false;
  for (const CoreShrinker::Item& item : items) {
    const Constraint& constraint = graph.constraint(item.link);
    const Var head = side == Side::latest ? constraint.to : constraint.from;
    if (head == kOrigin) continue;
    const Tick offer =
        offer_of(side == Side::latest ? constraint.from : constraint.to, side) + constraint.weight;
    any |= propagator_.improve(trial_[graph.place[head]], offer, next_label(0, constraint.level), item.link);
  }
  if (!any) return;
  propagator_.run(trial_, component, level, side, potentials_, Propagator::Start::offered);
  LevelResult& result = state_.levels[level];
  Window<Cause> root;
  root.open(graph, component, kStructural);
  std::vector<Node> path;
  for (Node node = graph.component_begin[component]; node < graph.component_begin[component + 1]; ++node) {
    if (trial_[node].dist >= known[node].dist || trial_[node].dist > kFar) continue;
    path.clear();
    Node at = node;
    Cause cause = kStructural;
    while (cause == kStructural) {
      cause = root[at];
      if (cause != kStructural) break;
      path.push_back(at);
      const Link link = trial_[at].link;
      const Cause last = state_.cause_of(link);
      if (last != kStructural && last != kHorizon && state_.aside[last] != kOff)
        cause = last;
      else
        at = graph.place[state_.before(link, side)];
    }
    for (const Node passed : path) root[passed] = cause;
    result.remarks[node] |= bit(side, kLatestLeans, kEarliestLeans);
    result.leans.push_back({graph.order[node], side, cause});
  }
}

// Choices gone through in all their cases leave nothing wide, unless they start from what another leaves
// wide.
void Solver::remark_wide(std::uint32_t component, std::uint8_t level) {
  const Graph& graph = state_.graph;
  bool any = false;
  for (std::uint32_t at = graph.choice_begin[component]; at < graph.choice_begin[component + 1]; ++at)
    any |= rules_.is_open(graph.choice_order[at], level) && !state_.choices[graph.choice_order[at]].exact;
  if (!any) return;
  std::array<Window<char>, 2> wide;
  for (auto& window : wide) window.open(graph, component, 0);
  int round = 0;
  bool more = true;
  for (; more && round < kRounds; ++round) {
    more = spread_open(component, level, Side::latest, wide);
    more |= spread_open(component, level, Side::earliest, wide);
  }
  for (const Side side : {Side::latest, Side::earliest})
    for (Node node = graph.component_begin[component]; node < graph.component_begin[component + 1]; ++node)
      if (more || wide[static_cast<std::size_t>(side)][node] != 0)
        state_.levels[level].remarks[node] |= bit(side, kLatestWide, kEarliestWide);
}

bool Solver::is_unsettled(std::uint32_t choice, std::uint8_t level,
                          const std::array<Window<char>, 2>& wide) const {
  if (!rules_.is_open(choice, level)) return false;
  if (!state_.choices[choice].exact) return true;
  const Network& network = state_.network();
  const auto& row = network.choices()[choice];
  const auto is_wide = [&](Side side, Var var) {
    return var != kOrigin && wide[static_cast<std::size_t>(side)][state_.graph.place[var]] != 0;
  };
  const auto first = network.alternatives()[row.first_alternative].first_option;
  const auto end = network.alternatives()[row.end_alternative - 1].end_option;
  for (std::uint32_t option = first; option < end; ++option)
    if (is_wide(Side::latest, network.options()[option].from) ||
        is_wide(Side::earliest, network.options()[option].to))
      return true;
  return false;
}

// Offers every constraint of every open alternative. One that starts from a bound already called wide may
// move its head as far as the opposite bound. True when more nodes became wide.
bool Solver::spread_open(std::uint32_t component, std::uint8_t level, Side side,
                         std::array<Window<char>, 2>& both) {
  const Graph& graph = state_.graph;
  const Network& network = state_.network();
  const Side other = side == Side::latest ? Side::earliest : Side::latest;
  const Values& known = values_[static_cast<std::size_t>(side)];
  Window<char>& wide = both[static_cast<std::size_t>(side)];
  trial_ = known;
  for (std::uint32_t at = graph.choice_begin[component]; at < graph.choice_begin[component + 1]; ++at) {
    const std::uint32_t choice = graph.choice_order[at];
    if (!is_unsettled(choice, level, both)) continue;
    const auto& row = network.choices()[choice];
    for (std::uint32_t k = row.first_alternative; k < row.end_alternative; ++k) {
      if (rules_.is_refuted(choice, k - row.first_alternative)) continue;
      for (std::uint32_t option = network.alternatives()[k].first_option;
           option < network.alternatives()[k].end_option; ++option) {
        const Constraint& constraint = network.options()[option];
        const Var tail = side == Side::latest ? constraint.from : constraint.to;
        const Var head = side == Side::latest ? constraint.to : constraint.from;
        if (head == kOrigin || head == tail) continue;
        Tick offer = offer_of(tail, side) + constraint.weight;
        if (tail != kOrigin && wide[graph.place[tail]] != 0) offer = std::max(-offer_of(head, other), -kFar);
        const Link link = static_cast<Link>(network.constraints().size()) + option;
        propagator_.improve(trial_[graph.place[head]], offer, next_label(0, level), link);
      }
    }
  }
  propagator_.run(trial_, component, level, side, potentials_, Propagator::Start::offered);
  bool more = false;
  for (Node node = graph.component_begin[component]; node < graph.component_begin[component + 1]; ++node) {
    if (wide[node] != 0 || trial_[node].dist >= known[node].dist) continue;
    wide[node] = 1;
    more = true;
  }
  return more;
}

}  // namespace lathbook::timeline
