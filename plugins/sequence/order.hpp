// The order of things from what is said of pairs of them: classes, loops, levels, what is redundant, what
// floats.
//
// Pure algorithm on numbers. Terms are those of E. C. Harris, 'Principles of Archaeological Stratigraphy',
// 2nd edition, 1989: superposition and succession; things equated are one; redundant relations are left out
// of the drawing only.
#pragma once

#include <cstdint>
#include <vector>

#include "plugins/sequence/sameness.hpp"

namespace lathbook::sequence {

/// 'later came after earlier', or with it when not strict.
struct Relation {
  Node later = 0;
  Node earlier = 0;
  bool strict = true;
  bool kept = true;  ///< false: set aside; looked at for loops, orders nothing
};

/// All relations between the same two classes in the same direction.
struct Edge {
  std::uint32_t later = 0;  ///< class
  std::uint32_t earlier = 0;
  std::vector<std::uint32_t> relations;  ///< kept ones, ascending; never empty
  bool redundant = false;                ///< the other edges say it together
  bool within_block = false;             ///< its ends go round in a circle; never redundant
};

/// A step of a loop: the relation, then why what it leads to is what the next step starts from.
struct LoopStep {
  std::uint32_t relation = 0;
  std::vector<std::uint32_t> same;  ///< reasons of sameness
};

/// Things that come before themselves.
struct Loop {
  std::vector<std::uint32_t> classes;    ///< all that lie on some circle of it, ascending
  std::vector<std::uint32_t> relations;  ///< all between them, ascending, set aside or not
  std::vector<LoopStep> shortest;        ///< a shortest circle that no dates satisfy (of those tried)
};

struct Order {
  std::vector<std::uint32_t> class_of;  ///< of every thing
  std::uint32_t classes = 0;
  std::vector<Edge> edges;  ///< by later, then earlier class
  std::vector<Loop> loops;  ///< by least class
  /// Groups of classes that only 'with or after' relations join in a circle: of one time, no contradiction.
  std::vector<std::vector<std::uint32_t>> of_one_time;
  std::vector<std::uint32_t> from_base;  ///< of every class: longest way down
  std::vector<std::uint32_t> from_top;   ///< longest way up
  std::uint32_t levels = 0;              ///< one more than the greatest of either
  std::vector<std::uint32_t> chain_of;   ///< of every class: the connected part it is in
  std::uint32_t chains = 0;              ///< numbered by size, the largest first, then by least class
};

/// At most `kLoopStarts` circles are tried for the shortest of each loop, and one of each when all together
/// have looked at `kLoopWalk` classes.
inline constexpr std::size_t kLoopStarts = 50;
inline constexpr std::size_t kLoopWalk = 500'000;

Order order_of(const Sameness& same, const std::vector<Relation>& relations);

}  // namespace lathbook::sequence
