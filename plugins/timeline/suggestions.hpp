// Courses of works that shared dates suggest where nobody has named one: proposals only.
#pragma once

#include <vector>

#include "core/analysis/timeline.hpp"
#include "plugins/timeline/reasons_words.hpp"
#include "plugins/timeline/scope.hpp"

namespace lathbook::timeline {

/// Items of a place that are dated on both sides, within ten years, and said to be of no works: the fewest
/// days that lie within the beginnings of all of them, found by taking the smallest latest day not yet met
/// (optimal for intervals; the greedy stabbing of interval scheduling). A day met by three things or more, at
/// which no named works of the place can have been going on, is suggested as works. Ten years and three
/// things are our own figures. What lies over another thing with dirt or wear between is not asked: works may
/// take years.
std::vector<Draft> suggested_works(const Claims& claims, const Words& words, const Scope& scope,
                                   const Timeline& timeline);

}  // namespace lathbook::timeline
