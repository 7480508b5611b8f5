// Finds what the timeline worked out about a record; copies nothing.
#pragma once

#include <cstdint>
#include <set>
#include <utility>
#include <vector>

#include "core/analysis/timeline.hpp"

namespace lathbook::crm {

/// An index on a timeline that outlives it; without a timeline there is nothing to find. About 24 bytes for
/// each item.
class Dates {
public:
  explicit Dates(const Timeline* timeline);

  bool known() const { return timeline_ != nullptr; }
  /// One for each placement of an element or finish; of a piece or find the one that tells of its making.
  std::vector<const TimelineItem*> of(const Uuid& record) const;
  /// The phase and the one that follows it; nulls when the timeline has no such phase.
  std::pair<const TimelinePhase*, const TimelinePhase*> phase(const Uuid& record) const;
  const std::vector<TimelinePhase>& phases() const;
  /// Statements of open conflicts that the dates shown leave out; nobody has ruled on them.
  const std::set<Digest>& contested() const { return contested_; }

private:
  const Timeline* timeline_;
  std::vector<std::pair<Uuid, std::uint32_t>> items_;
  std::set<Digest> contested_;
};

}  // namespace lathbook::crm
