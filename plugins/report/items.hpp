// Small questions about items of the timeline, asked by several chapters.
#pragma once

#include "core/analysis/timeline.hpp"
#include "core/evidence/statement.hpp"
#include "core/view/plain_words.hpp"

namespace lathbook::report {

/// What the phase holds of the item; null when it holds nothing.
inline const PhasePart* part_in(const TimelineItem& item, std::size_t phase) {
  for (const PhasePart& part : item.phases)
    if (part.phase == phase) return &part;
  return nullptr;
}

/// Whether a statement speaks of this placement of the item, or of all.
inline bool of_placement(const Statement& statement, const TimelineItem& item) {
  const std::string_view said = statement.content.qualifier("placement");
  return item.placements < 2 || said.empty() || said == std::to_string(item.placement);
}

/// "many" for a name in the plural, for the patterns of words.
inline std::string number_of(std::string_view name) {
  return is_plural(name) ? "many" : "one";
}

}  // namespace lathbook::report
