// How the date readers show what they were given in their messages. Internal to core/base.
#pragma once

#include <cstddef>
#include <string>
#include <string_view>

namespace lathbook {

/// One character of UTF-8 text: its code point and bytes; a byte that is not UTF-8 has `valid` false.
struct Character {
  char32_t code = 0;
  std::size_t bytes = 1;
  bool valid = true;
};

/// The character at `at`, which must be inside the text.
Character character_at(std::string_view text, std::size_t at);

/// 'U+2013', or 'byte FF' for a byte that is not UTF-8.
std::string character_name(const Character& character);

/// The text in single quotes, safe for a terminal: what is not printable ASCII appears as <U+2013>, and
/// a long text is cut after 60 characters.
std::string shown(std::string_view text);

inline bool is_digit(char c) {
  return c >= '0' && c <= '9';
}
inline bool is_letter(char c) {
  return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z');
}

}  // namespace lathbook
