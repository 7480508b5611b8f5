// How dates are widened for constraints, and the words for spans and settings. The figures are our own.
#include <catch2/catch.hpp>

#include "plugins/timeline/dates.hpp"
#include "plugins/timeline/reasons_words.hpp"

using namespace lathbook;
using namespace lathbook::timeline;

namespace {

DateRange range(const std::string& edtf) {
  Content content;
  content.value = edtf;
  return read_range(content, timeline::Settings()).value();
}

std::string days(const DateRange& range) {
  const auto day = [](const std::optional<Day>& one) { return one ? iso_day(*one) : std::string("-"); };
  return day(range.first) + ".." + day(range.last);
}

}  // namespace

TEST_CASE("only approximate ends are widened, by how finely they are told") {
  CHECK(days(range("1905")) == "1905-01-01..1905-12-31");
  CHECK(days(range("1905~")) == "1900-01-01..1910-12-31");
  CHECK(days(range("1905%")) == "1900-01-01..1910-12-31");
  CHECK(days(range("190X~")) == "1890-01-01..1919-12-31");
  CHECK(days(range("1905-06~")) == "1904-06-01..1906-06-30");
  CHECK(days(range("1924-06-12~")) == "1923-06-12..1925-06-12");
  CHECK(days(range("1924-02-29~")) == "1923-02-28..1925-02-28");
  CHECK(days(range("1905~/1910")) == "1900-01-01..1910-12-31");
  CHECK(days(range("1905/1910~")) == "1905-01-01..1915-12-31");
  CHECK(days(range("1905?")) == "1905-01-01..1905-12-31");
}

TEST_CASE("a question mark alone makes a date unsure, open and unknown ends give nothing") {
  CHECK(range("1905?").unsure);
  CHECK_FALSE(range("1905%").unsure);
  CHECK_FALSE(range("1905~").unsure);
  CHECK(days(range("../1910")) == "-..1910-12-31");
  CHECK(days(range("/1910")) == "-..1910-12-31");
  CHECK(days(range("1905/")) == "1905-01-01..-");
}

TEST_CASE("dates in words") {
  CHECK(range("1911~").words ==
        "about 1911, taken as 1906 to 1916 ('about' widens a year by 5 years, our own figure)");
  CHECK(range("1924-06").words == "June 1924");
  CHECK(range("1924-06-12").words == "12 June 1924");
  CHECK(range("1888/1890").words == "1888 to 1890");
  CHECK(range("1905?").words == "perhaps 1905");
}

TEST_CASE("how long a clash is") {
  CHECK(span_words(0) == "less than a day");
  CHECK(span_words(1) == "one day");
  CHECK(span_words(200) == "about seven months");
  CHECK(span_words(2599) == "about seven years");
  CHECK(span_words(3603) == "just short of ten years");
  CHECK(span_words(3653) == "about ten years");
  CHECK(span_words(1278) == "more than three years");
}
