// Dates as a citation can carry them, and words as BibTeX can.
#include <catch2/catch.hpp>

#include "plugins/citations/item.hpp"
#include "plugins/citations/writers.hpp"

using namespace lathbook;
using namespace lathbook::citations;

namespace {

std::string parts(const std::string& edtf) {
  std::string text;
  const auto date = cited_date(edtf, "");
  for (const auto& part : date.parts) {
    text += (text.empty() ? "" : "/") + std::to_string(part.year);
    if (part.month != 0) text += "-" + std::to_string(part.month);
    if (part.day != 0) text += "-" + std::to_string(part.day);
    if (part.season != 0) text += "s" + std::to_string(part.season);
  }
  return text + (date.circa ? "~" : "");
}

}  // namespace

// Source of the date model: Citation Style Language 1.0.2, schema csl-data.json, date-variable.
TEST_CASE("EDTF dates become date-parts, spans, seasons, or words alone") {
  CHECK(parts("1888") == "1888");
  CHECK(parts("1888-05") == "1888-5");
  CHECK(parts("1924-06-12") == "1924-6-12");
  CHECK(parts("1905~") == "1905~");
  CHECK(parts("1905?") == "1905~");
  CHECK(parts("1924-06-12/1926-03") == "1924-6-12/1926-3");
  CHECK(parts("188X") == "1880/1889");
  CHECK(parts("1911-21") == "1911s1");
  CHECK(parts("1911-24") == "1911s4");
  CHECK(parts("[1888,1890]") == "1888/1890");
  CHECK(parts("-0043") == "-43");
  // A year alone would say too much of a date that is open.
  for (const char* open : {"../1914", "1890/..", "1890/", "", "about 1890"}) CHECK(parts(open) == "");
}

TEST_CASE("words in BibTeX leave no brace alone and no command to run") {
  CHECK(bibtex_words("Merrow & Son, 50% of $3 #1 a_b") == "Merrow \\& Son, 50\\% of \\$3 \\#1 a\\_b");
  CHECK(bibtex_words("{x} \\input ~^") ==
        "\\textbraceleft{}x\\textbraceright{} \\textbackslash{}input \\textasciitilde{}\\textasciicircum{}");
  CHECK(bibtex_words("two\nlines\tand") == "two lines and");
}
