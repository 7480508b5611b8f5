#include "core/base/embedded.hpp"

#include <string>

#include "core/base/error.hpp"

namespace lathbook {

namespace embedded {
std::string_view dating_aids();
std::string_view trade_words();
std::string_view label_words();
std::string_view room_names();
std::string_view marks_diamonds();
std::string_view marks_rd_numbers();
std::string_view marks_us_patents();
std::string_view marks_origin();
std::string_view cautions();
std::string_view choice_words();
std::string_view lying_flat();
std::string_view munsell_renotation();
std::string_view report_en();
}  // namespace embedded

std::string_view embedded_table(std::string_view name) {
  if (name == "trade-words") return embedded::trade_words();
  if (name == "dating-aids") return embedded::dating_aids();
  if (name == "label-words") return embedded::label_words();
  if (name == "room-names") return embedded::room_names();
  if (name == "marks-diamonds") return embedded::marks_diamonds();
  if (name == "marks-rd-numbers") return embedded::marks_rd_numbers();
  if (name == "marks-us-patents") return embedded::marks_us_patents();
  if (name == "report-en") return embedded::report_en();
  if (name == "marks-origin") return embedded::marks_origin();
  if (name == "choice-words") return embedded::choice_words();
  if (name == "lying-flat") return embedded::lying_flat();
  if (name == "cautions") return embedded::cautions();
  if (name == "munsell-renotation") return embedded::munsell_renotation();
  fail(ErrorKind::not_found, "no table " + std::string(name) + " is built into this program");
}

}  // namespace lathbook
