// Level by level within a component: cycles first, then bounds, then choices, until nothing contradicts.
#include "plugins/timeline/network_solver.hpp"

#include <numeric>
#include <tuple>

namespace lathbook::timeline {

Solver::Solver(State& state)
    : state_(state),
      propagator_(state),
      cycles_(state.graph),
      rules_(state, values_),
      worlds_(state, values_, rules_) {}

void Solver::open(std::uint32_t component) {
  valid_ = false;
  potentials_.open(state_.graph, component, 0);
  first_derived_ = state_.derived.size();
}

void Solver::solve() {
  const Node nodes = state_.graph.nodes();
  for (std::uint8_t level = 1; level <= state_.max_level; ++level) {
    LevelResult& result = state_.levels[level];
    result.bounds.resize(nodes);
    for (auto& links : result.links) links.resize(nodes);
    result.remarks.resize(nodes);
  }
  for (std::uint32_t component = 0; component < state_.graph.components(); ++component)
    solve_component(component);
  finish();
}

void Solver::solve_again(const std::vector<std::uint32_t>& components) {
  forget(components);
  for (const std::uint32_t component : components) solve_component(component);
  finish();
}

void Solver::finish() {
  sort_conflicts();
  for (LevelResult& result : state_.levels) {
    std::sort(result.leans.begin(), result.leans.end(),
              [](const auto& a, const auto& b) { return std::tie(a.var, a.side) < std::tie(b.var, b.side); });
    std::sort(result.gaps.begin(), result.gaps.end(),
              [](const auto& a, const auto& b) { return a.var < b.var; });
  }
}

// What was found in these components is no longer there. Bounds are written over; derived bounds stay where
// they are, out of force, since others are known by their place.
void Solver::forget(const std::vector<std::uint32_t>& components) {
  const Graph& graph = state_.graph;
  std::vector<bool> gone(graph.components(), false);
  for (const std::uint32_t component : components) {
    gone[component] = true;
    for (std::uint32_t at = graph.choice_begin[component]; at < graph.choice_begin[component + 1]; ++at)
      state_.choices[graph.choice_order[at]] = {};
  }
  const auto is_gone = [&](Node node) { return gone[graph.component_of(node)]; };
  for (Derived& derived : state_.derived)
    if (derived.since != kOff && is_gone(derived.node)) derived.since = kOff;
  for (Cause cause = 1; cause < state_.aside.size(); ++cause)
    if (state_.aside[cause] != kOff && gone[graph.component_of_claim(cause)]) state_.aside[cause] = kOff;
  for (LevelResult& result : state_.levels) {
    std::erase_if(result.leans, [&](const auto& lean) { return is_gone(graph.place[lean.var]); });
    std::erase_if(result.gaps, [&](const auto& gap) { return is_gone(graph.place[gap.var]); });
  }
  forget_conflicts(gone);
}

void Solver::forget_conflicts(const std::vector<bool>& gone) {
  const auto component_of = [&](const Conflict& conflict) {
    return state_.graph.component_of_claim(conflict.claims.front());
  };
  std::vector<std::uint32_t> place(state_.conflicts.size(), kNone);
  std::uint32_t kept = 0;
  for (std::uint32_t at = 0; at < place.size(); ++at)
    if (!gone[component_of(state_.conflicts[at])]) place[at] = kept++;
  std::erase_if(state_.disputes,
                [&](const Dispute& dispute) { return place[dispute.conflicts.front()] == kNone; });
  for (Dispute& dispute : state_.disputes)
    for (std::uint32_t& at : dispute.conflicts) at = place[at];
  std::erase_if(state_.conflicts, [&](const Conflict& conflict) { return gone[component_of(conflict)]; });
}

// By level, then by component, then as they were found.
void Solver::sort_conflicts() {
  auto& conflicts = state_.conflicts;
  std::vector<std::uint32_t> order(conflicts.size()), place(conflicts.size()), component;
  for (const Conflict& conflict : conflicts)
    component.push_back(state_.graph.component_of_claim(conflict.claims.front()));
  std::iota(order.begin(), order.end(), 0U);
  std::stable_sort(order.begin(), order.end(), [&](std::uint32_t a, std::uint32_t b) {
    return std::pair(conflicts[a].level, component[a]) < std::pair(conflicts[b].level, component[b]);
  });
  std::vector<Conflict> sorted;
  for (std::uint32_t at = 0; at < order.size(); ++at) {
    place[order[at]] = at;
    sorted.push_back(std::move(conflicts[order[at]]));
  }
  conflicts = std::move(sorted);
  auto& disputes = state_.disputes;
  for (Dispute& dispute : disputes) {
    for (std::uint32_t& at : dispute.conflicts) at = place[at];
    std::sort(dispute.conflicts.begin(), dispute.conflicts.end());
  }
  std::sort(disputes.begin(), disputes.end(),
            [](const Dispute& a, const Dispute& b) { return a.conflicts.front() < b.conflicts.front(); });
  for (std::uint32_t at = 0; at < disputes.size(); ++at)
    for (const std::uint32_t conflict : disputes[at].conflicts) conflicts[conflict].dispute = at;
}

bool Solver::first_core(Core& found) {
  for (std::uint32_t component = 0; component < state_.graph.components(); ++component) {
    open(component);
    std::vector<Core> cores = find_cores(component, kPossible);
    if (cores.empty()) continue;
    found = std::move(cores.front());
    return true;
  }
  return false;
}

void Solver::solve_component(std::uint32_t component) {
  open(component);
  CoreShrinker shrinker(state_, component);
  std::array<std::vector<Core>, 4> known;  // contradictions found, by the level that settles them
  for (std::uint8_t level = 1; level <= state_.max_level;) {
    const LevelResult& result = state_.levels[level];
    begin_[level] = {result.leans.size(), result.gaps.size(), state_.conflicts.size(),
                     state_.disputes.size()};
    if (level > 1 && known[level].empty() && !brings_news(component, level)) {
      copy_down(component, level++);
      continue;
    }
    if (auto surer = settle(component, level, shrinker, known[level])) {
      const std::uint8_t back = Disputes::level_of(state_, *surer);
      known[back].push_back(std::move(*surer));
      go_back(component, level, back, shrinker);
      level = back;
      continue;
    }
    write(component, level);
    remark_leaning(component, level, shrinker);
    remark_wide(component, level);
    ++level;
  }
}

// A contradiction among surer claims may show only later, when less sure ones leave fewer cases of a choice
// to go through. Then the levels from theirs on are solved anew, so that levels stay nested.
void Solver::go_back(std::uint32_t component, std::uint8_t from, std::uint8_t to, CoreShrinker& shrinker) {
  for (std::uint8_t level = from; level >= to; --level) {
    rules_.undo(component, level, first_derived_);
    state_.levels[level].leans.resize(begin_[level].leans);
    state_.levels[level].gaps.resize(begin_[level].gaps);
  }
  state_.conflicts.resize(begin_[to].conflicts);
  state_.disputes.resize(begin_[to].disputes);
  for (const Cause cause : shrinker.aside())
    if (state_.aside[cause] >= to && !state_.network().parts_of(cause)) shrinker.put_back(cause);
  valid_ = false;
}

bool Solver::brings_news(std::uint32_t component, std::uint8_t level) const {
  const Graph& graph = state_.graph;
  const auto first = graph.arc_since.begin() + graph.arc_begin[graph.component_begin[component]];
  const auto last = graph.arc_since.begin() + graph.arc_begin[graph.component_begin[component + 1]];
  if (std::find(first, last, level) != last) return true;
  for (std::uint32_t at = graph.choice_begin[component]; at < graph.choice_begin[component + 1]; ++at)
    if (state_.network().choices()[graph.choice_order[at]].level == level) return true;
  for (std::uint32_t at = graph.loop_begin[component]; at < graph.loop_begin[component + 1]; ++at)
    if (graph.constraint(graph.loops[at]).level == level) return true;
  return false;
}

std::optional<Core> Solver::settle(std::uint32_t component, std::uint8_t level, CoreShrinker& shrinker,
                                   std::vector<Core>& known) {
  std::vector<Core> cores = find_cores(component, level);
  if (cores.empty() && known.empty()) return std::nullopt;
  const Graph& graph = state_.graph;
  const Node begin = graph.component_begin[component], end = graph.component_begin[component + 1];
  const auto look = [&] {
    rules_.undo(component, level, first_derived_);
    valid_ = false;
    return find_cores(component, level);
  };
  return Disputes(state_, shrinker, level, graph.arc_begin[end] - graph.arc_begin[begin], look)
      .settle(std::move(cores), known);
}

std::vector<Core> Solver::find_cores(std::uint32_t component, std::uint8_t level) {
  std::vector<Core> cores;
  bool changed = true, explored = false;
  worlds_.open(component);
  while (changed) {
    find_cyclic(component, level, cores);
    if (!cores.empty()) break;
    propagate(component, level);
    find_crossed(component, cores);
    if (!cores.empty()) break;
    changed = rules_.apply(component, level, cores) && cores.empty();
    if (changed) explored = false;
    if (changed || explored || !cores.empty()) continue;
    const Worlds::Outcome outcome = worlds_.explore(component, level, cores);
    changed = outcome != Worlds::Outcome::nothing && cores.empty();
    explored = outcome == Worlds::Outcome::bounds;
  }
  return cores;
}

Core Solver::core_from(const std::vector<Link>& walk) const {
  Core core;
  core.loop = simple_loop(state_, walk);
  core.claims = claims_of(state_, core.loop);
  core.refuted = refuted_behind(state_, core.loop);
  return core;
}

void Solver::find_cyclic(std::uint32_t component, std::uint8_t level, std::vector<Core>& cores) {
  const Graph& graph = state_.graph;
  for (std::uint32_t at = graph.loop_begin[component]; at < graph.loop_begin[component + 1]; ++at)
    if (state_.is_believed(graph.constraint(graph.loops[at]).cause, level))
      cores.push_back(core_from({graph.loops[at]}));
  for (std::uint32_t at = graph.block_begin[component]; at < graph.block_begin[component + 1]; ++at) {
    const std::vector<Link> cycle = cycles_.search(graph.blocks[at], level, potentials_);
    if (!cycle.empty()) cores.push_back(core_from(cycle));
  }
}

// As long as nothing was set aside since, the values of the level below (or of the last round of choices)
// are a start from which bounds only get tighter.
void Solver::propagate(std::uint32_t component, std::uint8_t level) {
  for (const Side side : {Side::latest, Side::earliest}) {
    Values& values = values_[static_cast<std::size_t>(side)];
    if (!valid_) values.open(state_.graph, component, {});
    const Propagator::Start start = valid_ ? Propagator::Start::further : Propagator::Start::bounds;
    propagator_.run(values, component, level, side, potentials_, start, first_derived_);
  }
  valid_ = true;
}

// A node whose latest is before its earliest closes a negative loop through the origin. Those with the
// fewest claims come first; the walking is limited, since what is left shows up again in the next round.
void Solver::find_crossed(std::uint32_t component, std::vector<Core>& cores) {
  const Graph& graph = state_.graph;
  struct Crossed {
    std::uint64_t claims;
    Var var;
  };
  std::vector<Crossed> crossed;
  const Node begin = graph.component_begin[component], end = graph.component_begin[component + 1];
  for (Node node = begin; node < end; ++node) {
    const Value &latest = values_[0][node], &earliest = values_[1][node];
    if (latest.dist + earliest.dist >= 0) continue;
    crossed.push_back({claims_of_label(latest.label & ~Value::kNoEvidence) +
                           claims_of_label(earliest.label & ~Value::kNoEvidence),
                       graph.order[node]});
  }
  std::sort(crossed.begin(), crossed.end(), [](const Crossed& a, const Crossed& b) {
    return std::tie(a.claims, a.var) < std::tie(b.claims, b.var);
  });
  std::vector<Cause> used;
  std::size_t effort = std::size_t{4} * (end - begin) + 1000;
  for (const Crossed& one : crossed) {
    std::vector<Link> walk = chain_of(state_, values_[0], one.var, Side::latest);
    const std::vector<Link> back = chain_of(state_, values_[1], one.var, Side::earliest);
    walk.insert(walk.end(), back.begin(), back.end());
    Core core = core_from(walk);
    std::vector<Cause> common;
    std::set_intersection(core.claims.begin(), core.claims.end(), used.begin(), used.end(),
                          std::back_inserter(common));
    if (common.empty()) {
      used.insert(used.end(), core.claims.begin(), core.claims.end());
      sort_unique(used);
      cores.push_back(std::move(core));
    }
    const std::size_t cost = walk.size() + used.size();
    if (cost >= effort) return;
    effort -= cost;
  }
}

void Solver::write(std::uint32_t component, std::uint8_t level) {
  const Graph& graph = state_.graph;
  LevelResult& result = state_.levels[level];
  for (Node node = graph.component_begin[component]; node < graph.component_begin[component + 1]; ++node) {
    const Value &latest = values_[0][node], &earliest = values_[1][node];
    result.bounds[node] = {-earliest.dist, latest.dist};
    result.links[0][node] = latest.link;
    result.links[1][node] = earliest.link;
    result.remarks[node] =
        static_cast<std::uint8_t>(((latest.label & Value::kNoEvidence) != 0 ? kLatestNoEvidence : 0) |
                                  ((earliest.label & Value::kNoEvidence) != 0 ? kEarliestNoEvidence : 0));
  }
  for (const LevelResult::Gap& gap : worlds_.gaps()) result.gaps.push_back(gap);
}

void Solver::copy_down(std::uint32_t component, std::uint8_t level) {
  const Graph& graph = state_.graph;
  const LevelResult& from = state_.levels[level - 1U];
  LevelResult& result = state_.levels[level];
  const auto copy = [&](const auto& source, auto& target) {
    std::copy(source.begin() + graph.component_begin[component],
              source.begin() + graph.component_begin[component + 1],
              target.begin() + graph.component_begin[component]);
  };
  copy(from.bounds, result.bounds);
  copy(from.links[0], result.links[0]);
  copy(from.links[1], result.links[1]);
  copy(from.remarks, result.remarks);
  for (std::size_t at = begin_[level - 1U].leans; at < from.leans.size(); ++at)
    result.leans.push_back(from.leans[at]);
  for (std::size_t at = begin_[level - 1U].gaps; at < from.gaps.size(); ++at)
    result.gaps.push_back(from.gaps[at]);
}

}  // namespace lathbook::timeline
