// Decimal numbers and fractions as people write them. Internal to core/evidence.
#pragma once

#include <optional>
#include <string_view>

namespace lathbook {

/// "12", "-0.5", "3.25": digits, at most one full stop with digits on both sides, at most 30 characters;
/// leading noughts are let through ("007" is 7). Nothing for any other text.
std::optional<double> read_decimal(std::string_view text);

/// "3", "3.5", "1/2", "3 1/2": never negative; a fraction is less than one.
std::optional<double> read_mixed(std::string_view text);

}  // namespace lathbook
