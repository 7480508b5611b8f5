// Bounds in one sweep along the topological order; inside a cycle Dijkstra's algorithm on reduced weights.
#include "plugins/timeline/network_propagate.hpp"

#include <algorithm>
#include <functional>

namespace lathbook::timeline {

namespace {

constexpr std::uint32_t kAhead = 24;  // arcs

}  // namespace

void Propagator::settle_tie(Value& at, Link link) const {
  if (link == at.link || at.link == kNone) return;
  if ((at.label & Value::kNoEvidence) != 0) {
    at.link = std::min(at.link, link);  // no evidence either way: not worth looking up the claims
    return;
  }
  const Cause mine = state_.cause_of(link), other = state_.cause_of(at.link);
  if (mine != other ? mine < other : link < at.link) at.link = link;
}

void Propagator::run(Values& values, std::uint32_t component, std::uint8_t level, Side side,
                     const Potentials& potentials, Start start, std::size_t first_derived) {
  level_ = level;
  side_ = side;
  start_ = start;
  const Graph& graph = state_.graph;
  if (start == Start::further) changed_.open(graph, component, 0);
  if (start != Start::offered) offer_derived(values, first_derived);
  const Node begin = graph.component_begin[component], end = graph.component_begin[component + 1];
  const std::uint32_t first = graph.block_begin[component], last = graph.block_begin[component + 1];
  if (side == Side::latest) {
    std::uint32_t block = first;
    for (Node node = begin; node < end;) {
      if (block < last && graph.blocks[block].begin == node) {
        run_block(values, graph.blocks[block], potentials);
        node = graph.blocks[block++].end;
      } else {
        push_on(values, node++);
      }
    }
    return;
  }
  std::uint32_t block = last;
  for (Node node = end; node > begin;) {
    if (block > first && graph.blocks[block - 1].end == node) {
      run_block(values, graph.blocks[--block], potentials);
      node = graph.blocks[block].begin;
    } else {
      --node;
      pull_in(values, node, node);
    }
  }
}

void Propagator::offer_derived(Values& values, std::size_t first) {
  for (std::size_t at = first; at < state_.derived.size(); ++at) {
    const Derived& derived = state_.derived[at];
    if (derived.since > level_ || derived.side != side_) continue;
    const bool better = improve(values[derived.node], derived.weight, next_label(0, derived.since),
                                state_.graph.first_derived() + static_cast<Link>(at));
    if (better && start_ == Start::further) changed_[derived.node] = 1;
  }
}

// Constraints of the node that came into force with this level.
bool Propagator::has_news(Node node) const {
  const Graph& graph = state_.graph;
  for (std::uint32_t at = graph.arc_begin[node]; at < graph.arc_begin[node + 1]; ++at)
    if (graph.arc_since[at] == level_) return true;
  return false;
}

void Propagator::take_bounds(Values& values, Node node) {
  if (start_ == Start::offered) return;
  const Graph& graph = state_.graph;
  const Node plain = side_ == Side::latest ? kUpper : kLower;
  const Node horizon = side_ == Side::latest ? kUpperHorizon : kLowerHorizon;
  for (std::uint32_t at = graph.arc_begin[node]; at < graph.arc_onward[node]; ++at) {
    const Arc& arc = graph.arcs[at];
    const std::uint8_t since = graph.arc_since[at];
    if (since > level_ || (arc.to != plain && arc.to != horizon)) continue;
    const std::uint64_t label = next_label(arc.to == horizon ? Value::kNoEvidence : 0, since);
    if (improve(values[node], arc.weight, label, arc.link) && start_ == Start::further) changed_[node] = 1;
  }
}

void Propagator::push_on(Values& values, Node node) {
  const bool further = start_ == Start::further;
  if (further && changed_[node] == 0 && !has_news(node)) return;
  const Graph& graph = state_.graph;
  take_bounds(values, node);
  const Value from = values[node];
  for (std::uint32_t at = graph.arc_onward[node]; at < graph.arc_begin[node + 1]; ++at) {
    const std::uint8_t since = graph.arc_since[at];
    if (at + kAhead < graph.arcs.size()) values.fetch(graph.arcs[at + kAhead].to);
    if (since > level_) continue;
    const Arc& arc = graph.arcs[at];
    const bool better =
        improve(values[arc.to], from.dist + arc.weight, next_label(from.label, since), arc.link);
    if (better && further) changed_[arc.to] = 1;
  }
}

// Takes the best of what the heads of the node's arcs give: of those beyond `from`, and of all whose arcs are
// new.
void Propagator::pull_in(Values& values, Node node, Node from) {
  const bool further = start_ == Start::further;
  const Graph& graph = state_.graph;
  take_bounds(values, node);
  Value mine = values[node];
  bool better = false;
  for (std::uint32_t at = graph.arc_onward[node]; at < graph.arc_begin[node + 1]; ++at) {
    const std::uint8_t since = graph.arc_since[at];
    const Arc& arc = graph.arcs[at];
    if (at >= kAhead) values.fetch(graph.arcs[at - kAhead].to);
    if (since > level_) continue;
    const bool is_new = further && since == level_;
    if (arc.to <= from && !is_new) continue;
    if (further && !is_new && changed_[arc.to] == 0) continue;
    const Value& to = values[arc.to];
    better |= improve(mine, to.dist + arc.weight, next_label(to.label, since), arc.link);
  }
  values[node] = mine;
  if (better && further) changed_[node] = 1;
}

void Propagator::run_block(Values& values, const Block& block, const Potentials& potentials) {
  const bool further = start_ == Start::further;
  seeds_.clear();
  for (Node node = block.begin; node < block.end; ++node) {
    if (side_ == Side::latest)
      take_bounds(values, node);
    else
      pull_in(values, node, block.end - 1);
    if (!further || changed_[node] != 0 || (side_ == Side::latest && has_news(node))) seeds_.push_back(node);
  }
  // Nothing without a bound can better what has one: it comes after, and only for the sake of the slack
  // between nodes that have none.
  const auto unbounded =
      std::partition(seeds_.begin(), seeds_.end(), [&](Node node) { return values[node].dist < kFar; });
  settle(values, block, potentials, {seeds_.begin(), unbounded});
  if (start_ == Start::offered) return;
  const auto still =
      std::remove_if(unbounded, seeds_.end(), [&](Node node) { return values[node].dist < kFar; });
  settle(values, block, potentials, {unbounded, still});
}

void Propagator::add(const Item& item) {
  heap_.push_back(item);
  std::push_heap(heap_.begin(), heap_.end(), std::greater<>());
}

void Propagator::reach(Values& values, const Block& block, Node node, Tick dist, std::uint64_t label,
                       Link link, const Potentials& potentials) {
  if (!improve(values[node], dist, label, link)) return;
  if (start_ == Start::further) changed_[node] = 1;
  if (node < block.end) add({key_of(values, node, potentials), label, node});
}

// With reduced weights no arc is negative, and labels grow with every step: each node is final when it
// is taken from the heap. An outdated heap item is known by its label or key being worse than the value.
void Propagator::settle(Values& values, const Block& block, const Potentials& potentials,
                        std::span<const Node> seeds) {
  const Graph& graph = state_.graph;
  heap_.clear();
  for (const Node node : seeds) heap_.push_back({key_of(values, node, potentials), values[node].label, node});
  std::make_heap(heap_.begin(), heap_.end(), std::greater<>());
  while (!heap_.empty()) {
    std::pop_heap(heap_.begin(), heap_.end(), std::greater<>());
    const Item item = heap_.back();
    heap_.pop_back();
    const Value from = values[item.node];
    if (item.key != key_of(values, item.node, potentials) || item.label != from.label) continue;
    if (side_ == Side::latest) {
      for (std::uint32_t at = graph.arc_onward[item.node]; at < graph.arc_begin[item.node + 1]; ++at) {
        const std::uint8_t since = graph.arc_since[at];
        if (since > level_) continue;
        const Arc& arc = graph.arcs[at];
        reach(values, block, arc.to, from.dist + arc.weight, next_label(from.label, since), arc.link,
              potentials);
      }
      continue;
    }
    const std::uint32_t row = block.first_inward + (item.node - block.begin);
    for (std::uint32_t at = graph.inward_begin[row]; at < graph.inward_begin[row + 1]; ++at) {
      const Inward& in = graph.inward[at];
      const std::uint8_t since = graph.arc_since[in.arc];
      if (since > level_) continue;
      const Arc& arc = graph.arcs[in.arc];
      reach(values, block, in.from, from.dist + arc.weight, next_label(from.label, since), arc.link,
            potentials);
    }
  }
}

}  // namespace lathbook::timeline
