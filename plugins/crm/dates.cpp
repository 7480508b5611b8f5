// Looks things up in the timeline.
#include "plugins/crm/dates.hpp"

#include <algorithm>

namespace lathbook::crm {

Dates::Dates(const Timeline* timeline) : timeline_(timeline) {
  if (timeline == nullptr) return;
  items_.reserve(timeline->items.size());
  for (std::size_t at = 0; at < timeline->items.size(); ++at)
    items_.emplace_back(timeline->items[at].record.id, static_cast<std::uint32_t>(at));
  std::sort(items_.begin(), items_.end());
  for (const TimelineConflict& conflict : timeline->conflicts)
    contested_.insert(conflict.set_aside.begin(), conflict.set_aside.end());
}

std::vector<const TimelineItem*> Dates::of(const Uuid& record) const {
  std::vector<const TimelineItem*> found;
  auto at = std::lower_bound(items_.begin(), items_.end(), std::pair(record, std::uint32_t{0}));
  for (; at != items_.end() && at->first == record; ++at) found.push_back(&timeline_->items[at->second]);
  std::sort(found.begin(), found.end(),
            [](const TimelineItem* a, const TimelineItem* b) { return a->placement < b->placement; });
  return found;
}

std::pair<const TimelinePhase*, const TimelinePhase*> Dates::phase(const Uuid& record) const {
  const auto& all = phases();
  for (std::size_t at = 0; at < all.size(); ++at)
    if (all[at].record.id == record) return {&all[at], at + 1 < all.size() ? &all[at + 1] : nullptr};
  return {nullptr, nullptr};
}

const std::vector<TimelinePhase>& Dates::phases() const {
  static const std::vector<TimelinePhase> none;
  return timeline_ != nullptr ? timeline_->phases : none;
}

}  // namespace lathbook::crm
