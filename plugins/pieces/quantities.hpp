// How many pieces a field takes, and how many to order: counted by row and column, never by area.
#pragma once

#include <cstddef>

namespace lathbook::pieces {

/// Pieces per unit of area for tile of this size laid with this joint, all in one unit of length; for
/// comparison with handbooks only. Plane geometry.
double per_area(double length, double width, double joint);
/// The same for regular hexagons by their width across flats; the joint is added before squaring.
double hexagons_per_area(double flats, double joint);

/// Pieces along one run: whole ones and, when a rest remains that is wider than the joint, one cut.
struct Run {
  std::size_t pieces = 0;
  bool cut = false;
};
/// Throws Error(invalid) unless all lengths are positive and the joint is not negative.
Run along(double run, double piece, double joint);

/// Pieces laid in a rectangle: those along times those up; cut ones count as one each.
std::size_t laid_in(double run, double rise, double length, double width, double joint);

/// Bricks in a wall one leaf thick by the area of its face, as handbooks reckon them: area over brick and
/// joint, rounded up. All in one unit of length; no openings.
std::size_t bricks_by_face(double run, double rise, double length, double height, double joint);
/// Mortar for them in cubic feet: 11.7 for each thousand laid with joints of half an inch, and so many per
/// cent on top for waste (US Navy, NAVEDTRA 14045, p. 159).
double mortar_cubic_feet(std::size_t bricks, double waste_per_cent);

/// A rule of thumb for thicker walls, in feet: so many bricks for each cubic yard of wall.
struct Brickwork {
  double run = 0, rise = 0, thickness = 0;  ///< feet
  double joint_inches = 0;                  ///< 3/8 at most
  double openings_square_feet = 0;          ///< the sum of those that count: see counts_as_opening()
};
/// 500 bricks a cubic yard with joints up to 3/8 in, 575 with joints up to 1/8 in, without waste (the
/// Building Trades Pocketbook, 'Brickwork'; 5 per cent of waste there). Throws Error(invalid) for wider
/// joints.
std::size_t bricks_by_volume(const Brickwork& wall);
/// The same book deducts an opening only from 100 square feet upwards.
bool counts_as_opening(double square_feet);

/// `needed` with an allowance of so many per cent on top, rounded up to whole pieces. 0 to 1000 per cent.
std::size_t with_allowance(std::size_t needed, double per_cent);
/// How many to buy so that `needed` are left when so many per cent are rejected; 0 to 99 per cent.
std::size_t against_rejects(std::size_t needed, double per_cent);

}  // namespace lathbook::pieces
