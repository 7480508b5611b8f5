#include "core/base/number.hpp"

#include <array>
#include <cmath>
#include <locale>
#include <sstream>

namespace lathbook {

std::string in_hundredths(double value) {
  std::ostringstream text;
  text.imbue(std::locale::classic());
  text << std::round(value * 100) / 100;
  return text.str();
}

std::string with_places(double value, int places) {
  // The greatest double has 309 digits before the point.
  std::array<char, 400> text;
  const auto written =
      std::to_chars(text.data(), text.data() + text.size(), value, std::chars_format::fixed, places);
  return {text.data(), written.ptr};
}

}  // namespace lathbook
