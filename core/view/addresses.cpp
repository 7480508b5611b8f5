// Makes and checks web addresses.
#include "core/view/addresses.hpp"

#include "core/base/error.hpp"
#include "core/base/text.hpp"

namespace lathbook {

namespace {

bool is_barred(unsigned char c) {
  return c <= 0x20 || c == 0x7f ||
         std::string_view("<>\"{}|^`\\").find(static_cast<char>(c)) != std::string_view::npos;
}

bool has_scheme(std::string_view base) {
  const auto colon = base.find(':');
  if (colon == std::string_view::npos || colon == 0) return false;
  const char first = base[0];
  return (first >= 'a' && first <= 'z') || (first >= 'A' && first <= 'Z');
}

}  // namespace

void require_base_address(const std::string& base) {
  const bool ends = !base.empty() && (base.back() == '/' || base.back() == '#');
  if (!has_scheme(base) || !ends || encode_address(base) != base) {
    fail(ErrorKind::invalid,
         "the base address " + quote(base) +
             " cannot begin the names of records; give one like http://example.org/archive/ with --base");
  }
}

void require_web_address(const std::string& base, const std::string& format) {
  require_base_address(base);
  if (base.rfind("http://", 0) != 0 && base.rfind("https://", 0) != 0) {
    fail(ErrorKind::invalid, format + " needs addresses of the web and " + quote(base) +
                                 " is none; give --base, or say the archive's base-iri, like "
                                 "https://example.org/archive/");
  }
}

std::string encode_address(std::string_view iri) {
  static constexpr char digits[] = "0123456789ABCDEF";
  std::string encoded;
  for (const char c : iri) {
    const auto byte = static_cast<unsigned char>(c);
    if (!is_barred(byte)) {
      encoded += c;
      continue;
    }
    encoded += '%';
    encoded += digits[byte >> 4];
    encoded += digits[byte & 15];
  }
  return encoded;
}

std::string record_address(const std::string& base, const Uuid& id) {
  return base + "record/" + id.text();
}
std::string statement_address(const std::string& base, const Digest& id) {
  return base + "statement/" + id.hex();
}
std::string media_address(const std::string& base, const Digest& id) {
  return base + "media/" + id.hex();
}

namespace {

constexpr std::size_t kLongestSlug = 48;

bool plain(char c) {
  return (c >= 'a' && c <= 'z') || (c >= '0' && c <= '9');
}

/// Small ASCII letters and digits with single hyphens for blanks; `lossless` when the words can be had back.
std::string slug(std::string_view text, bool& lossless) {
  std::string out;
  lossless = text.size() <= kLongestSlug;
  for (char c : text.substr(0, kLongestSlug)) {
    if (plain(c)) {
      out += c;
      continue;
    }
    if (c != ' ' || out.empty() || out.back() == '-') lossless = false;
    if (c >= 'A' && c <= 'Z') {
      out += static_cast<char>(c - 'A' + 'a');
    } else if (!out.empty() && out.back() != '-') {
      out += '-';
    }
  }
  while (!out.empty() && out.back() == '-') {
    out.pop_back();
    lossless = false;
  }
  return out;
}

}  // namespace

std::string_view type_property(Kind kind) {
  switch (kind) {
    case Kind::place:
      return "place-type";
    case Kind::element:
      return "element-class";
    case Kind::source:
      return "source-type";
    case Kind::agent:
      return "agent-type";
    default:
      return {};
  }
}

std::string type_key(std::string_view list, std::string_view text) {
  bool lossless = true;
  std::string key = std::string(list) + "." + slug(text, lossless);
  if (!lossless) key += "_" + sha256(text).hex().substr(0, 12);
  return key;
}

}  // namespace lathbook
