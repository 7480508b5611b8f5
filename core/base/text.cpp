// The part of text.hpp that needs no tables of Unicode: bytes, code points, ASCII, lines, distances.
#include "core/base/text.hpp"

#include <algorithm>
#include <array>
#include <cstdint>
#include <cstdio>
#include <cstring>
#include <tuple>
#include <utility>

#include "core/base/error.hpp"
#include "core/base/text_scan.hpp"

namespace lathbook {
namespace {

unsigned byte_at(std::string_view bytes, std::size_t at) {
  return static_cast<unsigned char>(bytes[at]);
}

std::string hex_byte(unsigned byte) {
  std::array<char, 8> line{};
  std::snprintf(line.data(), line.size(), "0x%02X", byte);
  return line.data();
}

// What the writer of such bytes most likely had, so that the sentence can say what to do.
std::string encoding_hint(std::string_view bytes) {
  const std::string_view mark = bytes.substr(0, 2);
  if (mark == "\xff\xfe" || mark == "\xfe\xff") return "; it looks like UTF-16, save it as UTF-8";
  const auto between = [bytes](unsigned low, unsigned high) {
    return std::any_of(bytes.begin(), bytes.end(), [=](char c) {
      const unsigned byte = static_cast<unsigned char>(c);
      return byte >= low && byte <= high;
    });
  };
  if (between(0, 8)) return "; it looks like something other than text";
  if (between(0x80, 0x9f)) return "; it may be Windows-1252, save it as UTF-8";
  return "; it looks like Latin-1 (ISO 8859-1), save it as UTF-8";
}

constexpr std::string_view ascii_space = " \t\n\v\f\r";

// One line without line feeds, cut into pieces of at most `columns` columns.
void wrap_line(std::string_view line, std::size_t columns, std::vector<std::string>& lines) {
  std::string current;
  std::size_t width = 0;
  const auto emit = [&] {
    lines.push_back(std::move(current));
    current.clear();
    width = 0;
  };
  for (const std::string& word : split(line, ' ')) {
    if (word.empty()) continue;
    const std::size_t word_width = display_width(word);
    if (width > 0 && width + 1 + word_width > columns) emit();
    if (width > 0) {
      current += ' ';
      ++width;
    }
    if (word_width <= columns) {
      current += word;
      width += word_width;
      continue;
    }
    for (const char32_t c : code_points(word)) {
      const std::string piece = utf8(std::u32string_view(&c, 1));
      const std::size_t piece_width = display_width(piece);
      if (width > 0 && width + piece_width > columns) emit();
      current += piece;
      width += piece_width;
    }
  }
  emit();
}

}  // namespace

// Table 3-7 of The Unicode Standard: the second byte's range depends on the first; the others are 80..BF.
Scanned scan_utf8(std::string_view bytes, std::size_t at) noexcept {
  const unsigned first = byte_at(bytes, at);
  if (first < 0x80) return {first, 1, true};
  std::size_t length = 0;
  unsigned low = 0x80;
  unsigned high = 0xbf;
  char32_t value = 0;
  if (first >= 0xc2 && first <= 0xdf) {
    length = 2;
    value = first & 0x1f;
  } else if (first >= 0xe0 && first <= 0xef) {
    length = 3;
    value = first & 0x0f;
    if (first == 0xe0) low = 0xa0;
    if (first == 0xed) high = 0x9f;
  } else if (first >= 0xf0 && first <= 0xf4) {
    length = 4;
    value = first & 0x07;
    if (first == 0xf0) low = 0x90;
    if (first == 0xf4) high = 0x8f;
  }
  if (length == 0 || bytes.size() - at < length) return {};
  for (std::size_t i = 1; i < length; ++i) {
    const unsigned next = byte_at(bytes, at + i);
    if (next < low || next > high) return {};
    value = (value << 6) | (next & 0x3f);
    low = 0x80;
    high = 0xbf;
  }
  return {value, length, true};
}

void append_utf8(std::string& text, char32_t c) {
  const auto put = [&text](char32_t byte) { text += static_cast<char>(static_cast<unsigned char>(byte)); };
  if (c > 0x10ffff || (c >= 0xd800 && c <= 0xdfff)) c = 0xfffd;
  if (c < 0x80) {
    put(c);
  } else if (c < 0x800) {
    put(0xc0 | (c >> 6));
    put(0x80 | (c & 0x3f));
  } else if (c < 0x10000) {
    put(0xe0 | (c >> 12));
    put(0x80 | ((c >> 6) & 0x3f));
    put(0x80 | (c & 0x3f));
  } else {
    put(0xf0 | (c >> 18));
    put(0x80 | ((c >> 12) & 0x3f));
    put(0x80 | ((c >> 6) & 0x3f));
    put(0x80 | (c & 0x3f));
  }
}

std::optional<std::size_t> first_invalid_utf8(std::string_view bytes) {
  constexpr std::uint64_t high_bits = 0x8080808080808080U;
  std::size_t at = 0;
  while (at < bytes.size()) {
    std::uint64_t eight = high_bits;
    if (bytes.size() - at >= sizeof eight) std::memcpy(&eight, bytes.data() + at, sizeof eight);
    if ((eight & high_bits) == 0) {
      at += sizeof eight;
      continue;
    }
    const Scanned step = scan_utf8(bytes, at);
    if (!step.valid) return at;
    at += step.length;
  }
  return std::nullopt;
}

void require_utf8(std::string_view bytes, const std::string& where) {
  const std::optional<std::size_t> at = first_invalid_utf8(bytes);
  if (!at) return;
  fail(ErrorKind::invalid, where + ": the byte " + hex_byte(byte_at(bytes, *at)) + " at offset " +
                               std::to_string(*at) + " is not UTF-8" + encoding_hint(bytes));
}

std::u32string code_points(std::string_view text) {
  std::u32string all;
  all.reserve(text.size());
  for (std::size_t at = 0; at < text.size();) {
    const Scanned step = scan_utf8(text, at);
    all += step.code_point;
    at += step.length;
  }
  return all;
}

std::string utf8(std::u32string_view all) {
  std::string text;
  text.reserve(all.size());
  for (const char32_t c : all) append_utf8(text, c);
  return text;
}

std::vector<std::string> wrap(std::string_view text, std::size_t columns) {
  std::vector<std::string> lines;
  for (const std::string& line : split(text, '\n')) wrap_line(line, std::max<std::size_t>(columns, 1), lines);
  return lines;
}

std::size_t edit_distance(std::string_view a, std::string_view b) {
  const std::u32string from = code_points(fold(a));
  const std::u32string to = code_points(fold(b));
  std::vector<std::size_t> before(to.size() + 1);
  std::vector<std::size_t> row(to.size() + 1);
  std::vector<std::size_t> next(to.size() + 1);
  for (std::size_t j = 0; j <= to.size(); ++j) row[j] = j;
  for (std::size_t i = 1; i <= from.size(); ++i) {
    next[0] = i;
    for (std::size_t j = 1; j <= to.size(); ++j) {
      const std::size_t changed = row[j - 1] + (from[i - 1] == to[j - 1] ? 0 : 1);
      next[j] = std::min({row[j] + 1, next[j - 1] + 1, changed});
      const bool swapped = i > 1 && j > 1 && from[i - 1] == to[j - 2] && from[i - 2] == to[j - 1];
      if (swapped) next[j] = std::min(next[j], before[j - 2] + 1);
    }
    before.swap(row);
    row.swap(next);
  }
  return row[to.size()];
}

std::vector<std::string> nearest(std::string_view word, const std::vector<std::string>& known,
                                 std::size_t count) {
  const std::size_t limit = code_points(word).size() / 3 + 1;
  // Of words equally near, one that only goes on was more likely meant.
  std::vector<std::tuple<std::size_t, bool, std::string>> found;
  for (const std::string& candidate : known) {
    const std::size_t distance = edit_distance(word, candidate);
    if (distance <= limit) found.emplace_back(distance, candidate.rfind(word, 0) != 0, candidate);
  }
  std::sort(found.begin(), found.end());
  if (found.size() > count) found.resize(count);
  std::vector<std::string> words;
  for (auto& [distance, differs, candidate] : found) words.push_back(std::move(candidate));
  return words;
}

std::string_view trim(std::string_view text) {
  const std::size_t first = text.find_first_not_of(ascii_space);
  if (first == std::string_view::npos) return {};
  return text.substr(first, text.find_last_not_of(ascii_space) - first + 1);
}

std::vector<std::string> split(std::string_view text, char separator) {
  std::vector<std::string> parts;
  while (true) {
    const std::size_t end = text.find(separator);
    parts.emplace_back(text.substr(0, end));
    if (end == std::string_view::npos) return parts;
    text.remove_prefix(end + 1);
  }
}

std::string join(const std::vector<std::string>& parts, std::string_view separator) {
  std::string all;
  for (std::size_t i = 0; i < parts.size(); ++i) {
    if (i > 0) all += separator;
    all += parts[i];
  }
  return all;
}

std::string to_lower_ascii(std::string_view text) {
  std::string lower(text);
  for (char& c : lower) {
    if (c >= 'A' && c <= 'Z') c = static_cast<char>(c - 'A' + 'a');
  }
  return lower;
}

std::string capital(std::string text) {
  if (!text.empty() && text[0] >= 'a' && text[0] <= 'z') text[0] = static_cast<char>(text[0] - 'a' + 'A');
  return text;
}

int hex_value(char c) {
  if (c >= '0' && c <= '9') return c - '0';
  if (c >= 'a' && c <= 'f') return c - 'a' + 10;
  if (c >= 'A' && c <= 'F') return c - 'A' + 10;
  return -1;
}

}  // namespace lathbook
