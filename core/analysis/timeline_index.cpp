// Indexes a timeline.
#include "core/analysis/timeline_index.hpp"

#include <algorithm>
#include <variant>

namespace lathbook {

TimelineIndex::TimelineIndex(const AnalysisResult* result) {
  const auto* timeline = result == nullptr ? nullptr : std::get_if<Timeline>(result);
  if (timeline == nullptr) return;
  for (const TimelineItem& item : timeline->items) items_[item.record.id].push_back(&item);
  for (auto& [record, items] : items_)
    std::stable_sort(items.begin(), items.end(),
                     [](const auto* a, const auto* b) { return a->placement < b->placement; });
}

const std::vector<const TimelineItem*>& TimelineIndex::of(const Uuid& record) const {
  static const std::vector<const TimelineItem*> none;
  const auto found = items_.find(record);
  return found == items_.end() ? none : found->second;
}

}  // namespace lathbook
