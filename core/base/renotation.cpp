#include "core/base/renotation.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdio>
#include <numbers>
#include <string_view>
#include <utility>
#include <vector>

#include "core/base/embedded.hpp"
#include "core/base/error.hpp"
#include "core/base/number.hpp"
#include "core/base/text.hpp"

namespace lathbook {

namespace {

constexpr double kWhiteX = 0.31006, kWhiteY = 0.31616;  // illuminant C, CIE 1931 observer
constexpr int kHues = 40;                               // every 2.5 steps
constexpr int kValues = 9;                              // 1 to 9

struct Xy {
  double x = kWhiteX;
  double y = kWhiteY;
};

double read_number(std::string_view text) {
  const auto number = number_in<double>(text);
  if (!number)
    fail(ErrorKind::corrupt, "the table of the Munsell renotation holds " + quote(text) + " for a number");
  return *number;
}

// The published colours by hue, value and chroma 2, 4, 6 ...
class Table {
public:
  Table() {
    bool header = true;
    for (const std::string& line : split(embedded_table("munsell-renotation"), '\n')) {
      if (line.empty() || line.front() == '#') continue;
      if (!std::exchange(header, false)) add(line);
    }
  }

  // Colour at a published hue and value; past the last chroma the last stretch is carried on.
  Xy at(int hue, int value, double chroma, bool& beyond) const {
    const auto& row =
        rows_[static_cast<std::size_t>((hue + kHues) % kHues)][static_cast<std::size_t>(value - 1)];
    if (chroma / 2 > static_cast<double>(row.size())) beyond = true;
    const auto most = static_cast<double>(row.size());
    const double upper = std::min(std::max(std::ceil(chroma / 2), 1.0), most);
    const Xy high = row[static_cast<std::size_t>(upper) - 1];
    const Xy low = upper < 2 ? Xy{} : row[static_cast<std::size_t>(upper) - 2];
    const double share = chroma / 2 - (upper - 1);
    return {low.x + (high.x - low.x) * share, low.y + (high.y - low.y) * share};
  }

private:
  void add(const std::string& line) {
    const auto cells = split(line, '\t');
    const MunsellReading hue = read_munsell(cells[0] + " 5/2");
    const double value = cells.size() > 2 ? read_number(cells[1]) : 0;
    if (!hue.good() || value < 1 || value > kValues)
      fail(ErrorKind::corrupt, "the table of the Munsell renotation has a line " + quote(line));
    auto& row = rows_[static_cast<std::size_t>(std::lround(hue.colour.hue / 2.5)) % kHues]
                     [static_cast<std::size_t>(value) - 1];
    for (std::size_t i = 2; i < cells.size(); ++i) {
      const auto pair = split(cells[i], ' ');
      if (pair.size() != 2) fail(ErrorKind::corrupt, "the Munsell renotation has a pair " + quote(cells[i]));
      row.push_back({read_number(pair[0]) / 10000, read_number(pair[1]) / 10000});
    }
  }

