#include "plugins/labels/geometry.hpp"

#include <algorithm>
#include <boost/geometry.hpp>
#include <boost/geometry/geometries/linestring.hpp>
#include <boost/geometry/geometries/multi_linestring.hpp>
#include <boost/geometry/geometries/multi_polygon.hpp>
#include <boost/geometry/geometries/point_xy.hpp>
#include <boost/geometry/geometries/polygon.hpp>
#include <cmath>
#include <numbers>

namespace lathbook::labels {

namespace {

namespace bg = boost::geometry;
using Spot = bg::model::d2::point_xy<double>;
using Polygon = bg::model::polygon<Spot>;
using Polygons = bg::model::multi_polygon<Polygon>;
using Line = bg::model::linestring<Spot>;
using Lines = bg::model::multi_linestring<Line>;
using Box = bg::model::box<Spot>;

constexpr double kDrawingError = 0.05;  // m2
constexpr double kSteepness = 6;

double radians(double degrees) {
  return degrees * std::numbers::pi / 180;
}

}  // namespace

struct Shape::Inside {
  Polygon polygon;
  std::vector<Point> corners;
};

std::optional<Shape> Shape::from(const std::vector<Point>& outline) {
  auto inside = std::make_shared<Inside>();
  for (const Point& point : outline) {
    if (!std::isfinite(point.x) || !std::isfinite(point.y)) return std::nullopt;
    if (std::abs(point.x) > 1e6 || std::abs(point.y) > 1e6) return std::nullopt;
    bg::append(inside->polygon.outer(), Spot(point.x, point.y));
  }
  inside->corners = outline;
  bg::correct(inside->polygon);
  if (!bg::is_valid(inside->polygon) || bg::area(inside->polygon) < kDrawingError) return std::nullopt;
  return Shape(std::move(inside));
}

double Shape::area() const {
  return bg::area(inside_->polygon);
}

double Shape::perimeter() const {
  return static_cast<double>(bg::perimeter(inside_->polygon));
}

Point Shape::centroid() const {
  Spot middle(0, 0);
  bg::centroid(inside_->polygon, middle);
  return {middle.x(), middle.y()};
}

const std::vector<Point>& Shape::corners() const {
  return inside_->corners;
}

double Shape::overlap(const Shape& other) const {
  if (!bg::intersects(bg::return_envelope<Box>(inside_->polygon),
                      bg::return_envelope<Box>(other.inside_->polygon)))
    return 0;
  Polygons common;
  bg::intersection(inside_->polygon, other.inside_->polygon, common);
  const double square_metres = bg::area(common);
  return square_metres < kDrawingError ? 0 : square_metres;
}

double Shape::shared_wall(const Shape& other, double wall) const {
  if (bg::distance(inside_->polygon, other.inside_->polygon) > wall) return 0;
  Polygons thick;
  bg::buffer(other.inside_->polygon, thick, bg::strategy::buffer::distance_symmetric<double>(wall),
             bg::strategy::buffer::side_straight(), bg::strategy::buffer::join_miter(),
             bg::strategy::buffer::end_flat(), bg::strategy::buffer::point_square());
  const auto& ring = inside_->polygon.outer();
  const Line rim(ring.begin(), ring.end());
  Lines along;
  bg::intersection(rim, thick, along);
  std::vector<double> stretches;
  double at_the_start = 0;  // pieces on either side of the ring's first corner are one stretch
  for (const Line& line : along) {
    const bool touches = bg::equals(line.front(), rim.front()) || bg::equals(line.back(), rim.front());
    if (touches)
      at_the_start += static_cast<double>(bg::length(line));
    else
      stretches.push_back(static_cast<double>(bg::length(line)));
  }
  stretches.push_back(at_the_start);
  double metres = 0;
  for (const double stretch : stretches) metres += std::max(0.0, stretch - 2 * wall);
  return metres;
}

Compass::Compass(double north, const std::vector<Shape>& storey) : north_(north) {
  for (const Shape& shape : storey)
    corners_.insert(corners_.end(), shape.corners().begin(), shape.corners().end());
}

double Compass::towards(const Shape& shape, double bearing) const {
  const double turn = radians(north_ + bearing);
  const double east = std::sin(turn);
  const double north = std::cos(turn);
  const auto along = [&](const Point& point) { return point.x * east + point.y * north; };
  double low = 0;
  double high = 0;
  bool first = true;
  for (const Point& corner : corners_) {
    const double at = along(corner);
    low = first ? at : std::min(low, at);
    high = first ? at : std::max(high, at);
    first = false;
  }
  const double half = (high - low) / 2;
  if (half < 1e-9) return 0;
  return (along(shape.centroid()) - (low + high) / 2) / half;
}

double side_weight(double towards) {
  return 1 / (1 + std::exp(-kSteepness * towards));
}

}  // namespace lathbook::labels
