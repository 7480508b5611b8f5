// Sentences with slots, in the pattern language of ICU's MessageFormat: plurals and choices belong to the
// pattern, so another language is another pattern.
#pragma once

#include <cstdint>
#include <initializer_list>
#include <string>
#include <string_view>
#include <utility>
#include <variant>
#include <vector>

#include "core/base/api.hpp"

namespace lathbook {

/// A word or a whole number for a slot.
using MessageValue = std::variant<std::string, std::int64_t>;
using MessageValues = std::vector<std::pair<std::string, MessageValue>>;

/// "{n, plural, one {# tile was} other {# tiles were}} laid" with n = 2 gives "2 tiles were laid". Slots
/// without a value stay as they are written. Numbers are grouped as the language does. Throws
/// Error(corrupt) when the pattern is no pattern. Source of the language: Unicode Consortium, ICU User
/// Guide, 'Formatting Messages'.
LATHBOOK_API std::string message(std::string_view language, std::string_view pattern,
                                 const MessageValues& values);

}  // namespace lathbook