  std::array<std::array<std::vector<Xy>, kValues>, kHues> rows_;
};

const Table& table() {
  static const Table loaded;
  return loaded;
}

// Between two neighbouring hues: angle and distance from the white change evenly.
Xy between_hues(const Xy& one, const Xy& two, double share) {
  const double angle1 = std::atan2(one.y - kWhiteY, one.x - kWhiteX);
  double turn = std::atan2(two.y - kWhiteY, two.x - kWhiteX) - angle1;
  if (turn > std::numbers::pi) turn -= 2 * std::numbers::pi;
  if (turn < -std::numbers::pi) turn += 2 * std::numbers::pi;
  const double far1 = std::hypot(one.x - kWhiteX, one.y - kWhiteY);
  const double far2 = std::hypot(two.x - kWhiteX, two.y - kWhiteY);
  const double far = far1 + (far2 - far1) * share;
  const double angle = angle1 + turn * share;
  return {kWhiteX + far * std::cos(angle), kWhiteY + far * std::sin(angle)};
}

Xy at_value(const Munsell& colour, int value, bool& beyond) {
  const double step = colour.hue / 2.5;
  const int below = static_cast<int>(std::floor(step));
  const double share = step - below;
  const Xy one = table().at(below, value, colour.chroma, beyond);
  if (share == 0) return one;
  return between_hues(one, table().at(below + 1, value, colour.chroma, beyond), share);
}

using Triple = std::array<double, 3>;
using Matrix = std::array<Triple, 3>;

Triple times(const Matrix& m, const Triple& v) {
  Triple out{};
  for (std::size_t i = 0; i < 3; ++i) out[i] = m[i][0] * v[0] + m[i][1] * v[1] + m[i][2] * v[2];
  return out;
}

// Cone responses of the Bradford transform, and back.
constexpr Matrix kBradford{{{0.8951, 0.2664, -0.1614}, {-0.7502, 1.7135, 0.0367}, {0.0389, -0.0685, 1.0296}}};
constexpr Matrix kBradfordBack{{{0.9869929054667123, -0.1470542564209901, 0.1599626516637315},
                                {0.4323052697233945, 0.5183602715367776, 0.0492912282128556},
                                {-0.0085286645751773, 0.0400428216540850, 0.9684866957875501}}};
// IEC 61966-2-1, equation from XYZ (D65) to linear red, green and blue.
constexpr Matrix kToRed{{{3.2406, -1.5372, -0.4986}, {-0.9689, 1.8758, 0.0415}, {0.0557, -0.2040, 1.0570}}};
constexpr Triple kD65{0.3127 / 0.3290, 1, (1 - 0.3127 - 0.3290) / 0.3290};
constexpr Triple kC{kWhiteX / kWhiteY, 1, (1 - kWhiteX - kWhiteY) / kWhiteY};

// X, Y, Z under D65 of a colour given under C.
Triple adapted(const Chromaticity& colour) {
  const double y = std::max(colour.y, 1e-6);
  const Triple xyz{colour.x * colour.luminance / y, colour.luminance,
                   (1 - colour.x - colour.y) * colour.luminance / y};
  Triple cone = times(kBradford, xyz);
  const Triple from = times(kBradford, kC);
  const Triple to = times(kBradford, kD65);
  for (std::size_t i = 0; i < 3; ++i) cone[i] *= to[i] / from[i];
  return times(kBradfordBack, cone);
}

int signal(double linear) {
  const double light = std::clamp(linear, 0.0, 1.0);
  const double coded = light <= 0.0031308 ? 12.92 * light : 1.055 * std::pow(light, 1 / 2.4) - 0.055;
  return static_cast<int>(std::lround(255 * coded));
}

// Share of the way from grey at which all three first fit; 1 when they fit as they are.
double fitting_share(const Triple& red, double grey) {
  double share = 1;
  for (const double part : red) {
    if (part < 0) share = std::min(share, grey / (grey - part));
    if (part > 1) share = std::min(share, (1 - grey) / (part - grey));
  }
  return std::clamp(share, 0.0, 1.0);
}

// What does not fit is greyed at its own lightness.
ScreenColour shown(const Triple& xyz) {
  const double grey = std::clamp(xyz[1], 0.0, 1.0);
  Triple red = times(kToRed, xyz);
  const double share = fitting_share(red, grey);
  for (double& part : red) part = grey + (part - grey) * share;
  ScreenColour out;
  out.red = signal(red[0]);
  out.green = signal(red[1]);
  out.blue = signal(red[2]);
  // A whisker over the edge is rounding, not a colour that screens lack.
  out.trust = share < 0.99 ? ColourTrust::not_on_screen : ColourTrust::renotation;
  return out;
}

}  // namespace

std::string word(ColourTrust trust) {
  if (trust == ColourTrust::renotation) return "renotation";
  return trust == ColourTrust::beyond ? "beyond the renotation" : "not on screens";
}

double luminance_of(double value) {
  const double v = std::clamp(value, 0.0, 10.0);
  return v * (1.1914 + v * (-0.22533 + v * (0.23352 + v * (-0.020484 + v * 0.00081939)))) / 100;
}

Chromaticity chromaticity_of(const Munsell& colour) {
  Chromaticity out{kWhiteX, kWhiteY, luminance_of(colour.value), false};
  if (colour.neutral()) return out;
  if (colour.value < 1 || colour.value > 9) out.beyond = true;
  const double value = std::clamp(colour.value, 1.0, 9.0);
  const int low = std::min(static_cast<int>(std::floor(value)), kValues);
  const Xy below = at_value(colour, low, out.beyond);
  Xy found = below;
  if (value > low) {
    const Xy above = at_value(colour, low + 1, out.beyond);
    const double from = luminance_of(low);
    const double share = (luminance_of(value) - from) / (luminance_of(low + 1) - from);
    found = {below.x + (above.x - below.x) * share, below.y + (above.y - below.y) * share};
  }
  out.x = found.x;
  out.y = found.y;
  return out;
}

Lab lab_of(const Chromaticity& colour) {
  const Triple xyz = adapted(colour);
  Triple f{};
  for (std::size_t i = 0; i < 3; ++i) {
    const double t = xyz[i] / kD65[i];
    f[i] = t > 216.0 / 24389 ? std::cbrt(t) : (24389.0 / 27 * t + 16) / 116;
  }
  return {116 * f[1] - 16, 500 * (f[0] - f[1]), 200 * (f[1] - f[2])};
}

std::string ScreenColour::hex() const {
  char text[8];
  std::snprintf(text, sizeof text, "#%02x%02x%02x", static_cast<unsigned>(red & 255),
                static_cast<unsigned>(green & 255), static_cast<unsigned>(blue & 255));
  return text;
}

ScreenColour on_screen(const Munsell& colour) {
  const Chromaticity place = chromaticity_of(colour);
  ScreenColour out = shown(adapted(place));
  out.lab = lab_of(place);
  if (out.trust == ColourTrust::renotation && place.beyond) out.trust = ColourTrust::beyond;
  return out;
}

ScreenColour on_screen(const Lab& colour) {
  const double fy = (colour.l + 16) / 116;
  const Triple f{fy + colour.a / 500, fy, fy - colour.b / 200};
  Triple xyz{};
  for (std::size_t i = 0; i < 3; ++i) {
    const double cube = f[i] * f[i] * f[i];
    xyz[i] = kD65[i] * (cube > 216.0 / 24389 ? cube : (116 * f[i] - 16) * 27 / 24389);
  }
  ScreenColour out = shown(xyz);
  out.lab = colour;
  return out;
}

}  // namespace lathbook
