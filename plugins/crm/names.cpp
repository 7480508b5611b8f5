// Makes the names.
#include "plugins/crm/names.hpp"

namespace lathbook::crm {

namespace {

constexpr std::size_t kLongestSlug = 48;

std::string with_part(std::string name, std::string_view part) {
  if (!part.empty()) {
    name += '-';
    name += part;
  }
  return name;
}

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

std::string record_name(const Uuid& id, std::string_view part) {
  return with_part("rec:" + id.text(), part);
}

std::string statement_name(const Digest& id, std::string_view part) {
  return with_part("st:" + id.hex(), part);
}

std::string property_name(std::string_view property) {
  return "prop:" + std::string(property);
}

std::string type_name(std::string_view list, std::string_view text) {
  bool lossless = true;
  std::string name = "type:" + std::string(list) + "." + slug(text, lossless);
  if (!lossless) name += "_" + sha256(text).hex().substr(0, 12);
  return name;
}

std::string passage_name(const Uuid& source, std::string_view locator, std::string_view quote) {
  std::string key(locator);
  key += '\x1f';
  key += quote;
  return "passage:" + source.text() + "-" + sha256(key).hex().substr(0, 16);
}

std::string media_name(std::string_view sha256_hex) {
  return "media:" + std::string(sha256_hex);
}

}  // namespace lathbook::crm
