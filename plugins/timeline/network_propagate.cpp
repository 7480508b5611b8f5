// Bounds in one sweep along the topological order; inside a cycle Dijkstra's algorithm on reduced weights.
#include "plugins/timeline/network_propagate.hpp"

#include <functional>

namespace lathbook::timeline {

bool Propagator::improve(Value& at, Tick dist, std::uint64_t label, Link link) const {
  if (dist != at.dist ? dist > at.dist : label > at.label) return false;
  if (dist != at.dist || label != at.label) {
    at = {dist, label, link};
    return true;
  }
  if (link == at.link || at.link == kNone) return false;
  const Cause mine = state_.cause_of(link), other = state_.cause_of(at.link);
  if (mine != other ? mine < other : link < at.link) at.link = link;
  return false;
}

void Propagator::offer_derived(Values& values, std::uint8_t level, Side side, std::size_t first) const {
  for (std::size_t at = first; at < state_.derived.size(); ++at) {
    const Derived& derived = state_.derived[at];
    if (derived.since > level || derived.side != side) continue;
    improve(values[derived.node], derived.weight, next_label(0, derived.since),
            state_.graph.first_derived() + static_cast<Link>(at));
  }
}

void Propagator::take_bounds(Values& values, Node node, std::uint8_t level, Side side) const {
  if (!bounds_) return;
  const Graph& graph = state_.graph;
  const Node plain = side == Side::latest ? kUpper : kLower;
  const Node horizon = side == Side::latest ? kUpperHorizon : kLowerHorizon;
  Value& mine = values[node];
  for (std::uint32_t at = graph.arc_begin[node]; at < graph.arc_onward[node]; ++at) {
    const Arc& arc = graph.arcs[at];
    const std::uint8_t since = graph.arc_since[at];
    if (since > level || (arc.to != plain && arc.to != horizon)) continue;
    improve(mine, arc.weight, next_label(arc.to == horizon ? Value::kNoEvidence : 0, since), arc.link);
  }
}

void Propagator::push_on(Values& values, Node node, std::uint8_t level) const {
  const Graph& graph = state_.graph;
  take_bounds(values, node, level, Side::latest);
  const Value from = values[node];
  for (std::uint32_t at = graph.arc_onward[node]; at < graph.arc_begin[node + 1]; ++at) {
    const std::uint8_t since = graph.arc_since[at];
    if (since > level) continue;
    const Arc& arc = graph.arcs[at];
    improve(values[arc.to], from.dist + arc.weight, next_label(from.label, since), arc.link);
  }
}

void Propagator::pull_in(Values& values, Node node, std::uint8_t level, const Block* except) const {
  const Graph& graph = state_.graph;
  take_bounds(values, node, level, Side::earliest);
  Value& mine = values[node];
  for (std::uint32_t at = graph.arc_onward[node]; at < graph.arc_begin[node + 1]; ++at) {
    const std::uint8_t since = graph.arc_since[at];
    const Arc& arc = graph.arcs[at];
    if (since > level || (except != nullptr && arc.to < except->end)) continue;
    const Value& to = values[arc.to];
    improve(mine, to.dist + arc.weight, next_label(to.label, since), arc.link);
  }
}

void Propagator::run(Values& values, std::uint32_t component, std::uint8_t level, Side side,
                     const Potentials& potentials, bool bounds) {
  bounds_ = bounds;
  const Graph& graph = state_.graph;
  const Node begin = graph.component_begin[component], end = graph.component_begin[component + 1];
  const std::uint32_t first = graph.block_begin[component], last = graph.block_begin[component + 1];
  if (side == Side::latest) {
    std::uint32_t block = first;
    for (Node node = begin; node < end;) {
      if (block < last && graph.blocks[block].begin == node) {
        run_block(values, graph.blocks[block], level, side, potentials);
        node = graph.blocks[block++].end;
      } else {
        push_on(values, node++, level);
      }
    }
    return;
  }
  std::uint32_t block = last;
  for (Node node = end; node > begin;) {
    if (block > first && graph.blocks[block - 1].end == node) {
      run_block(values, graph.blocks[--block], level, side, potentials);
      node = graph.blocks[block].begin;
    } else {
      pull_in(values, --node, level, nullptr);
    }
  }
}

void Propagator::add(Tick key, std::uint64_t label, Node node) {
  heap_.push_back({key, label, node});
  std::push_heap(heap_.begin(), heap_.end(), std::greater<>());
}

// With reduced weights no arc is negative, and labels grow with every step: each node is final when it
// is taken from the heap. An outdated heap item is known by its label or key being worse than the value.
void Propagator::run_block(Values& values, const Block& block, std::uint8_t level, Side side,
                           const Potentials& potentials) {
  const Graph& graph = state_.graph;
  const bool latest = side == Side::latest;
  const auto key_of = [&](Node node) {
    return latest ? values[node].dist - potentials[node] : values[node].dist + potentials[node];
  };
  heap_.clear();
  for (Node node = block.begin; node < block.end; ++node) {
    if (latest)
      take_bounds(values, node, level, side);
    else
      pull_in(values, node, level, &block);
    heap_.push_back({key_of(node), values[node].label, node});
  }
  std::make_heap(heap_.begin(), heap_.end(), std::greater<>());
  while (!heap_.empty()) {
    std::pop_heap(heap_.begin(), heap_.end(), std::greater<>());
    const Item item = heap_.back();
    heap_.pop_back();
    if (item.key != key_of(item.node) || item.label != values[item.node].label) continue;
    const Value from = values[item.node];
    if (latest) {
      for (std::uint32_t at = graph.arc_onward[item.node]; at < graph.arc_begin[item.node + 1]; ++at) {
        const std::uint8_t since = graph.arc_since[at];
        if (since > level) continue;
        const Arc& arc = graph.arcs[at];
        if (improve(values[arc.to], from.dist + arc.weight, next_label(from.label, since), arc.link) &&
            arc.to < block.end)
          add(key_of(arc.to), values[arc.to].label, arc.to);
      }
      continue;
    }
    const std::uint32_t row = block.first_inward + (item.node - block.begin);
    for (std::uint32_t at = graph.inward_begin[row]; at < graph.inward_begin[row + 1]; ++at) {
      const Inward& in = graph.inward[at];
      const std::uint8_t since = graph.arc_since[in.arc];
      if (since > level) continue;
      const Arc& arc = graph.arcs[in.arc];
      if (improve(values[in.from], from.dist + arc.weight, next_label(from.label, since), arc.link))
        add(key_of(in.from), values[in.from].label, in.from);
    }
  }
}

}  // namespace lathbook::timeline
