// Makes the names.
#include "plugins/crm/names.hpp"

#include "core/view/addresses.hpp"

namespace lathbook::crm {

namespace {

std::string with_part(std::string name, std::string_view part) {
  if (!part.empty()) {
    name += '-';
    name += part;
  }
  return name;
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
  return "type:" + type_key(list, text);
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
