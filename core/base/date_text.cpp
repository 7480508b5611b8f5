// Decodes single characters for the date readers' messages.
#include "core/base/date_text.hpp"

#include <array>

namespace lathbook {

Character character_at(std::string_view text, std::size_t at) {
  const auto byte = [&](std::size_t i) { return static_cast<unsigned char>(text[i]); };
  const unsigned first = byte(at);
  if (first < 0x80) return {first, 1, true};
  const std::size_t length = first >= 0xF0 ? 4 : first >= 0xE0 ? 3 : 2;
  if (first < 0xC2 || first > 0xF4 || at + length > text.size()) return {first, 1, false};
  char32_t code = first & (0xFFU >> (length + 1));
  for (std::size_t i = 1; i < length; ++i) {
    const unsigned next = byte(at + i);
    if ((next & 0xC0U) != 0x80U) return {first, 1, false};
    code = (code << 6U) | (next & 0x3FU);
  }
  constexpr std::array<char32_t, 5> smallest{0, 0, 0x80, 0x800, 0x10000};
  if (code < smallest[length] || code > 0x10FFFF || (code >= 0xD800 && code < 0xE000))
    return {first, 1, false};
  return {code, length, true};
}

std::string character_name(const Character& character) {
  static constexpr std::string_view digits = "0123456789ABCDEF";
  std::string hex;
  for (char32_t rest = character.code; rest != 0; rest >>= 4U) hex.insert(0, 1, digits[rest & 0xFU]);
  const std::size_t width = character.valid ? 4 : 2;
  if (hex.size() < width) hex.insert(0, width - hex.size(), '0');
  return (character.valid ? "U+" : "byte ") + hex;
}

std::string shown(std::string_view text) {
  std::string out = "'";
  std::size_t count = 0;
  for (std::size_t at = 0; at < text.size(); ++count) {
    if (count == 60) {
      out += "...";
      break;
    }
    const Character c = character_at(text, at);
    if (c.valid && c.code >= 0x20 && c.code < 0x7F)
      out += static_cast<char>(c.code);
    else
      out += "<" + character_name(c) + ">";
    at += c.bytes;
  }
  return out + "'";
}

}  // namespace lathbook
