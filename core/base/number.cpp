#include "core/base/number.hpp"

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

}  // namespace lathbook
