// What a plan shows besides outlines: openings in walls and stairs, from measured distances.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "core/view/views.hpp"

namespace lathbook::report {

/// Axis-aligned, metres in building coordinates.
struct Box {
  double left = 0, low = 0, right = 0, high = 0;
};

Box box_round(const std::vector<Point>& points);

/// The side of a room that a face names ("south wall"): 's', 'n', 'e', 'w'; nothing for other words.
std::optional<char> side_in(std::string_view face);
/// "1.05 m" in metres; nothing where it is no length.
std::optional<double> metres_in(std::string_view quantity);

/// Lengths of an opening or stair, metres, as its dimensions give them.
struct Lengths {
  double width = 0;  ///< of=width: an opening's along the wall, a stair's across
  double away = 0;   ///< of=from the west end of the wall: from that end to the near edge
  char end = 0;      ///< which end: 's', 'n', 'e', 'w'; 0 when the place is not measured
  double going = 0;  ///< of=going: a stair's whole length on plan
  double tread = 0;  ///< of=tread: one step's
};

/// A stretch of the wall on that side of a room: `deep` metres outward, or inward where it is negative. The
/// distance is measured from the end of the wall that `lengths` names; nothing where it names no end of that
/// wall, or the stretch is longer than the wall.
std::optional<Box> along_wall(const Box& room, char side, const Lengths& lengths, double length, double deep);

/// How thick the wall on that side is: to the nearest of the other outlines beyond it, at most 0.8 m away and
/// beside the stretch; 0.3 m where there is none.
double thickness(const Box& room, char side, const Box& stretch, const std::vector<Box>& beyond);

}  // namespace lathbook::report
