// Which thing before which: a graph of hindrances, and the orders that respect it.
#pragma once

#include <cstddef>
#include <cstdint>
#include <string>
#include <vector>

namespace lathbook::takedown {

/// One thing to move. Smaller `rank` goes first where nothing hinders; ties go by `place`, then by number.
struct Thing {
  int rank = 0;            ///< loosest first
  std::int64_t place = 0;  ///< from the top down
  bool stays = false;      ///< kept as evidence, or not there to move
};

/// `first` must come away before `second`. `holds`: `second` holds `first` up, or `first` lies over it.
struct Hindrance {
  std::uint32_t first = 0;
  std::uint32_t second = 0;
  std::uint32_t reason = 0;  ///< the caller's own number
  bool holds = false;        ///< without `second` the first would fall
};

/// Several things are locked together when they hinder one another in a circle; they move as one.
struct Step {
  std::vector<std::uint32_t> things;
  std::size_t level = 0;
  std::size_t choices = 1;
  std::vector<std::uint32_t> instead;  ///< at most five others that could go now
};

struct Order {
  std::vector<Step> steps;
  std::vector<std::vector<std::uint32_t>> circles;  ///< of two things or more
  std::vector<std::uint32_t> blocked;               ///< wait for something that stays
};

/// A complete order (A. B. Kahn, 'Topological sorting of large networks', Communications of the ACM 5, 1962,
/// with a heap for the ranks; circles by R. Tarjan, 'Depth-first search and linear graph algorithms', SIAM
/// J. Computing 1, 1972), O(n log n + m), no recursion. The same input gives the same order.
Order order_of(const std::vector<Thing>& things, const std::vector<Hindrance>& hindrances);

/// Each hindrance that an order breaks: its index. `when` gives each thing's moment; things never moved
/// (negative) break nothing.
std::vector<std::size_t> broken_by(const std::vector<std::int64_t>& when,
                                   const std::vector<Hindrance>& hindrances);

}  // namespace lathbook::takedown
