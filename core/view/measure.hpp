// A measure as other formats want it: one decimal number and one unit.
#pragma once

#include <optional>
#include <string>
#include <string_view>

#include "core/base/api.hpp"

namespace lathbook {

struct Measure {
  std::string number;  ///< decimal, without exponent
  std::string unit;    ///< "mm", "in"
};

/// Reads "152 mm", "3 1/2 in" and "5' 3 1/2\"" (given in inches, to a millionth); nothing for other text.
LATHBOOK_API std::optional<Measure> read_measure(std::string_view text);

}  // namespace lathbook
