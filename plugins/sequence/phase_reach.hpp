// In which phases a thing may have come that the timeline does not list: neighbours, and things elsewhere.
#pragma once

#include <cstdint>
#include <optional>
#include <utility>
#include <vector>

#include "core/analysis/timeline.hpp"

namespace lathbook::sequence {

/// Decided from distances in the network, never from printed dates: x may have come in phase k when it can be
/// no earlier than the phase opens and earlier than the next opens (three circles of added links, as in the
/// timeline's own membership).
class PhaseReach {
public:
  /// Linear in the network for every phase, mostly.
  explicit PhaseReach(const Timeline& timeline);

  /// First and last phase, as indexes into Timeline::phases; nothing without phases, or when none is
  /// possible.
  std::optional<std::pair<std::size_t, std::size_t>> of(std::uint32_t instant) const;

private:
  std::vector<std::int64_t> least(const TimelineNetwork& network, std::uint32_t from, bool forward) const;

  std::vector<std::vector<std::int64_t>>
      after_;  ///< of every phase: least that an instant comes after its opening
  std::vector<std::vector<std::int64_t>> before_;  ///< least that its opening comes after an instant
};

}  // namespace lathbook::sequence
