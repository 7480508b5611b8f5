// Circles among relations: what comes before itself, by every statement that makes it so.
#pragma once

#include <vector>

#include "plugins/sequence/order.hpp"

namespace lathbook::sequence {

/// Every strongly connected part that holds a strict relation, set aside or not; and every strict relation
/// between things that are said to be one.
std::vector<Loop> loops_of(const Sameness& same, const std::vector<Relation>& relations);

}  // namespace lathbook::sequence
