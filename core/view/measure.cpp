// Reads measures.
#include "core/view/measure.hpp"

#include <array>
#include <charconv>
#include <utility>
#include <vector>

#include "core/base/number.hpp"
#include "core/base/text.hpp"

namespace lathbook {

namespace {

std::optional<double> decimal(std::string_view text) {
  double value = 0;
  const auto [end, error] =
      std::from_chars(text.data(), text.data() + text.size(), value, std::chars_format::fixed);
  if (text.empty() || error != std::errc() || end != text.data() + text.size()) return std::nullopt;
  return value;
}

/// 3, 3.5, 1/2, 3 1/2.
std::optional<double> mixed(std::string_view text) {
  double sum = 0;
  for (const std::string& part : split(text, ' ')) {
    const auto bar = part.find('/');
    const auto above = decimal(std::string_view(part).substr(0, bar));
    const auto below = bar == std::string::npos ? 1.0 : decimal(std::string_view(part).substr(bar + 1));
    if (!above || !below || *below == 0) return std::nullopt;
    sum += *above / *below;
  }
  return sum;
}

std::string written(double value) {
  std::string number = with_places(value, 6);
  number.erase(number.find_last_not_of('0') + 1);
  if (number.back() == '.') number.pop_back();
  return number;
}

std::optional<Measure> feet_and_inches(std::string_view text) {
  double inches = 0;
  if (const auto foot = text.find('\''); foot != std::string_view::npos) {
    const auto feet = mixed(text.substr(0, foot));
    if (!feet) return std::nullopt;
    inches = *feet * 12;
    text = trim(text.substr(foot + 1));
  }
  if (!text.empty()) {
    const auto rest = text.back() == '"' ? mixed(text.substr(0, text.size() - 1)) : std::nullopt;
    if (!rest) return std::nullopt;
    inches += *rest;
  }
  return Measure{written(inches), "in"};
}

}  // namespace

std::optional<Measure> read_measure(std::string_view text) {
  text = trim(text);
  if (text.find_first_of("'\"") != std::string_view::npos) return feet_and_inches(text);
  const auto blank = text.rfind(' ');
  if (blank == std::string_view::npos) return std::nullopt;
  const auto number = text.substr(0, blank);
  // A plain number keeps its own digits: 11.50 kg stays 11.50.
  if (number.find_first_not_of("0123456789.") == std::string_view::npos && decimal(number))
    return Measure{std::string(number), std::string(text.substr(blank + 1))};
  const auto value = mixed(number);
  if (!value) return std::nullopt;
  return Measure{written(*value), std::string(text.substr(blank + 1))};
}

std::optional<double> millimetres_in(std::string_view text) {
  const auto measure = read_measure(text);
  if (!measure) return std::nullopt;
  const auto number = number_in<double>(measure->number);
  if (!number) return std::nullopt;
  constexpr std::array<std::pair<std::string_view, double>, 5> kUnits{
      {{"mm", 1}, {"cm", 10}, {"m", 1000}, {"in", 25.4}, {"ft", 304.8}}};
  for (const auto& [unit, millimetres] : kUnits)
    if (measure->unit == unit) return *number * millimetres;
  return std::nullopt;
}

}  // namespace lathbook
