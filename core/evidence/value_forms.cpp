// Forms of text, codes, numbers, addresses and digests.
#include "core/evidence/value_forms.hpp"

#include <algorithm>
#include <charconv>
#include <cstdint>
#include <optional>
#include <vector>

#include "core/base/text.hpp"
#include "core/base/transcription.hpp"
#include "core/evidence/number_words.hpp"

namespace lathbook {

namespace {

constexpr std::size_t kMostText = 1U << 20U;
constexpr std::size_t kMostCode = 40;

bool is_letter(char c) {
  return (c >= 'A' && c <= 'Z') || (c >= 'a' && c <= 'z');
}
bool is_digit(char c) {
  return c >= '0' && c <= '9';
}
bool is_hex(char c) {
  return is_digit(c) || (c >= 'a' && c <= 'f') || (c >= 'A' && c <= 'F');
}

// Characters, counted from 1, up to and with the one that begins at this byte.
std::string place_of(std::string_view text, std::size_t byte) {
  const auto starts = [](char c) { return (static_cast<unsigned char>(c) & 0xc0U) != 0x80U; };
  return "character " + std::to_string(std::count_if(
                            text.begin(), text.begin() + static_cast<std::ptrdiff_t>(byte) + 1, starts));
}

// The forbidden character that begins here, if one does. The text is UTF-8.
std::optional<char32_t> forbidden_at(std::string_view text, std::size_t i) {
  const auto byte = [&](std::size_t at) { return static_cast<unsigned char>(text[at]); };
  const unsigned char first = byte(i);
  if ((first < 0x20 && first != '\n' && first != '\t') || first == 0x7f) return first;
  if (first == 0xc2 && byte(i + 1) < 0xa0) return byte(i + 1);
  if (first == 0xef && byte(i + 1) == 0xbf && byte(i + 2) >= 0xbe) {
    return byte(i + 2) == 0xbe ? U'\xfffe' : U'\xffff';
  }
  return std::nullopt;
}

}  // namespace

std::string fault_of_text(std::string_view text) {
  if (text.empty() || trim(text).empty()) return "is empty";
  if (text.size() > kMostText) return "is longer than 1 MiB; keep it as a file and say where";
  if (const auto bad = first_invalid_utf8(text)) {
    return "is not UTF-8 at byte " + std::to_string(*bad + 1);
  }
  for (std::size_t i = 0; i < text.size(); ++i) {
    const auto code = forbidden_at(text, i);
    if (!code) continue;
    return "has " + describe_code_point(*code) + " as " + place_of(text, i) + ", which cannot be kept";
  }
  return {};
}

std::string fault_of_transcription(std::string_view text) {
  if (auto fault = fault_of_text(text); !fault.empty()) return fault;
  const auto fault = fault_in_transcription(text);
  return fault ? fault->reason : std::string{};
}

std::string fault_of_code(std::string_view text) {
  const auto plain = [](char c) { return is_letter(c) || is_digit(c); };
  if (text.empty()) return "is empty";
  if (text.size() > kMostCode) return "is longer than 40 characters";
  for (std::size_t i = 0; i < text.size(); ++i) {
    if (plain(text[i]) || std::string_view(".-_/").find(text[i]) != std::string_view::npos) continue;
    return "has at " + place_of(text, i) + " something other than A-Z, a-z, 0-9, full stop, hyphen, _ and /";
  }
  if (!plain(text.front()) || !plain(text.back())) return "must begin and end with a letter or digit";
  return {};
}

std::string fault_of_number(std::string_view text) {
  if (text.find(',') != std::string_view::npos) return "has a comma; write a full stop for the decimal point";
  if (!read_decimal(text)) return "is no number like 12, -0.5 or 3.25";
  return {};
}

std::string fault_of_integer(std::string_view text) {
  std::int64_t value = 0;
  const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), value);
  if (error != std::errc{} || end != text.data() + text.size() || std::to_string(value) != text) {
    return "is no whole number like 7 or -1";
  }
  return {};
}

std::string fault_of_uri(std::string_view text) {
  const auto colon = text.find(':');
  const auto scheme = to_lower_ascii(text.substr(0, std::min(colon, text.size())));
  if (colon == std::string_view::npos || scheme.empty() || !is_letter(scheme.front()) ||
      !std::all_of(scheme.begin(), scheme.end(),
                   [](char c) { return is_letter(c) || is_digit(c) || c == '+' || c == '-' || c == '.'; })) {
    return "is no whole web address: it must begin with a scheme, as in https://";
  }
  if (scheme == "javascript" || scheme == "vbscript" || scheme == "data") {
    return "has the scheme " + scheme + ", which a browser would run";
  }
  if (text.size() > 4096) return "is longer than 4096 characters";
  constexpr std::string_view others = "-._~:/?#[]@!$&'()*+,;=";
  for (std::size_t i = colon + 1; i < text.size(); ++i) {
    const bool escaped = text[i] == '%' && i + 2 < text.size() && is_hex(text[i + 1]) && is_hex(text[i + 2]);
    if (is_letter(text[i]) || is_digit(text[i]) || escaped ||
        others.find(text[i]) != std::string_view::npos) {
      continue;
    }
    return "has at " + place_of(text, i) +
           " something that must be written with % and two hexadecimal digits";
  }
  const auto rest = text.substr(colon + 1);
  if (rest.empty()) return "ends after its scheme";
  if (scheme == "http" || scheme == "https") {
    const bool slashes = rest.substr(0, 2) == "//";
    if (!slashes || rest.size() == 2 || std::string_view("/?#:").find(rest[2]) != std::string_view::npos) {
      return "names no host";
    }
  }
  return {};
}

std::string fault_of_digest(std::string_view text) {
  const bool fits = text.size() == 64 && std::all_of(text.begin(), text.end(), [](char c) {
                      return is_digit(c) || (c >= 'a' && c <= 'f');
                    });
  return fits ? std::string{} : "is no SHA-256 of 64 small hexadecimal digits";
}

std::string fault_of_language(std::string_view text) {
  const auto parts = split(text, '-');
  for (std::size_t i = 0; i < parts.size(); ++i) {
    const bool fits = !parts[i].empty() && parts[i].size() <= 8 &&
                      std::all_of(parts[i].begin(), parts[i].end(),
                                  [i](char c) { return is_letter(c) || (i > 0 && is_digit(c)); });
    if (!fits || (i == 0 && parts[i].size() < 2)) return "is no language tag like en or de-AT";
  }
  return {};
}

}  // namespace lathbook
