// Numbers in texts: read, where the whole text is one or there is none, and written.
#pragma once

#include <charconv>
#include <optional>
#include <string>
#include <string_view>
#include <system_error>

#include "core/base/api.hpp"

namespace lathbook {

/// The whole text as a number, in the same form in every country; nothing for an empty text, for anything
/// before or behind the digits (blanks and a leading plus too), and for a number that does not fit.
template <typename Number>
std::optional<Number> number_in(std::string_view text) {
  Number value{};
  const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), value);
  if (error != std::errc{} || end != text.data() + text.size()) return std::nullopt;
  return value;
}

/// The number to at most two places, without noughts at its end; for drawings and sizes: six digits in all,
/// so below 10,000 in hundredths. The same in every country.
LATHBOOK_API std::string in_hundredths(double value);

/// The number with exactly so many places, rounded from its exact value; "12.0", "0.35". The same in every
/// country.
LATHBOOK_API std::string with_places(double value, int places);

}  // namespace lathbook
