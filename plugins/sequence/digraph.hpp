// A directed graph in two flat arrays, with its strong components; never recursive, whatever its depth.
#pragma once

#include <cstddef>
#include <cstdint>
#include <span>
#include <utility>
#include <vector>

namespace lathbook::sequence {

using Node = std::uint32_t;
inline constexpr std::uint32_t kNoNode = 0xffffffff;

/// From the later to the earlier.
using Arc = std::pair<Node, Node>;

/// Immutable; arcs keep the order given within each node, doubles included.
class Digraph {
public:
  Digraph(Node nodes, std::span<const Arc> arcs);

  Node size() const { return static_cast<Node>(first_.size() - 1); }
  std::size_t arcs() const { return to_.size(); }
  std::span<const Node> next(Node node) const {
    return std::span(to_).subspan(first_[node], first_[node + 1] - first_[node]);
  }
  /// Place of a node's first arc among all; the index of that arc in the list given to the constructor.
  std::size_t first(Node node) const { return first_[node]; }
  std::uint32_t given(std::size_t arc) const { return given_[arc]; }

private:
  std::vector<std::size_t> first_;
  std::vector<Node> to_;
  std::vector<std::uint32_t> given_;
};

/// Strongly connected parts, numbered so that every arc leads to the same or a lower number.
struct Parts {
  std::vector<std::uint32_t> part_of;
  std::uint32_t count = 0;
};

/// R. Tarjan, 'Depth-first search and linear graph algorithms', SIAM J. Computing 1, 1972, 146-160, with a
/// stack of its own. Linear time.
Parts strong_parts(const Digraph& graph);

/// Of every node the longest way down to a node without arcs; the graph must have no circle and its nodes
/// must be numbered so that arcs lead to lower numbers.
std::vector<std::uint32_t> heights(const Digraph& graph);

}  // namespace lathbook::sequence
