// Either-ors: what a view does not show, one of several places, sources that fall as a whole.
// What the rules mean is this program's own; common practice, no source.
#include <algorithm>
#include <catch2/catch.hpp>

#include "tests/timeline_plugin/house.hpp"

using namespace lathbook;
using test::days;
using test::House;

namespace {

const std::string kOnlyKnown =
    "spot=the back; could-be-hidden=only by what is recorded in front of it; ground=the view is close";

const TimelineEither& only_either(const Timeline& timeline, const std::string& code, int placement = 1) {
  const TimelineItem& row = test::item(timeline, code, placement);
  REQUIRE(row.either.size() == 1);
  return row.either.front();
}

// 'certain', 'possible' or 'no' for each case, in order.
std::string verdicts(const TimelineEither& either) {
  std::string text;
  for (const TimelineCase& one : either.cases)
    text += one.holds == Membership::certain ? "certain " : one.holds == Membership::no ? "no " : "possible ";
  return text;
}

}  // namespace

TEST_CASE("a view in which something unknown may hide a thing does not prove that it is absent") {
  House house;
  house.say({"P1", "source-date", "1911"});
  house.say({"E1", "standing-by", "1900"});
  house.say({"E1", "absent-from", "P1", "spot=the back; could-be-hidden=yes; ground=a chair stands there"});
  house.say({"E1", "absent-from", "P1", "spot=the back"});
  house.say({"E2", "absent-from", "P1", "spot=the back; could-be-hidden=no"});
  const Timeline timeline = house.timeline();
  CHECK(days(timeline, "E1", 'E') == "-..-");
  CHECK(test::item(timeline, "E1").either.empty());
  CHECK(test::item(timeline, "E1").remarks.size() == 2);
  CHECK(test::text(test::item(timeline, "E2").remarks).find("until the ground is told") != std::string::npos);
}

TEST_CASE("a thing that is not seen and could not be hidden was gone, or not there yet") {
  House house;
  house.say({"P1", "source-date", "1911"});
  house.say({"E1", "absent-from", "P1", "spot=the back; could-be-hidden=no; ground=it is bare"});
  Timeline timeline = house.timeline();
  CHECK(verdicts(only_either(timeline, "E1")) == "possible possible ");
  CHECK(only_either(timeline, "E1").all_tried);
  CHECK(only_either(timeline, "E1")
            .words.find("Two cases are open: it was gone by then; it was not there yet.") !=
        std::string::npos);
  house.say({"E1", "standing-by", "1900"});
  timeline = house.timeline();
  CHECK(days(timeline, "E1", 'E') == "-..1911-12-31");
  const TimelineEither& either = only_either(timeline, "E1");
  CHECK(verdicts(either) == "certain no ");
  REQUIRE(either.cases[1].against.size() == 2);
  CHECK(either.words.find("Of two cases one is left: it was gone by then. Ruled out: it was not there yet, "
                          "since ") != std::string::npos);
}

TEST_CASE("what is recorded in front of a thing may have hidden it as long as it may have stood there") {
  House house;
  house.say({"P1", "source-date", "1911"});
  house.say({"E1", "standing-by", "1900"});
  house.say({"E1", "absent-from", "P1", kOnlyKnown});
  // Nothing is recorded in front: it had gone.
  CHECK(days(house.timeline(), "E1", 'E') == "-..1911-12-31");
  // A press in front, whose years nobody knows: it may have hidden it.
  const Digest press = house.say({"E2", "in-front-of", "E1"});
  Timeline timeline = house.timeline();
  CHECK(days(timeline, "E1", 'E') == "-..-");
  CHECK(verdicts(only_either(timeline, "E1")) == "possible no possible ");
  CHECK(only_either(timeline, "E1").cases[2].record == house.id("E2"));
  // What is taken away by leaving a statement out comes back.
  CHECK(days(house.timeline(Level::possible, {}, {press}), "E1", 'E') == "-..1911-12-31");

  SECTION("the press came later, so it did not") {
    house.say({"E2", "installed", "1953"});
    timeline = house.timeline();
    CHECK(days(timeline, "E1", 'E') == "-..1911-12-31");
    CHECK(verdicts(only_either(timeline, "E1")) == "certain no no ");
    CHECK(test::text(test::item(timeline, "E1").ends.latest.reason).find("in 1953") != std::string::npos);
  }
  SECTION("the thing is there today, so the press must have stood before it") {
    house.say({"E1", "seen-on", "2024-05-01"});
    timeline = house.timeline();
    CHECK(days(timeline, "E2", 'B') == "-..1911-12-31");
    CHECK(days(timeline, "E2", 'E') == "1911-01-01..-");
    CHECK(verdicts(only_either(timeline, "E1")) == "no no certain ");
    const std::string reason = test::text(test::item(timeline, "E2").begins.latest.reason);
    CHECK(reason.find("stands in front of") != std::string::npos);
    CHECK(reason.find("is not to be seen in") != std::string::npos);
  }
  SECTION("the thing is there today and the press came later: a contradiction, told with the press") {
    house.say({"E1", "seen-on", "2024-05-01"});
    house.say({"E2", "installed", "1953"});
    timeline = house.timeline();
    REQUIRE(timeline.conflicts.size() == 1);
    CHECK(timeline.conflicts.front().statements.size() >= 4);
  }
}

