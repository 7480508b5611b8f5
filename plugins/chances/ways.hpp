// How many orders a set of relations allows, exactly.
#pragma once

#include <cstdint>
#include <optional>
#include <utility>
#include <vector>

namespace lathbook::chances {

/// 'first before second', things numbered from 0.
using Before = std::pair<std::uint32_t, std::uint32_t>;

/// Number of ways to put `things` (at most 64) one after another so that every pair holds (linear
/// extensions), by adding up over the sets of things that can stand first. Nothing when the sets are more
/// than `most`, or the number is more than 64 bits hold. Counting is hard in general (G. Brightwell, P.
/// Winkler, 'Counting linear extensions', Order 8, 1991, 225-242): for small sets of things only.
std::optional<std::uint64_t> count_orders(std::uint32_t things, const std::vector<Before>& pairs,
                                          std::size_t most = 300'000);

}  // namespace lathbook::chances
