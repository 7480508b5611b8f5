#include "core/base/colour_difference.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace lathbook {

namespace {

constexpr double kDegree = std::numbers::pi / 180;

// Angle of a point in degrees, 0 to 360; nought at the origin.
double angle(double y, double x) {
  if (x == 0 && y == 0) return 0;
  const double degrees = std::atan2(y, x) / kDegree;
  return degrees < 0 ? degrees + 360 : degrees;
}

double seventh(double chroma) {
  const double power = std::pow(chroma, 7);
  return std::sqrt(power / (power + std::pow(25.0, 7)));
}

// Hue in CIEDE2000: the mean and the difference depend on which way round is shorter.
struct HueTurn {
  double mean = 0;
  double step = 0;
};

HueTurn turn(double h1, double h2, bool grey) {
  if (grey) return {h1 + h2, 0};
  const double apart = h2 - h1;
  const double sum = h1 + h2;
  if (std::abs(apart) <= 180) return {sum / 2, apart};
  return {sum < 360 ? (sum + 360) / 2 : (sum - 360) / 2, apart > 180 ? apart - 360 : apart + 360};
}

}  // namespace

double hue_steps(const Munsell& a, const Munsell& b) {
  const double apart = std::fmod(std::abs(a.hue - b.hue), 100.0);
  return std::min(apart, 100 - apart);
}

double godlove(const Munsell& a, const Munsell& b) {
  const double round = 2 * a.chroma * b.chroma * (1 - std::cos(3.6 * kDegree * hue_steps(a, b)));
  const double chroma = a.chroma - b.chroma;
  const double value = 4 * (a.value - b.value);
  return std::sqrt(round + chroma * chroma + value * value);
}

double nickerson(const Munsell& reference, const Munsell& other) {
  return 0.4 * reference.chroma * hue_steps(reference, other) + 6 * std::abs(reference.value - other.value) +
         3 * std::abs(reference.chroma - other.chroma);
}

double nickerson_symmetric(const Munsell& a, const Munsell& b) {
  return a.chroma < b.chroma ? nickerson(a, b) : nickerson(b, a);
}

double ciede2000(const Lab& one, const Lab& two) {
  const double mean_chroma = (std::hypot(one.a, one.b) + std::hypot(two.a, two.b)) / 2;
  const double stretch = 1 + 0.5 * (1 - seventh(mean_chroma));
  const double c1 = std::hypot(stretch * one.a, one.b);
  const double c2 = std::hypot(stretch * two.a, two.b);
  const bool grey = c1 * c2 == 0;
  const HueTurn hue = turn(angle(one.b, stretch * one.a), angle(two.b, stretch * two.a), grey);

  const double dl = two.l - one.l;
  const double dc = c2 - c1;
  const double dh = 2 * std::sqrt(c1 * c2) * std::sin(hue.step / 2 * kDegree);
  const double l = (one.l + two.l) / 2;
  const double c = (c1 + c2) / 2;

  const double t = 1 - 0.17 * std::cos((hue.mean - 30) * kDegree) + 0.24 * std::cos(2 * hue.mean * kDegree) +
                   0.32 * std::cos((3 * hue.mean + 6) * kDegree) -
                   0.20 * std::cos((4 * hue.mean - 63) * kDegree);
  const double blue = (hue.mean - 275) / 25;
  const double rotation = -std::sin(60 * std::exp(-blue * blue) * kDegree) * 2 * seventh(c);
  const double from_middle = (l - 50) * (l - 50);
  const double sl = 1 + 0.015 * from_middle / std::sqrt(20 + from_middle);
  const double sc = 1 + 0.045 * c;
  const double sh = 1 + 0.015 * c * t;
  const double tl = dl / sl, tc = dc / sc, th = dh / sh;
  return std::sqrt(std::max(0.0, tl * tl + tc * tc + th * th + rotation * tc * th));
}

}  // namespace lathbook
