// Forms of quantities, outlines and Munsell colours, and the numbers in them.
#include <algorithm>
#include <array>
#include <charconv>
#include <cmath>
#include <utility>
#include <vector>

#include "core/base/munsell.hpp"
#include "core/base/text.hpp"
#include "core/evidence/number_words.hpp"
#include "core/evidence/value_forms.hpp"

namespace lathbook {

namespace {

constexpr std::array<std::string_view, 14> kUnits{"mm", "cm",  "m", "in", "ft", "yd", "mm2",
                                                  "m2", "ft2", "g", "kg", "oz", "lb", "l"};
constexpr double kFarthest = 1e6;  // metres: no building is larger
constexpr std::size_t kMostCorners = 10000;

bool all_digits(std::string_view text) {
  return !text.empty() && std::all_of(text.begin(), text.end(), [](char c) { return c >= '0' && c <= '9'; });
}

std::optional<double> whole(std::string_view text) {
  if (!all_digits(text)) return std::nullopt;
  return read_decimal(text);
}

// 1/2, 15/16: less than one, and not nought.
std::optional<double> read_fraction(std::string_view text) {
  const auto bar = text.find('/');
  if (bar == std::string_view::npos) return std::nullopt;
  const auto above = whole(text.substr(0, bar));
  const auto below = whole(text.substr(bar + 1));
  if (!above || !below || *above <= 0 || *above >= *below) return std::nullopt;
  return *above / *below;
}

// 5', 5' 3", 5' 3 1/2", 3 1/2".
bool is_feet_and_inches(std::string_view text) {
  const auto foot = text.find('\'');
  if (foot != std::string_view::npos) {
    const bool feet_alone = foot + 1 == text.size();
    if (feet_alone) return read_mixed(text.substr(0, foot)).has_value();
    if (!whole(text.substr(0, foot)) || text[foot + 1] != ' ') return false;
    text.remove_prefix(foot + 2);
  }
  if (text.empty() || text.back() != '"') return false;
  const auto inches = read_mixed(text.substr(0, text.size() - 1));
  return inches && (foot == std::string_view::npos || *inches < 12);
}

}  // namespace

std::optional<double> read_decimal(std::string_view text) {
  auto digits = text;
  if (!digits.empty() && digits.front() == '-') digits.remove_prefix(1);
  const auto point = digits.find('.');
  if (text.size() > 30 || !all_digits(digits.substr(0, point))) return std::nullopt;
  if (point != std::string_view::npos && !all_digits(digits.substr(point + 1))) return std::nullopt;
  double value = 0;
  const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), value);
  if (error != std::errc{} || end != text.data() + text.size()) return std::nullopt;
  return value;
}

std::optional<double> read_mixed(std::string_view text) {
  if (const auto fraction = read_fraction(text)) return fraction;
  const auto blank = text.find(' ');
  if (blank != std::string_view::npos) {
    const auto before = whole(text.substr(0, blank));
    const auto fraction = read_fraction(text.substr(blank + 1));
    if (!before || !fraction) return std::nullopt;
    return *before + *fraction;
  }
  const auto value = read_decimal(text);
  if (!value || text.front() == '-') return std::nullopt;
  return value;
}

std::string fault_of_quantity(std::string_view text) {
  if (is_feet_and_inches(text)) return {};
  const auto blank = text.rfind(' ');
  if (blank != std::string_view::npos) {
    const auto unit = text.substr(blank + 1);
    const bool known = std::find(kUnits.begin(), kUnits.end(), unit) != kUnits.end();
    if (known && read_mixed(text.substr(0, blank))) return {};
  }
  return "is no measure: write a number, a blank and a unit of " +
         join(std::vector<std::string>(kUnits.begin(), kUnits.end()), " ") +
         " (152 mm), or feet and inches (5' 3 1/2\")";
}

std::string fault_of_polygon(std::string_view text) {
  constexpr std::string_view form = "; write at least three corners as x,y in metres, parted by one blank";
  std::vector<std::pair<double, double>> corners;
  for (const auto& part : split(text, ' ')) {
    const auto comma = part.find(',');
    const auto x = read_decimal(std::string_view(part).substr(0, comma));
    const auto y =
        comma == std::string::npos ? std::nullopt : read_decimal(std::string_view(part).substr(comma + 1));
    if (!x || !y || std::abs(*x) > kFarthest || std::abs(*y) > kFarthest) {
      return "has " + quote(part) + " where a corner should be" + std::string(form);
    }
    if (!corners.empty() && corners.back() == std::pair(*x, *y)) {
      return "has the corner " + quote(part) + " twice running";
    }
    corners.emplace_back(*x, *y);
    if (corners.size() > kMostCorners) return "has more than 10000 corners";
  }
  if (corners.size() > 1 && corners.front() == corners.back()) corners.pop_back();
  if (corners.size() < 3) return "has fewer than three corners" + std::string(form);
  // Twice the area by the shoelace sum, from the first corner so that far origins lose nothing.
  double twice = 0;
  const auto [ox, oy] = corners.front();
  for (std::size_t i = 0; i < corners.size(); ++i) {
    const auto& [ax, ay] = corners[i];
    const auto& [bx, by] = corners[(i + 1) % corners.size()];
    twice += (ax - ox) * (by - oy) - (bx - ox) * (ay - oy);
  }
  if (std::abs(twice) < 1e-6) return "encloses no area";
  return {};
}

std::string fault_of_munsell(std::string_view text) {
  const MunsellReading reading = read_munsell(text);
  if (reading.good()) return {};
  return "is no Munsell colour like 10YR 7/4 or N 8/: at character " + std::to_string(reading.at) + " it " +
         reading.fault;
}

}  // namespace lathbook
