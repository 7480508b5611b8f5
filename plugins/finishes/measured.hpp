// A colour as an instrument gives it: L* a* b* in words.
#pragma once

#include <optional>
#include <string>
#include <string_view>

#include "core/base/colour_difference.hpp"

namespace lathbook::finishes {

/// Reads "52.1 3.2 -10.4" and "L* 52.1, a* 3.2, b* -10.4": L* 0 to 100, a* and b* -128 to 128. Nothing for
/// any other text; texts over 80 bytes are refused unread.
std::optional<Lab> read_lab(std::string_view text);

}  // namespace lathbook::finishes
