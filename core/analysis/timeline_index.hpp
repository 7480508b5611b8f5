// The items of a timeline by their record, for what walks the archive and not the timeline.
#pragma once

#include <unordered_map>
#include <vector>

#include "core/analysis/result.hpp"
#include "core/base/api.hpp"
#include "core/base/identifier.hpp"

namespace lathbook {

/// Borrows the timeline.
class LATHBOOK_API TimelineIndex {
public:
  /// From what a plugin is lent; empty for null or any other result.
  explicit TimelineIndex(const AnalysisResult* result);
  /// Items of a record, by placement; none for a record that has no dates.
  const std::vector<const TimelineItem*>& of(const Uuid& record) const;

private:
  std::unordered_map<Uuid, std::vector<const TimelineItem*>> items_;
};

}  // namespace lathbook
