// Lengths as people write them, in millimetres.
#pragma once

#include <optional>
#include <string_view>

namespace lathbook::pieces {

/// "152 mm", "6 in", "3 1/2 in", "54 in", "0.3 m"; nothing for other text and other units.
std::optional<double> millimetres(std::string_view text);

}  // namespace lathbook::pieces
