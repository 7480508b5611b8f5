// Words for sentences. What they ought to be is this program's own; the forms of dates are EDTF's (Library of
// Congress, Extended Date/Time Format specification, 2019, levels 0 and 1).
#include <catch2/catch.hpp>

#include "core/view/plain_words.hpp"

using namespace lathbook;

TEST_CASE("EDTF in words") {
  CHECK(date_in_words("1911~") == "about 1911");
  CHECK(date_in_words("1911?") == "perhaps 1911");
  CHECK(date_in_words("1911%") == "perhaps about 1911");
  CHECK(date_in_words("1888-05") == "May 1888");
  CHECK(date_in_words("1924-06-12") == "12 June 1924");
  CHECK(date_in_words("1888/1890") == "1888 to 1890");
  CHECK(date_in_words("1926-01/1926-03") == "January 1926 to March 1926");
  CHECK(date_in_words("1891~/..") == "about 1891 or later");
  CHECK(date_in_words("../1926") == "1926 or earlier");
  CHECK(date_in_words("188X") == "the 1880s");
  CHECK(date_in_words("18XX") == "1800 to 1899");
  CHECK(date_in_words("about 1890") == "about 1890");
  CHECK(date_in_words("").empty());
}

TEST_CASE("spots without the part of a picture that a viewer needs") {
  CHECK(spot_in_words("top course; xywh=262,158,20,18") == "top course");
  CHECK(spot_in_words("xywh=percent:1,2,3,4") == "a part of the picture");
  CHECK(spot_in_words("xywh=1,2,3,4; left edge; foot of the wall") == "left edge; foot of the wall");
  CHECK(spot_in_words("p. 12") == "p. 12");
  CHECK(spot_in_words("").empty());
}

TEST_CASE("sentences end once") {
  CHECK(with_full_stop("so it was") == "so it was.");
  CHECK(with_full_stop("so it was.") == "so it was.");
  CHECK(with_full_stop("she said “so it was.”") == "she said “so it was.”");
  CHECK(with_full_stop("she said “so”") == "she said “so”.");
}

TEST_CASE("one or several by the name") {
  CHECK(is_plural("Four screw holes in the niche back"));
  CHECK(is_plural("Bell wires behind the slip"));
  CHECK_FALSE(is_plural("Slip of the niche"));
  CHECK_FALSE(is_plural("Stair glass"));
}
