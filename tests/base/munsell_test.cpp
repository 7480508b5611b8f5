#include "core/base/munsell.hpp"

#include <catch2/catch.hpp>

using namespace lathbook;

TEST_CASE("munsell: hue, value and chroma, with decimals and neutrals") {
  const auto yellow_red = read_munsell("10YR 7/4");
  REQUIRE(yellow_red.good());
  CHECK(yellow_red.colour == Munsell{20, 7, 4});
  CHECK(read_munsell("2.5Y8.5/2").colour == Munsell{22.5, 8.5, 2});
  CHECK(read_munsell("10RP 5/6").colour == Munsell{0, 5, 6});
  CHECK(read_munsell("0R 5/6").colour == Munsell{0, 5, 6});
  CHECK(read_munsell("N 9.5/").colour == Munsell{0, 9.5, 0});
  CHECK(read_munsell("N9").colour == Munsell{0, 9, 0});
  // Without chroma there is no hue.
  CHECK(read_munsell("5R 5/0").colour == Munsell{0, 5, 0});
}

TEST_CASE("munsell: what is written reads the same") {
  for (const char* text :
       {"10YR 7/4", "2.5Y 8.5/2", "5BG 6/4", "N 8/", "N 9.5/", "10RP 5/6", "0.25G 5.4/8.65"})
    CHECK(read_munsell(text).colour.text() == text);
}

TEST_CASE("munsell: a fault has a place and a reason") {
  struct Row {
    const char* text;
    std::size_t at;
    const char* fault;
  };
  for (const Row& row :
       {Row{"", 1, "hue number"}, Row{"YR 7/4", 1, "hue number"}, Row{"10 YR 7/4", 3, "one of R YR"},
        Row{"11YR 7/4", 1, "at most 10"}, Row{"10YR 11/4", 6, "at most 10"}, Row{"10YR 7", 7, "stroke"},
        Row{"10YR 7/", 8, "chroma"}, Row{"10YR 7/4 ", 9, "goes on"}, Row{"10yr 7/4", 3, "one of R YR"},
        Row{"10YR 7/51", 8, "at most 50"}, Row{"N 8/2", 5, "goes on"}, Row{"N", 2, "value after N"},
        Row{"10YR 7./4", 7, "stroke"}, Row{"10YR 7,5/4", 7, "stroke"}}) {
    const auto reading = read_munsell(row.text);
    INFO(row.text << ": " << reading.fault);
    CHECK_FALSE(reading.good());
    CHECK(reading.at == row.at);
    CHECK_THAT(reading.fault, Catch::Contains(row.fault));
  }
}

TEST_CASE("munsell: hostile texts are refused at once") {
  CHECK_THAT(read_munsell(std::string(10'000'000, '1')).fault, Catch::Contains("too long"));
  CHECK_FALSE(read_munsell("10YR\xff 7/4").good());
  CHECK_FALSE(read_munsell(std::string("10YR 7/4\0", 9)).good());
  CHECK_FALSE(read_munsell("\xe2\x80\xae"
                           "10YR 7/4")
                  .good());
  CHECK_FALSE(read_munsell("10YR 7/99999999999999999999").good());
}
