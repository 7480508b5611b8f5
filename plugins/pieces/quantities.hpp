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

/// `needed` with an allowance of so many per cent on top, rounded up to whole pieces. 0 to 1000 per cent.
std::size_t with_allowance(std::size_t needed, double per_cent);
/// How many to buy so that `needed` are left when so many per cent are rejected; 0 to 99 per cent.
std::size_t against_rejects(std::size_t needed, double per_cent);

}  // namespace lathbook::pieces
