// Things that are one thing, and by whose word.
#pragma once

#include <cstdint>
#include <vector>

#include "plugins/sequence/digraph.hpp"

namespace lathbook::sequence {

/// 'a is the same as b', as entry number `reason` of a list of the caller's.
struct Same {
  Node a = 0;
  Node b = 0;
  std::uint32_t reason = 0;
};

/// Sorts things into classes. Every merge is explained by a shortest way of reasons.
class Sameness {
public:
  Sameness(Node things, const std::vector<Same>& said);

  /// Dense numbers in order of the least thing of each class.
  std::uint32_t class_of(Node thing) const { return class_of_[thing]; }
  std::uint32_t classes() const { return classes_; }
  /// Reasons, in order, of why two things of one class are one; empty for a thing and itself.
  std::vector<std::uint32_t> why(Node one, Node other) const;

private:
  std::vector<std::uint32_t> class_of_;
  std::uint32_t classes_ = 0;
  Digraph links_;  ///< both ways; arc number / 2 is the place in reasons_
  std::vector<std::uint32_t> reasons_;
};

}  // namespace lathbook::sequence
