// From a timeline to chances: which instants are drawn, what is certain without drawing, what is refused.
#pragma once

#include <optional>

#include "core/analysis/chances.hpp"
#include "core/plugin/plugin.hpp"

namespace lathbook::chances {

struct Question {
  std::uint64_t seed = 1;
  /// Which of these began first; nothing: the dates of everything the timeline shows.
  std::optional<Uuid> first, second;
  int first_placement = 1;
  int second_placement = 1;
};

/// More dates than this are not drawn at once.
inline constexpr std::size_t kMostDates = 1500;

/// Throws Error(invalid) for too many dates, and for a record that has no beginning.
Chances reckon(const Timeline& timeline, const Question& question, Services& services);

}  // namespace lathbook::chances
