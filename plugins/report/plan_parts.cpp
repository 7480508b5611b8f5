// Places openings and stairs by the running dimensions of a survey.
#include "plugins/report/plan.hpp"

#include <algorithm>
#include <limits>

#include "core/view/measure.hpp"

namespace lathbook::report {

namespace {

constexpr double kThickest = 0.8;  ///< of a wall of a house, metres: common practice, no source
constexpr double kUsual = 0.3;

bool upright(char side) {
  return side == 'e' || side == 'w';
}

}  // namespace

Box box_round(const std::vector<Point>& points) {
  constexpr double kFar = std::numeric_limits<double>::max();
  Box box{kFar, kFar, -kFar, -kFar};
  for (const Point& point : points) {
    box.left = std::min(box.left, point.x);
    box.right = std::max(box.right, point.x);
    box.low = std::min(box.low, point.y);
    box.high = std::max(box.high, point.y);
  }
  return box;
}

std::optional<char> side_in(std::string_view face) {
  for (const std::string_view side : {"south", "north", "east", "west"})
    if (face.starts_with(side)) return side.front();
  return std::nullopt;
}

std::optional<double> metres_in(std::string_view quantity) {
  const auto millimetres = millimetres_in(quantity);
  return millimetres ? std::optional(*millimetres / 1000) : std::nullopt;
}

std::optional<Box> along_wall(const Box& room, char side, const Lengths& lengths, double length,
                              double deep) {
  const bool up = upright(side);
  const bool fits = up ? lengths.end == 's' || lengths.end == 'n' : lengths.end == 'w' || lengths.end == 'e';
  const double low = up ? room.low : room.left;
  const double high = up ? room.high : room.right;
  if (!fits || length <= 0 || lengths.away < 0 || lengths.away + length > high - low + 0.01)
    return std::nullopt;
  const bool from_low = lengths.end == 's' || lengths.end == 'w';
  const double begin = from_low ? low + lengths.away : high - lengths.away - length;
  const double edge = side == 's' ? room.low : side == 'n' ? room.high : side == 'w' ? room.left : room.right;
  const double beyond = side == 's' || side == 'w' ? edge - deep : edge + deep;
  const double near = std::min(edge, beyond);
  const double far = std::max(edge, beyond);
  return up ? Box{near, begin, far, begin + length} : Box{begin, near, begin + length, far};
}

double thickness(const Box& room, char side, const Box& stretch, const std::vector<Box>& beyond) {
  double thinnest = kThickest;
  bool found = false;
  const auto try_one = [&](double away) {
    if (away < 0.02 || away > thinnest) return;
    thinnest = away;
    found = true;
  };
  for (const Box& other : beyond) {
    const bool beside = upright(side) ? other.low < stretch.high && other.high > stretch.low
                                      : other.left < stretch.right && other.right > stretch.left;
    if (!beside) continue;
    // The near edge of a room beyond, and the far one of what lies round this room.
    if (side == 's') try_one(room.low - other.high), try_one(room.low - other.low);
    if (side == 'n') try_one(other.low - room.high), try_one(other.high - room.high);
    if (side == 'w') try_one(room.left - other.right), try_one(room.left - other.left);
    if (side == 'e') try_one(other.left - room.right), try_one(other.right - room.right);
  }
  return found ? thinnest : kUsual;
}

}  // namespace lathbook::report
