// How several values and their details are written in one cell of a sheet. Internal to core/exchange.
#pragma once

#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "core/base/api.hpp"

namespace lathbook {

using Details = std::vector<std::pair<std::string, std::string>>;

/// A value and what followed it in braces: `Chart Room {sort=on a plan; from=1888}`.
struct CellValue {
  std::string value;
  Details details;
};

/// Parts between ' | ', blanks at their ends dropped; a bar inside the braces of a detail does not part.
LATHBOOK_API std::vector<std::string> split_values(std::string_view cell);

/// Takes the details off a value. Braces count only after a blank, at the end, and before `name=`.
LATHBOOK_API CellValue split_details(std::string_view cell);

/// Reads `name=value; name=value`. A semicolon parts only where another `name=` follows. False when the
/// text does not begin with `name=`.
LATHBOOK_API bool read_details(std::string_view text, Details& details);

/// A header as it is compared: folded, blanks and underscores as hyphens.
LATHBOOK_API std::string header_key(std::string_view title);

}  // namespace lathbook