TEST_CASE("a coat or a cover over a thing may have hidden it, too") {
  House house;
  house.say({"P1", "source-date", "1911"});
  house.say({"F1", "finish-on", "E9"});
  house.say({"F2", "finish-on", "E9"});
  house.say({"F1", "layer", "1"});
  house.say({"F2", "layer", "2"});
  house.say({"F1", "standing-by", "1900"});
  house.say({"F1", "absent-from", "P1", kOnlyKnown});
  Timeline timeline = house.timeline();
  CHECK(days(timeline, "F1", 'E') == "-..-");
  house.say({"F2", "installed", "1930"});
  timeline = house.timeline();
  // The coat over it came in 1930 and lies on it, so it was there in 1930: nothing explains the view.
  CHECK(timeline.conflicts.size() == 1);
  house.say({"E1", "absent-from", "P1", kOnlyKnown});
  house.say({"E1", "standing-by", "1900"});
  house.say({"E2", "covers", "E1", "contact=not read"});
  // That the contact was not read orders nothing, and it may have lain over the thing all the same.
  CHECK(days(house.timeline(), "E1", 'E') == "-..-");
}

TEST_CASE("an unsure thing in front makes the conclusion no surer than itself") {
  House house;
  house.say({"P1", "source-date", "1911"});
  house.say({"E1", "standing-by", "1900"});
  house.say({"E1", "seen-on", "2024-05-01"});
  house.say({"E1", "absent-from", "P1", kOnlyKnown});
  house.say({"E2", "in-front-of", "E1", "", Confidence::possible});
  CHECK(house.timeline(Level::certain).conflicts.empty());
  CHECK(days(house.timeline(Level::certain), "E2", 'E') == "-..-");
  CHECK(days(house.timeline(Level::possible), "E2", 'E') == "1911-01-01..-");
}

TEST_CASE("one of several rooms: what holds in all, in some, in none") {
  House house;
  house.say({"E1", "perhaps-in", "R1", "put-in=1888"});
  house.say({"E1", "perhaps-in", "R2", "put-in=1924"});
  house.say({"E1", "perhaps-in", "R3", "put-in=1953"});
  Timeline timeline = house.timeline();
  CHECK(days(timeline, "E1", 'B') == "1888-01-01..1953-12-31");
  CHECK(test::item(timeline, "E1").begins.parts ==
        std::vector<DayRange>{{days_from_civil(1888, 1, 1), days_from_civil(1888, 12, 31)},
                              {days_from_civil(1924, 1, 1), days_from_civil(1924, 12, 31)},
                              {days_from_civil(1953, 1, 1), days_from_civil(1953, 12, 31)}});
  CHECK(verdicts(only_either(timeline, "E1")) == "possible possible possible ");
  // Each of the rooms has the thing, perhaps.
  for (const std::string room : {"R1", "R2", "R3"})
    CHECK(house.timeline(Level::possible, room).items.size() == 1);

  house.say({"E1", "standing-by", "1940"});
  timeline = house.timeline();
  CHECK(days(timeline, "E1", 'B') == "1888-01-01..1924-12-31");
  CHECK(verdicts(only_either(timeline, "E1")) == "possible possible no ");
  CHECK(house.timeline(Level::possible, "R2").items.size() == 1);
  CHECK(house.timeline(Level::possible, "R3").items.empty());

  // What follows in every room left holds: it was there before a coat of 1924 that needs it.
  house.say({"F1", "continues-behind", "E1"});
  house.say({"F1", "installed", "1910"});
  timeline = house.timeline();
  CHECK(days(timeline, "E1", 'B') == "1924-01-01..1924-12-31");
  CHECK(verdicts(only_either(timeline, "E1")) == "no certain no ");
  CHECK(test::item(timeline, "E1").begins.parts.empty());
}

