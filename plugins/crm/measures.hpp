// Measures as CIDOC CRM wants them: one decimal number and one unit.
#pragma once

#include <optional>
#include <string>
#include <string_view>

namespace lathbook::crm {

struct Measure {
  std::string number;  ///< xsd:decimal
  std::string unit;    ///< "mm", "in"
};

/// Reads "152 mm", "3 1/2 in" and "5' 3 1/2\"" (given in inches, to a millionth); nothing for other text.
std::optional<Measure> read_measure(std::string_view text);

}  // namespace lathbook::crm
