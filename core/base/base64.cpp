#include "core/base/base64.hpp"

#include <array>
#include <cstdint>

namespace lathbook {

namespace {

constexpr std::string_view kLetters = "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/";

}  // namespace

std::string to_base64(std::string_view bytes) {
  std::string out;
  out.reserve((bytes.size() + 2) / 3 * 4);
  for (std::size_t at = 0; at < bytes.size(); at += 3) {
    const auto part = bytes.substr(at, 3);
    std::uint32_t group = 0;
    for (std::size_t i = 0; i < 3; ++i) {
      group = (group << 8U) | (i < part.size() ? static_cast<std::uint8_t>(part[i]) : 0U);
    }
    for (std::size_t i = 0; i < 4; ++i) {
      out += i <= part.size() ? kLetters[(group >> (18U - 6U * i)) & 63U] : '=';
    }
  }
  return out;
}

std::optional<std::string> from_base64(std::string_view text) {
  if (text.size() % 4 != 0) return std::nullopt;
  std::string out;
  out.reserve(text.size() / 4 * 3);
  for (std::size_t at = 0; at < text.size(); at += 4) {
    const bool last = at + 4 == text.size();
    std::uint32_t group = 0;
    std::size_t letters = 0;
    for (std::size_t i = 0; i < 4; ++i) {
      const auto value = kLetters.find(text[at + i]);
      if (value != std::string_view::npos && letters == i) {
        group |= static_cast<std::uint32_t>(value) << (18U - 6U * i);
        ++letters;
      } else if (!(last && i >= 2 && text[at + i] == '=')) {
        return std::nullopt;
      }
    }
    for (std::size_t i = 0; i + 1 < letters; ++i) out += static_cast<char>((group >> (16U - 8U * i)) & 255U);
    // Bits past the last byte must be nought, so that one text has one form only.
    if (letters < 4 && (group & ((1U << (24U - 8U * (letters - 1))) - 1U)) != 0) return std::nullopt;
  }
  return out;
}

}  // namespace lathbook