TEST_CASE("rooms that ask nothing of the dates leave both cases open, and nothing to try") {
  House house;
  house.say({"E1", "perhaps-in", "R1"});
  house.say({"E1", "perhaps-in", "R2"});
  const Timeline timeline = house.timeline();
  CHECK(verdicts(only_either(timeline, "E1")) == "possible possible ");
  CHECK(only_either(timeline, "E1").words.find("too many") == std::string::npos);
}

TEST_CASE("a room that was not there yet is ruled out, and a less sure word of it is not used") {
  House house;
  house.say({"R1", "place-began", "1924"});
  house.say({"E1", "perhaps-in", "R1"});
  house.say({"E1", "perhaps-in", "R2", "put-in=1888/1890"});
  house.say({"E1", "standing-by", "1911"});
  Timeline timeline = house.timeline();
  CHECK(days(timeline, "E1", 'B') == "1888-01-01..1890-12-31");
  CHECK(verdicts(only_either(timeline, "E1")) == "no certain ");
  House unsure;
  unsure.say({"R1", "place-began", "1924", "", Confidence::possible});
  unsure.say({"E1", "perhaps-in", "R1"});
  unsure.say({"E1", "perhaps-in", "R2", "put-in=1888/1890"});
  unsure.say({"E1", "standing-by", "1911"});
  CHECK(days(unsure.timeline(), "E1", 'B') == "-..1911-12-31");
}

TEST_CASE("questions about one thing are kept apart by the name of their set") {
  House house;
  house.say({"E1", "perhaps-in", "R1", "put-in=1888; set=the label"});
  house.say({"E1", "perhaps-in", "R2", "put-in=1924; set=the label"});
  house.say({"E1", "perhaps-in", "R2", "put-in=1924; set=the list"});
  house.say({"E1", "perhaps-in", "R3", "put-in=1953; set=the list"});
  const Timeline timeline = house.timeline();
  CHECK(days(timeline, "E1", 'B') == "1924-01-01..1924-12-31");
  CHECK(test::item(timeline, "E1").either.size() == 2);
}

TEST_CASE("what rests on a source that stands or falls as a whole is given up together") {
  const auto fill = [](House& house) {
    for (const std::string code : {"E1", "E2", "E3"})
      house.say({code, "standing-by", "1900", "", Confidence::certain, EvidenceClass::oral, "P1"});
    house.say({"E1", "installed", "1920"});
    house.say({"E2", "installed", "1930"});
  };
  House apart;
  fill(apart);
  const Timeline undecided = apart.timeline();
  REQUIRE(undecided.conflicts.size() == 2);
  CHECK(undecided.conflicts.front().way_taken == 0);
  CHECK(days(undecided, "E3", 'B') == "-..1900-12-31");

  House whole;
  fill(whole);
  whole.say({"P1", "falls-together", "yes", "reason=the photograph may be of the house next door"});
  const Timeline timeline = whole.timeline();
  REQUIRE(timeline.conflicts.size() == 2);
  CHECK(days(timeline, "E1", 'B') == "1920-01-01..1920-12-31");
  CHECK(days(timeline, "E3", 'B') == "-..-");
  for (const TimelineConflict& conflict : timeline.conflicts) {
    CHECK(conflict.way_taken == 1);
    REQUIRE(conflict.ways_out.size() == 1);
    REQUIRE(conflict.ways_out.front().size() == 1);
    CHECK(conflict.ways_out.front().front().words ==
          "all three statements that rest on P1 alone, which stands or falls as a whole");
    CHECK(conflict.fallen_with.size() == 2);
    CHECK(conflict.words.find("They fall together: all three statements that rest on P1 alone") !=
          std::string::npos);
  }
}
