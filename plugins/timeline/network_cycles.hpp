// Negative cycles inside a block, and potentials when there is none.
#pragma once

#include "plugins/timeline/network_state.hpp"

namespace lathbook::timeline {

class CycleFinder {
public:
  explicit CycleFinder(const Graph& graph) : graph_(graph) {}

  /// Lowers `potentials` until every arc of the block in force at the level is satisfied and returns
  /// nothing, or returns the links of a cycle whose weights sum to less than zero, in order. Starts from
  /// the potentials given (any values). The method is that of A. V. Goldberg and T. Radzik, 'A heuristic
  /// improvement of the Bellman-Ford algorithm', Applied Mathematics Letters 6, 1993, 3-6: O(nodes * arcs)
  /// at worst, linear on long one-way chains.
  std::vector<Link> search(const Block& block, std::uint8_t level, Potentials& potentials);

private:
  enum Mark : std::uint8_t { fresh, on_path, waiting, scanned };
  struct Frame {
    std::uint32_t node;      // within the block
    std::uint32_t next;      // arc to look at next
    std::uint32_t entered;   // arc by which the node was entered
    std::uint32_t negative;  // arcs of negative reduced weight on the path down to here
  };
  bool descend(Node root, std::uint8_t level, const Potentials& potentials, std::vector<Link>& cycle);
  std::uint32_t sweep(std::uint8_t level, Potentials& potentials);
  std::vector<Link> parent_cycle();
  bool has_negative_arc(Node node, std::uint8_t level, const Potentials& potentials) const;
  bool in_use(std::uint32_t arc, std::uint8_t level) const {
    return graph_.arc_since[arc] <= level && graph_.arcs[arc].to >= begin_ && graph_.arcs[arc].to < end_;
  }

  const Graph& graph_;
  Node begin_ = 0;
  Node end_ = 0;
  std::vector<Mark> mark_;
  std::vector<std::uint32_t> depth_;
  std::vector<std::uint32_t> parent_arc_;
  std::vector<Node> parent_;
  std::vector<bool> listed_;
  std::vector<Frame> path_;
  std::vector<Node> sorted_;
  std::vector<Node> active_;
  std::vector<Node> upcoming_;
};

}  // namespace lathbook::timeline
