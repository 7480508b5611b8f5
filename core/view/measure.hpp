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

/// A length of that form in millimetres: "152 mm", "6 in", "54 in", "0.3 m"; nothing for other text and for
/// other units than mm, cm, m, in (25.4 mm) and ft (304.8 mm).
LATHBOOK_API std::optional<double> millimetres_in(std::string_view text);

}  // namespace lathbook
