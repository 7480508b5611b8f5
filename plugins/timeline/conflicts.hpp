// Contradictions: the engine's cores as short lists of statements and a fair sentence about them.
#pragma once

#include <set>
#include <unordered_set>
#include <vector>

#include "core/analysis/timeline.hpp"
#include "plugins/timeline/reasons_words.hpp"

namespace lathbook::timeline {

/// Those of the contradictions that touch one of these records, or for which one of `leaned` was set aside,
/// in the order in which they were found. With an empty set of records: all.
std::vector<TimelineConflict> conflicts_of(const Claims& claims, const Words& words, const Solution& solution,
                                           const std::unordered_set<Uuid>& records,
                                           const std::set<Digest>& leaned);

}  // namespace lathbook::timeline
