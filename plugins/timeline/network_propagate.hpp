// Shortest distances from or to the origin within one component, with the best reason for each.
#pragma once

#include "plugins/timeline/network_state.hpp"

namespace lathbook::timeline {

class Propagator {
public:
  explicit Propagator(const State& state) : state_(state) {}

  /// Offers the derived bounds in force at the level, from `first` on; all of them in this component.
  void offer_derived(Values& values, std::uint8_t level, Side side, std::size_t first) const;
  /// Spreads the values offered so far, and with `bounds` those that constraints with the origin give,
  /// along all arcs in force. `potentials` must satisfy every such arc inside a block
  /// (potentials[to] <= potentials[from] + weight). Linear outside blocks, a heap inside.
  void run(Values& values, std::uint32_t component, std::uint8_t level, Side side,
           const Potentials& potentials, bool bounds);
  /// Takes the better of two values; among equal ones the link of the lower claim. True when it changed.
  bool improve(Value& at, Tick dist, std::uint64_t label, Link link) const;

private:
  struct Item {
    Tick key;
    std::uint64_t label;
    Node node;
    bool operator>(const Item& other) const {
      return key != other.key ? key > other.key : label > other.label;
    }
  };
  void take_bounds(Values& values, Node node, std::uint8_t level, Side side) const;
  void push_on(Values& values, Node node, std::uint8_t level) const;
  void pull_in(Values& values, Node node, std::uint8_t level, const Block* except) const;
  void run_block(Values& values, const Block& block, std::uint8_t level, Side side,
                 const Potentials& potentials);
  void add(Tick key, std::uint64_t label, Node node);

  const State& state_;
  bool bounds_ = false;
  std::vector<Item> heap_;
};

}  // namespace lathbook::timeline
