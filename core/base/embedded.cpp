#include "core/base/embedded.hpp"

#include <string>

#include "core/base/error.hpp"

namespace lathbook {

namespace embedded {
std::string_view dating_aids();
std::string_view trade_words();
std::string_view label_words();
std::string_view room_names();
}  // namespace embedded

std::string_view embedded_table(std::string_view name) {
  if (name == "trade-words") return embedded::trade_words();
  if (name == "dating-aids") return embedded::dating_aids();
  if (name == "label-words") return embedded::label_words();
  if (name == "room-names") return embedded::room_names();
  fail(ErrorKind::not_found, "no table " + std::string(name) + " is built into this program");
}

}  // namespace lathbook
