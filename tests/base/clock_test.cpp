// Moments against RFC 3339, and the clock that can be set from outside.
#include "core/base/clock.hpp"

#include <catch2/catch.hpp>
#include <cstdlib>

#include "core/base/error.hpp"

using namespace lathbook;

namespace {

std::string again(const std::string& text) {
  const auto moment = Moment::parse(text);
  return moment ? moment->text() : "refused";
}

struct SetNow {
  explicit SetNow(const char* value) { ::setenv("LATHBOOK_NOW", value, 1); }
  ~SetNow() { ::unsetenv("LATHBOOK_NOW"); }
};

}  // namespace

// G. Klyne, C. Newman: RFC 3339, 2002, section 5.8: the second example names the same instant in two ways.
TEST_CASE("one instant in two zones") {
  const auto pacific = Moment::parse("1996-12-19T16:39:57-08:00");
  const auto utc = Moment::parse("1996-12-20T00:39:57Z");
  REQUIRE(pacific);
  REQUIRE(utc);
  CHECK(pacific->seconds == utc->seconds);
  CHECK(pacific->offset_minutes == -480);
  CHECK(utc->local_day() == pacific->local_day() + 1);
  // The value of 'date -u -d 1996-12-20T00:39:57Z +%s'.
  CHECK(utc->seconds == 851042397);
}

TEST_CASE("moments are printed as they are read") {
  for (const char* text : {"2026-05-03T10:15:00+02:00", "1970-01-01T00:00:00Z", "1969-12-31T23:59:59Z",
                           "1896-02-29T12:00:00-05:30", "2000-02-29T00:00:00+14:00", "0000-01-01T00:00:00Z",
                           "9999-12-31T23:59:59-23:59"}) {
    CHECK(again(text) == text);
  }
  CHECK(again("2026-05-03T08:15:00+00:00") == "2026-05-03T08:15:00Z");
}

TEST_CASE("what is no moment is refused") {
  for (const char* text : {"",
                           "2026-05-03",
                           "2026-05-03 10:15:00Z",
                           "2026-05-03T10:15:00",
                           "2026-05-03T10:15Z",
                           "2026-02-29T10:15:00Z",
                           "1900-02-29T00:00:00Z",
                           "2026-13-01T00:00:00Z",
                           "2026-00-01T00:00:00Z",
                           "2026-04-31T00:00:00Z",
                           "2026-05-03T24:00:00Z",
                           "2026-05-03T10:60:00Z",
                           "2026-05-03T10:15:60Z",
                           "2026-05-03T10:15:00.5Z",
                           "2026-05-03T10:15:00+24:00",
                           "2026-05-03T10:15:00+02:60",
                           "2026-05-03T10:15:00+0200",
                           "2026-05-03T10:15:00-00:00",
                           "2026-05-03T10:15:00Zx",
                           "+026-05-03T10:15:00Z",
                           "2026-05-03t10:15:00Z"}) {
    INFO(text);
    CHECK_FALSE(Moment::parse(text));
  }
}

TEST_CASE("a moment outside the years is not printed") {
  CHECK_THROWS_AS((Moment{std::int64_t{400000} * 366 * 86400, 0}.text()), Error);
  CHECK_THROWS_AS((Moment{INT64_MIN / 2, 0}.text()), Error);
  // One second before the year 0 is local, although the instant lies in it.
  CHECK_THROWS_AS((Moment{Moment::parse("0000-01-01T00:00:00Z")->seconds, -1}.text()), Error);
}

TEST_CASE("the system's clock can be held still") {
  {
    const SetNow set("2026-05-03T10:15:00+02:00");
    CHECK(SystemClock().now().text() == "2026-05-03T10:15:00+02:00");
  }
  {
    const SetNow set("yesterday");
    CHECK_THROWS_WITH(SystemClock().now(), Catch::Contains("LATHBOOK_NOW") && Catch::Contains("yesterday"));
  }
  CHECK(SystemClock().now() > *Moment::parse("2024-01-01T00:00:00Z"));
  FixedClock fixed({10, 60});
  fixed.advance(5);
  CHECK(fixed.now() == Moment{15, 60});
}
