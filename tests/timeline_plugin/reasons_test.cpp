// Reasons taken apart: each link left out, independent confirmation, the sentence from the dated end.
#include <algorithm>
#include <catch2/catch.hpp>

#include "tests/timeline_plugin/house.hpp"

using namespace lathbook;
using test::days;
using test::House;

namespace {

const Bound& earliest(const Timeline& timeline, const std::string& code) {
  return test::item(timeline, code).begins.earliest;
}

}  // namespace

TEST_CASE("without links asked for, no bound is tried again") {
  House house({{"E1", "installed", "1900"}});
  const Bound bound = earliest(house.timeline(Level::possible, "E1"), "E1");
  CHECK(bound.lacking.empty());
  CHECK_FALSE(bound.otherwise.has_value());
  CHECK(bound.words.empty());
}

TEST_CASE("each link of a reason tells what the date would be without it") {
  House house;
  const Digest mark = house.say({"N1", "made-not-before", "1886", "basis=Rd No 52300"});
  const Digest judged = house.say({"N1", "original-to", "E1", "grounds=one bed", Confidence::probable});
  const Digest laps = house.say({"E2", "covers", "E1", "contact=laps over"});
  house.say({"E1", "not-yet-on", "1870"});
  house.links = true;
  const Timeline timeline = house.timeline(Level::possible, "E2");
  const Bound& bound = earliest(timeline, "E2");
  REQUIRE(days(timeline, "E2", 'B') == "1886-01-01..-");
  REQUIRE(bound.lacking.size() == 3);
  CHECK(bound.lacking[0].statement == mark);
  CHECK(bound.lacking[1].statement == judged);
  CHECK(bound.lacking[2].statement == laps);
  const Day before = days_from_civil(1870, 1, 1);
  CHECK(bound.lacking[0] == Lacking{mark, true, before});
  CHECK(bound.lacking[1] == Lacking{judged, true, before});
  CHECK(bound.lacking[2] == Lacking{laps, false, 0});
  REQUIRE(bound.otherwise.has_value());
  CHECK_FALSE(bound.otherwise->known);
  CHECK(bound.words ==
        "E2 was not in place before 1886 (probable): N1 was made not before 1886 (Rd No 52300) [1]; it is "
        "original to E1 (grounds: one bed) [2]; E2 is laid over E1 (contact read: laps over) [3].");
}

TEST_CASE("another chain to the same day confirms it, and shares no statement") {
  House house;
  house.say({"E1", "installed", "1900", {}});
  house.say({"E2", "covers", "E1", "contact=laps over"});
  house.say({"E3", "covers", "E2", "contact=laps over"});
  house.say({"E4", "not-yet-on", "1900"});
  house.say({"E3", "butts", "E4", "contact=stops against"});
  house.links = true;
  const Bound bound = earliest(house.timeline(Level::possible, "E3"), "E3");
  REQUIRE(bound.otherwise.has_value());
  CHECK(bound.otherwise->known);
  CHECK(bound.otherwise->day == bound.day);
  for (const ReasonStep& step : bound.otherwise->reason)
    CHECK(std::none_of(bound.reason.begin(), bound.reason.end(),
                       [&](const ReasonStep& own) { return own.statement == step.statement; }));
  for (const Lacking& lacking : bound.lacking) CHECK((lacking.known && lacking.day == bound.day));
}

TEST_CASE("the next best is told where nothing confirms a date") {
  House house;
  house.say({"E1", "standing-by", "1914-07"});
  house.say({"E1", "standing-by", "1926-03-22", {}, Confidence::probable});
  house.links = true;
  const Timeline timeline = house.timeline(Level::possible, "E1");
  const Bound& bound = test::item(timeline, "E1").begins.latest;
  REQUIRE(bound.otherwise.has_value());
  CHECK(bound.otherwise->day == days_from_civil(1926, 3, 22));
  CHECK(bound.otherwise->level == Level::probable);
  CHECK(bound.words == "E1 was in place by 31 July 1914: it stood by July 1914 [1].");
}

TEST_CASE("what a clash set aside comes back when its opponent is left out") {
  House house;
  const Digest bill = house.say({"E1", "standing-by", "1905"});
  house.say({"E1", "not-yet-on", "1910", {}, Confidence::probable});
  house.links = true;
  const Bound latest = test::item(house.timeline(Level::possible, "E1"), "E1").begins.latest;
  REQUIRE(latest.lacking.size() == 1);
  CHECK(latest.lacking[0] == Lacking{bill, false, 0});
}

TEST_CASE("works, phases and dated sources can be asked why, too") {
  House house;
  house.say({"C1", "works-began", "1924-06-12"});
  house.say({"H1", "phase-of", "R1"});
  house.say({"H1", "phase-number", "1"});
  house.say({"H1", "opened-by", "C1"});
  house.say({"P1", "source-date", "1898/1904"});
  house.say({"E1", "as-built-in", "P1"});
  house.say({"E1", "not-yet-on", "1901"});
  house.links = true;
  const Timeline works = house.timeline(Level::possible, "C1");
  REQUIRE(works.works.size() == 1);
  CHECK(days(works.works[0].begins) == "1924-06-12..1924-06-12");
  CHECK(works.works[0].begins.earliest.words ==
        "C1 did not begin before 12 June 1924: it began on 12 June 1924 [1].");
  const Timeline phase = house.timeline(Level::possible, "H1");
  REQUIRE(phase.phases.size() == 1);
  CHECK(phase.phases[0].opens.earliest.words ==
        "H1 did not open before 12 June 1924: C1 began on 12 June 1924 [1]; H1 is opened by it [2].");
  const Timeline source = house.timeline(Level::possible, "P1");
  REQUIRE(source.sources.size() == 1);
  CHECK(days(source.sources[0].when) == "1901-01-01..1904-12-31");
  CHECK(source.sources[0].when.earliest.lacking.size() == 2);
  house.id("X1");
  CHECK_THROWS_AS(house.timeline(Level::possible, "X1"), Error);
}

TEST_CASE("dates stand in sentences with their own small words") {
  House house;
  house.say({"E1", "installed", "1905~"});
  house.say({"E2", "installed", "1924-06-12/1924-11-05"});
  house.say({"E3", "made", "1890-05"});
  house.say({"E4", "seen-on", "2024-03-16"});
  house.say({"E5", "seen-on", "188X"});
  const Timeline timeline = house.timeline();
  const auto words = [&](const std::string& code) {
    const auto& item = test::item(timeline, code);
    return (code == "E3" ? item.made : item.begins).latest.reason.front().words;
  };
  CHECK(words("E1") ==
        "E1 was installed about 1905, taken as 1900 to 1910 ('about' widens a year by 5 years, our own "
        "figure)");
  CHECK(words("E2") == "E2 was installed between 12 June 1924 and 5 November 1924");
  CHECK(words("E3") == "E3 was made in May 1890");
  CHECK(words("E4") == "E4 was seen in place on 16 March 2024");
  CHECK(words("E5") == "E5 was seen in place in the 1880s");
}
