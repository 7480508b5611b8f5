#include "plugins/pieces/quantities.hpp"

#include <cmath>

#include "core/base/error.hpp"

namespace lathbook::pieces {

namespace {

// Sums of decimal fractions miss whole numbers by a hair; a hair is no piece.
constexpr double kHair = 1e-9;

std::size_t up(double value) {
  return static_cast<std::size_t>(std::ceil(value - kHair));
}

void need_lengths(double run, double piece, double joint) {
  if (!(run > 0) || !(piece > 0) || !(joint >= 0) || !std::isfinite(run / piece))
    fail(ErrorKind::invalid, "a run and its pieces need lengths above nought, and a joint not below it");
}

}  // namespace

double per_area(double length, double width, double joint) {
  need_lengths(length, width, joint);
  return 1 / ((length + joint) * (width + joint));
}

double hexagons_per_area(double flats, double joint) {
  need_lengths(flats, flats, joint);
  return 1 / (std::sqrt(3.0) / 2 * (flats + joint) * (flats + joint));
}

Run along(double run, double piece, double joint) {
  need_lengths(run, piece, joint);
  // n pieces take n * piece + (n - 1) * joint.
  const auto whole = static_cast<std::size_t>(std::floor((run + joint) / (piece + joint) + kHair));
  const double taken = static_cast<double>(whole) * (piece + joint);
  const double rest = run - taken;
  return rest > kHair ? Run{whole + 1, true} : Run{whole, false};
}

std::size_t laid_in(double run, double rise, double length, double width, double joint) {
  return along(run, length, joint).pieces * along(rise, width, joint).pieces;
}

std::size_t bricks_by_face(double run, double rise, double length, double height, double joint) {
  need_lengths(run, length, joint);
  need_lengths(rise, height, joint);
  return up(run * rise * per_area(length, height, joint));
}

double mortar_cubic_feet(std::size_t bricks, double waste_per_cent) {
  constexpr double kForAThousand = 11.7;
  if (!(waste_per_cent >= 0) || waste_per_cent > 1000)
    fail(ErrorKind::invalid, "waste is 0 to 1000 per cent of what is needed");
  return static_cast<double>(bricks) / 1000 * kForAThousand * (1 + waste_per_cent / 100);
}

std::size_t bricks_by_volume(const Brickwork& wall) {
  constexpr double kFeetOfYard = 27;
  need_lengths(wall.run, wall.thickness, wall.joint_inches);
  need_lengths(wall.rise, wall.thickness, wall.joint_inches);
  if (wall.joint_inches > 0.375 + kHair)
    fail(ErrorKind::invalid,
         "the rule for brickwork by volume holds for joints up to 3/8 in; count wider ones by the face");
  const double face = wall.run * wall.rise - wall.openings_square_feet;
  if (!(face >= 0)) fail(ErrorKind::invalid, "the openings are larger than the wall");
  const double a_yard = wall.joint_inches <= 0.125 + kHair ? 575 : 500;
  return up(face * wall.thickness / kFeetOfYard * a_yard);
}

bool counts_as_opening(double square_feet) {
  return square_feet >= 100 - kHair;
}

std::size_t with_allowance(std::size_t needed, double per_cent) {
  if (!(per_cent >= 0) || per_cent > 1000)
    fail(ErrorKind::invalid, "an allowance is 0 to 1000 per cent of what is needed");
  return up(static_cast<double>(needed) * (1 + per_cent / 100));
}

std::size_t against_rejects(std::size_t needed, double per_cent) {
  if (!(per_cent >= 0) || per_cent > 99)
    fail(ErrorKind::invalid, "a rejection rate is 0 to 99 per cent of what is looked at");
  return up(static_cast<double>(needed) / (1 - per_cent / 100));
}

}  // namespace lathbook::pieces
