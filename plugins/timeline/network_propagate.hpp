// Shortest distances from or to the origin within one component, with the best reason for each.
#pragma once

#include <span>
#include <vector>

#include "plugins/timeline/network_state.hpp"

namespace lathbook::timeline {

class Propagator {
public:
  /// What a run starts from.
  enum class Start {
    offered,  ///< the values offered so far and nothing else
    bounds,   ///< nothing yet: takes all constraints with the origin, and derived bounds
    further   ///< final values from before the arcs and derived bounds of this very level came into force
  };

  explicit Propagator(const State& state) : state_(state) {}

  /// Spreads values along all arcs in force at the level. `potentials` must satisfy every such arc inside a
  /// block (potentials[to] <= potentials[from] + weight). Linear outside blocks, a heap inside. Derived
  /// bounds count from index `first_derived` on, where those of this component begin.
  void run(Values& values, std::uint32_t component, std::uint8_t level, Side side,
           const Potentials& potentials, Start start, std::size_t first_derived = 0);

  /// Takes the better of two values; among equal ones the link of the lower claim. True when it changed.
  bool improve(Value& at, Tick dist, std::uint64_t label, Link link) const {
    if (dist != at.dist ? dist > at.dist : label > at.label) return false;
    if (dist == at.dist && label == at.label) {
      settle_tie(at, link);
      return false;
    }
    at = {dist, label, link};
    return true;
  }

private:
  struct Item {
    Tick key;
    std::uint64_t label;
    Node node;
    bool operator>(const Item& other) const {
      return key != other.key ? key > other.key : label > other.label;
    }
  };
  void settle_tie(Value& at, Link link) const;
  void offer_derived(Values& values, std::size_t first);
  bool has_news(Node node) const;
  void take_bounds(Values& values, Node node);
  void push_on(Values& values, Node node);
  void pull_in(Values& values, Node node, Node from);
  void run_block(Values& values, const Block& block, const Potentials& potentials);
  void settle(Values& values, const Block& block, const Potentials& potentials, std::span<const Node> seeds);
  void reach(Values& values, const Block& block, Node node, Tick dist, std::uint64_t label, Link link,
             const Potentials& potentials);
  Tick key_of(const Values& values, Node node, const Potentials& potentials) const {
    return side_ == Side::latest ? values[node].dist - potentials[node]
                                 : values[node].dist + potentials[node];
  }
  void add(const Item& item);

  const State& state_;
  std::vector<Item> heap_;
  std::vector<Node> seeds_;  // of the block at hand: what may better others
  // Of the run at hand:
  std::uint8_t level_ = 0;
  Side side_ = Side::latest;
  Start start_ = Start::bounds;
  Window<std::uint8_t> changed_;  // with Start::further: the value got better in this run
};

}  // namespace lathbook::timeline
