// Finds the reference marks a damaged reading may be of, and says how likely each is.
#pragma once

#include <cstdint>
#include <vector>

#include "core/base/transcription.hpp"
#include "plugins/marks/query.hpp"
#include "plugins/marks/reference_list.hpp"

namespace lathbook::marks {

/// A mark found. `cost` has everything in it: letters, lines left out, reading backwards.
struct Found {
  std::uint32_t mark = 0;   ///< its number in the list
  std::uint32_t key = 0;    ///< index into ReferenceList::keys()
  std::size_t variant = 0;  ///< index into Answer::variants: how the reading was taken
  float cost = 0;
  double share = 0;  ///< how likely, given the reading and the list; all shares and `unlisted` sum to 1
};

struct Answer {
  std::vector<Query> variants;  ///< ways to take the reading that were tried: whole, some lines, backwards
  std::vector<Found> found;     ///< cheapest first, each mark once, at most kMostFound
  double unlisted = 1;          ///< how likely the mark is not in the list
  double others = 0;            ///< shares of those that were compared and are not among `found`
  std::size_t compared = 0;     ///< keys compared letter by letter
  bool too_little = false;      ///< fewer than three letters are read for certain: nothing was searched
};

inline constexpr std::size_t kMostFound = 12;
/// Fitted by tests/bench/bench_marks.cpp on invented damage, to be fitted anew on real readings. Costs are
/// divided by kTemperature before they are weighed; kUnlisted is the chance, before anything is read, that a
/// mark is not in the list; marks in and out of a list resemble each other, so a reading is only kLikeness
/// times as surprising as its letters, and a list is not as crowded as its length says: its length to the
/// power kCrowding.
inline constexpr double kTemperature = 0.5;
inline constexpr double kUnlisted = 0.2;
inline constexpr double kLikeness = 0.5;
inline constexpr double kCrowding = 0.57;

/// `mirrored` says that the plate or a line is noted as mirrored or running from right to left: then reading
/// backwards costs nothing; otherwise it is tried only when reading straight finds nothing good.
Answer search(const ReferenceList& list, const std::vector<std::vector<Position>>& lines, bool mirrored);

}  // namespace lathbook::marks
