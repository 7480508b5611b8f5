// Tests of how dates and names are put into words; the rules are those of docs/sheet.md.
#include <catch2/catch.hpp>

#include "core/base/calendar.hpp"
#include "core/view/plain_words.hpp"
#include "plugins/sheet/phrases.hpp"

using namespace lathbook;
using namespace lathbook::sheet;

namespace {

Bound on(std::int64_t year, int month, int day) {
  Bound bound;
  bound.day = days_from_civil(year, month, day);
  bound.known = true;
  return bound;
}

}  // namespace

TEST_CASE("bounds of a date in words") {
  CHECK(when({on(1924, 6, 12), on(1926, 12, 31)}) == "between 12 June 1924 and 1926");
  CHECK(when({on(1888, 1, 1), on(1890, 12, 31)}) == "between 1888 and 1890");
  CHECK(when({on(1926, 1, 1), on(1926, 3, 22)}) == "between 1 January 1926 and 22 March 1926");
  CHECK(when({on(1926, 3, 1), on(1926, 6, 30)}) == "between March 1926 and June 1926");
  CHECK(when({on(1888, 1, 1), on(1888, 12, 31)}) == "in 1888");
  CHECK(when({on(1924, 2, 1), on(1924, 2, 29)}) == "in February 1924");
  CHECK(when({on(1924, 6, 12), on(1924, 6, 12)}) == "on 12 June 1924");
  CHECK(when({{}, on(1926, 12, 31)}) == "by 1926");
  CHECK(when({{}, on(1926, 3, 22)}) == "by 22 March 1926");
  CHECK(when({on(1888, 1, 1), {}}) == "not before 1888");
  CHECK(when({on(1888, 12, 31), {}}) == "not before 31 December 1888");
  CHECK(when({{}, {}}) == "on a day that nothing fixes");
  CHECK(when({on(1906, 1, 1), on(1916, 12, 31)}, "about 1911") == "about 1911 (between 1906 and 1916)");
}

TEST_CASE("a date with gaps is told stretch by stretch") {
  Span span{on(1888, 1, 1), on(1926, 12, 31)};
  span.parts = {{on(1888, 1, 1).day, on(1888, 12, 31).day}, {on(1924, 6, 12).day, on(1926, 12, 31).day}};
  CHECK(when(span) == "in 1888, or between 12 June 1924 and 1926");
}

TEST_CASE("what a reader must know of a date") {
  Span span{on(1888, 1, 1), on(1890, 12, 31)};
  CHECK(caveat(span).empty());
  span.latest.level = Level::possible;
  span.earliest.level = Level::probable;
  CHECK(caveat(span) == " (possible)");
  span.earliest.perhaps_wide = true;
  CHECK(caveat(span) == " (possible; may be wider than it need be)");
  span.latest.known = false;
  CHECK(caveat(span) == " (probable; may be wider than it need be)");
}

TEST_CASE("lengths of a clash") {
  CHECK(duration_words(0) == "less than a day");
  CHECK(duration_words(1) == "1 day");
  CHECK(duration_words(40) == "about 1 month (40 days)");
  CHECK(duration_words(3653) == "about 10 years (3,653 days)");
  CHECK(duration_words(1095) == "about 3 years (1,095 days)");
  CHECK(duration_words(16) == "16 days");
}

TEST_CASE("names inside a sentence") {
  CHECK(inside("Ivory tile") == "ivory tile");
  CHECK(inside("Harcastle's casing") == "Harcastle's casing");
  CHECK(inside("Dining Room dado") == "Dining Room dado");
  CHECK(inside("MERROW board") == "MERROW board");
  CHECK(inside("W. window") == "W. window");
  CHECK(is_plural("Screws of the back-plate"));
  CHECK(is_plural("Window casings"));
  CHECK_FALSE(is_plural("Board across two rafters"));
  CHECK_FALSE(is_plural("Pane of glass"));
  CHECK_FALSE(is_plural("Plate glass"));
  CHECK(came_in("tile field", "Ivory tile") == "was laid");
  CHECK(came_in("wall", "Cellar walls") == "were built");
  CHECK(came_in("", "Shelf") == "was put in");
}
