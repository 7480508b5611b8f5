// Text in other encodings, as tag files of old packages have it, to UTF-8.
#pragma once

#include <optional>
#include <string>
#include <string_view>

#include "core/base/api.hpp"

namespace lathbook {

/// Whether the name ("UTF-16", "ISO-8859-1") is an encoding that can be read here.
LATHBOOK_API bool knows_encoding(const std::string& name);
/// The text in UTF-8, a byte order mark dropped; nothing when the encoding is not known or the bytes are not
/// of it.
LATHBOOK_API std::optional<std::string> to_utf8(std::string_view bytes, const std::string& encoding);

}  // namespace lathbook
