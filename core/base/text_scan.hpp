// One step through UTF-8; shared by the sources of text.hpp, not for other rooms.
#pragma once

#include <cstddef>
#include <string>
#include <string_view>

namespace lathbook {

struct Scanned {
  char32_t code_point = 0xfffd;
  std::size_t length = 1;  ///< bytes to step over; 1 for a byte that is not UTF-8
  bool valid = false;
};

/// The code point that starts at this offset, which must lie inside the text.
Scanned scan_utf8(std::string_view bytes, std::size_t at) noexcept;

void append_utf8(std::string& text, char32_t code_point);

}  // namespace lathbook
