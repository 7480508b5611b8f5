#include "plugins/pieces/lengths.hpp"

#include <map>
#include <string>

#include "core/base/number.hpp"
#include "core/view/measure.hpp"

namespace lathbook::pieces {

std::optional<double> millimetres(std::string_view text) {
  const auto measure = read_measure(text);
  if (!measure) return std::nullopt;
  const auto number = number_in<double>(measure->number);
  if (!number) return std::nullopt;
  static const std::map<std::string, double, std::less<>> units{
      {"mm", 1}, {"cm", 10}, {"m", 1000}, {"in", 25.4}, {"ft", 304.8}};
  const auto unit = units.find(measure->unit);
  return unit == units.end() ? std::nullopt : std::optional(*number * unit->second);
}

}  // namespace lathbook::pieces
