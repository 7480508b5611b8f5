// Bytes as letters (RFC 4648 section 4), for what text formats cannot carry.
#pragma once

#include <optional>
#include <string>
#include <string_view>

#include "core/base/api.hpp"

namespace lathbook {

LATHBOOK_API std::string to_base64(std::string_view bytes);
/// Exactly what to_base64 writes; nothing for any other text (blanks, missing padding, spare bits).
LATHBOOK_API std::optional<std::string> from_base64(std::string_view text);

}  // namespace lathbook
