// How rooms lie to each other: overlap, shared walls, position on a storey. The only door to Boost.Geometry.
#pragma once

#include <memory>
#include <optional>
#include <vector>

#include "core/view/views.hpp"

namespace lathbook::labels {

/// An outline in building coordinates (metres), made valid on the way in.
class Shape {
public:
  /// Nothing when fewer than three corners, an edge crosses another, or there is no area worth the name.
  static std::optional<Shape> from(const std::vector<Point>& outline);

  double area() const;
  double perimeter() const;
  Point centroid() const;
  const std::vector<Point>& corners() const;

  /// Square metres common to both, seen from above; below 0.05 m2 it counts as nought (drawing error).
  double overlap(const Shape& other) const;
  /// Metres of this outline that run along the other's, with at most `wall` metres between them; stretches
  /// that only come from turning a corner (up to `wall` at either end) are taken off.
  double shared_wall(const Shape& other, double wall) const;

private:
  struct Inside;
  explicit Shape(std::shared_ptr<const Inside> inside) : inside_(std::move(inside)) {}
  std::shared_ptr<const Inside> inside_;
};

/// The extent of a storey along two axes turned so that one of them points to true north.
class Compass {
public:
  /// `north` in degrees from the y axis of building coordinates to true north, clockwise.
  Compass(double north, const std::vector<Shape>& storey);

  /// Where a shape's centroid lies between the middle of the storey (0) and its edge (1; negative on the
  /// other side), looking `bearing` degrees clockwise from true north.
  double towards(const Shape& shape, double bearing) const;

private:
  double north_;
  std::vector<Point> corners_;
};

/// Chance-like weight of a position: a logistic curve, 1/2 in the middle of the storey, steepness 6.
double side_weight(double towards);

}  // namespace lathbook::labels
