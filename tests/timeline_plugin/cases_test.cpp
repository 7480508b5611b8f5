// The traps of the trade, each as a small house: what must be consistent, what must not, what proves nothing.
// Common practice, no source; the twelve contexts are a published example, named there.
#include <algorithm>
#include <catch2/catch.hpp>

#include "tests/timeline_plugin/house.hpp"

using namespace lathbook;
using test::days;
using test::House;

TEST_CASE("photographed, removed for the works, crated, reset, photographed again") {
  const bool on_one_day = GENERATE(true, false);
  House house;
  house.say({"P1", "source-date", on_one_day ? "2024-03-30" : "2022-05"});
  house.say({"P2", "source-date", on_one_day ? "2024-03-30" : "2024-04"});
  house.say({"E1", "uncovered-in", "P1", "feature=a chipped corner"});
  house.say({"E1", "uncovered-in", "P2", "feature=a chipped corner"});
  const Timeline timeline = house.timeline();
  CHECK(timeline.conflicts.empty());
  CHECK(days(timeline, "E1", 'B') == (on_one_day ? "-..2024-03-30" : "-..2022-05-31"));
  CHECK(test::item(timeline, "E1").last_seen.find("when last seen") != std::string::npos);
}

TEST_CASE("removed for good and put back is a second placement, on one day too") {
  House house;
  house.say({"E1", "removed-for-good", "2024-03-30", "placement=1"});
  house.say({"E1", "installed", "2024-03-30", "placement=2"});
  house.say({"E1", "seen-on", "2024-03-30", "placement=2"});
  const Timeline timeline = house.timeline();
  CHECK(timeline.conflicts.empty());
  CHECK(days(timeline, "E1/1", 'E') == "2024-03-30..2024-03-30");
  CHECK(days(timeline, "E1/2", 'B') == "2024-03-30..2024-03-30");
  CHECK(test::item(timeline, "E1", 2).placements == 2);
}

TEST_CASE("an observation of a thing set up twice bounds the first beginning and the last end only") {
  House house;
  house.say({"E1", "placements", "2"});
  house.say({"E1", "seen-on", "1911"});
  house.say({"E2", "covers", "E1", "contact=laps over"});
  house.say({"E2", "installed", "1930"});
  const Timeline timeline = house.timeline();
  CHECK(timeline.conflicts.empty());
  CHECK(days(timeline, "E1/1", 'B') == "-..1911-12-31");
  CHECK(days(timeline, "E1/1", 'E') == "-..-");
  CHECK(days(timeline, "E1/2", 'B') == "-..-");
  CHECK(days(timeline, "E1/2", 'E') == "1930-01-01..-");
}

TEST_CASE("a cut that takes away the whole of a wall is consistent") {
  House house;
  house.say({"E1", "installed", "1890"});
  house.say({"E2", "takes-away", "E1", "contact=stops against"});
  house.say({"E2", "of-campaign", "C1"});
  house.say({"C1", "works-began", "1924"});
  house.say({"C1", "works-ended", "1926"});
  const Timeline timeline = house.timeline();
  CHECK(timeline.conflicts.empty());
  CHECK(days(timeline, "E1", 'E') == "1924-01-01..1926-12-31");
}

TEST_CASE("two things that cover each other are a contradiction of two statements") {
  House house;
  const Digest first = house.say({"E1", "covers", "E2", "contact=laps over"});
  const Digest second = house.say({"E2", "covers", "E1", "contact=laps over"});
  const Timeline timeline = house.timeline();
  REQUIRE(timeline.conflicts.size() == 1);
  const TimelineConflict& conflict = timeline.conflicts.front();
  CHECK(conflict.level == Level::certain);
  REQUIRE(conflict.statements.size() == 2);
  CHECK(conflict.set_aside == std::vector<Digest>{first, second});
  CHECK(conflict.words.find("goes round in a circle") != std::string::npos);
  CHECK(house.timeline(Level::possible, {}, {first}).conflicts.empty());
}

TEST_CASE("two things that butt against each other stood up together") {
  House house;
  house.say({"E1", "butts", "E2", "contact=stops against"});
  house.say({"E2", "butts", "E1", "contact=stops against"});
  house.say({"E1", "installed", "1900"});
  const Timeline timeline = house.timeline();
  CHECK(timeline.conflicts.empty());
  CHECK(days(timeline, "E2", 'B') == "1900-01-01..1900-12-31");
}

TEST_CASE("one replacement tile does not date the field") {
  House house;
  house.say({"N1", "piece-of", "E1"});
  house.say({"N1", "made-not-before", "1908-04-07"});
  const Timeline timeline = house.timeline();
  CHECK(days(timeline, "N1", 'M') == "1908-04-07..-");
  CHECK(days(timeline, "E1", 'B') == "-..-");
}

TEST_CASE("a mark dates the field only through the judgement that its tile is original") {
  House house;
  house.say({"N1", "made-not-before", "1888", "basis=Rd No 101774"});
  CHECK(days(house.timeline(), "N1", 'M') == "1888-01-01..-");
  house.say({"E1", "standing-by", "1950"});
  CHECK(days(house.timeline(), "E1", 'B') == "-..1950-12-31");
  const Digest judgement =
      house.say({"N1", "original-to", "E1", "grounds=one bed unbroken behind it", Confidence::probable});
  const Timeline with = house.timeline();
  CHECK(days(with, "E1", 'B') == "1888-01-01..1950-12-31");
  const Bound& bound = test::item(with, "E1").begins.earliest;
  REQUIRE(bound.reason.size() == 2);
  CHECK(bound.reason[0].words.find("made not before") != std::string::npos);
  CHECK(bound.reason[0].words.find("Rd No 101774") != std::string::npos);
  CHECK(bound.reason[1].statement == judgement);
  CHECK(bound.level == Level::probable);
  CHECK(days(house.timeline(Level::certain), "E1", 'B') == "-..1950-12-31");
  house.withdraw(judgement);
  CHECK(days(house.timeline(), "E1", 'B') == "-..1950-12-31");
}

TEST_CASE("a permit, a design or a likeness is no sighting") {
  House house;
  house.say({"P1", "source-date", "1888-05"});
  house.say({"E1", "proposed-in", "P1"});
  house.say({"E1", "mentioned-in", "P1"});
  house.say({"E1", "like-seen-in", "P1"});
  house.say({"E1", "begun", "1888"});
  const Timeline timeline = house.timeline();
  CHECK(days(timeline, "E1", 'B') == "-..-");
  CHECK_FALSE(test::item(timeline, "E1").dated);
  CHECK(test::item(timeline, "E1").remarks.size() == 4);
}

TEST_CASE("taking away a part does not end the whole") {
  House house;
  house.say({"E1", "installed", "1890"});
  house.say({"E2", "cuts", "E1", "contact=stops against; share=two panels"});
  house.say({"E2", "installed", "1920"});
  house.say({"E1", "seen-on", "2024"});
  const Timeline timeline = house.timeline();
  CHECK(timeline.conflicts.empty());
  CHECK(days(timeline, "E1", 'E') == "2024-01-01..-");
}

TEST_CASE("wires slid in behind do not become older than the wall") {
  House house;
  house.say({"E1", "installed", "1890"});
  house.say({"E2", "touches", "E1", "how=slid in behind"});
  const Timeline timeline = house.timeline();
  CHECK(days(timeline, "E2", 'B') == "-..-");
  CHECK(days(timeline, "E1", 'B') == "1890-01-01..1890-12-31");
}

TEST_CASE("a coat on a casing that was set anew does not date the setting") {
  House house;
  house.say({"E1", "made", "1890"});
  house.say({"E1", "placements", "2"});
  house.say({"F1", "finish-on", "E1"});
  house.say({"F1", "installed", "1900"});
  const Timeline timeline = house.timeline();
  CHECK(timeline.conflicts.empty());
  CHECK(days(timeline, "E1/2", 'B') == "1890-01-01..-");
  CHECK(days(timeline, "E1", 'M') == "1890-01-01..1890-12-31");
}

// Common practice, no source: plaster is applied wet, in its place, and painted when it has dried.
TEST_CASE("a coat on plaster is no older than the plaster") {
  House house;
  house.say({"E1", "installed", "1924"});
  house.say({"F1", "finish-on", "E1"});
  CHECK(days(house.timeline(), "F1", 'B') == "-..-");
  house.say({"E1", "element-class", "plaster"});
  house.say({"E2", "element-class", "wall"});
  house.say({"F2", "finish-on", "E2"});
  house.say({"F2", "standing-by", "1900"});
  const Timeline timeline = house.timeline();
  CHECK(days(timeline, "F1", 'B') == "1924-01-01..-");
  CHECK(days(timeline, "E2", 'B') == "-..1900-12-31");
  const std::string reason = test::text(test::item(timeline, "F1").begins.earliest.reason);
  INFO(reason);
  CHECK(reason.find("plaster") != std::string::npos);
}

TEST_CASE("a photograph in which something may hide the spot proves no absence") {
  House house;
  house.say({"P1", "source-date", "1911"});
  house.say({"E1", "seen-on", "1930"});
  house.say(
      {"E1", "absent-from", "P1", "spot=foot of the wall; could-be-hidden=yes; ground=chairs stand there"});
  CHECK(days(house.timeline(), "E1", 'B') == "-..1930-12-31");
  CHECK(test::item(house.timeline(), "E1").remarks.size() == 1);
  house.say(
      {"E1", "absent-from", "P1", "spot=foot of the wall; could-be-hidden=no; ground=the floor is bare"});
  const Timeline timeline = house.timeline();
  CHECK(days(timeline, "E1", 'B') == "1911-01-01..1930-12-31");
  const std::string reason = test::text(test::item(timeline, "E1").begins.earliest.reason);
  CHECK(reason.find("is dated 1911") != std::string::npos);
  CHECK(reason.find("it cannot have been otherwise, since") != std::string::npos);
}

TEST_CASE("an absence that could be before or after stays open and says so") {
  House house;
  house.say({"P1", "source-date", "1911"});
  house.say({"E1", "absent-from", "P1", "spot=the wall; could-be-hidden=no; ground=bare"});
  house.say({"E1", "installed", "1900/1930"});
  const Timeline timeline = house.timeline();
  CHECK(timeline.conflicts.empty());
  CHECK(days(timeline, "E1", 'B') == "1900-01-01..1930-12-31");
}

TEST_CASE("what is learned of a photograph's date travels to all it shows") {
  House house;
  house.say({"P1", "source-date", "1898/1904"});
  house.say({"E1", "as-built-in", "P1"});
  CHECK(days(house.timeline(), "E1", 'E') == "1898-01-01..-");
  house.say({"E2", "as-built-in", "P1"});
  house.say({"E2", "not-yet-on", "1901"});
  // The photograph of algorithms tried on years: p in [1898, 1904] shows a lamp of 1901 at the earliest.
  const Timeline timeline = house.timeline();
  CHECK(days(timeline, "E1", 'E') == "1901-01-01..-");
  REQUIRE(timeline.sources.size() == 1);
  CHECK(days(timeline.sources[0].when) == "1901-01-01..1904-12-31");
}

TEST_CASE("levels nest, and a question mark costs one step") {
  House house;
  house.say({"E1", "standing-by", "1950"});
  house.say({"E1", "standing-by", "1930", {}, Confidence::probable});
  house.say({"E1", "standing-by", "1910", {}, Confidence::possible});
  house.say({"E1", "standing-by", "1900", {}, Confidence::conjecture});
  house.say({"E2", "standing-by", "1930?"});
  house.say({"E3", "standing-by", "1930?", {}, Confidence::possible});
  CHECK(days(house.timeline(Level::certain), "E1", 'B') == "-..1950-12-31");
  CHECK(days(house.timeline(Level::probable), "E1", 'B') == "-..1930-12-31");
  const Timeline timeline = house.timeline();
  CHECK(days(timeline, "E1", 'B') == "-..1910-12-31");
  CHECK(test::item(timeline, "E1").begins.latest.level == Level::possible);
  CHECK(test::item(timeline, "E2").begins.latest.level == Level::probable);
  CHECK(days(house.timeline(Level::certain), "E2", 'B') == "-..-");
  CHECK(days(timeline, "E3", 'B') == "-..-");
}

TEST_CASE("hearsay against a permit: what misses what, by how much, and which is left out") {
  House house;
  house.say({"C1", "works-began", "1924-06-12/1924-11-05", {}, Confidence::probable});
  const Digest permit = house.say({"E1", "of-campaign", "C1", {}, Confidence::probable});
  const Digest july = house.say({"E1", "standing-by", "1914-07", {}, Confidence::possible});
  const Digest april = house.say({"E1", "standing-by", "1917-04", {}, Confidence::possible});
  const Timeline timeline = house.timeline();
  CHECK(days(timeline, "E1", 'B') == "1924-06-12..-");
  CHECK(test::item(timeline, "E1").begins.latest.leaned);
  REQUIRE(timeline.conflicts.size() == 2);
  std::vector<std::vector<Digest>> aside;
  for (const TimelineConflict& conflict : timeline.conflicts) {
    aside.push_back(conflict.set_aside);
    CHECK(conflict.level == Level::possible);
    CHECK(conflict.statements.size() == 3);
    const bool is_july = conflict.set_aside == std::vector<Digest>{july};
    // From the end of July 1914, or of April 1917, to 12 June 1924.
    CHECK(conflict.clash_days == (is_july ? 3603 : 2599));
    CHECK(conflict.words.find(is_july ? "just short of ten years" : "about seven years") !=
          std::string::npos);
  }
  CHECK(std::count(aside.begin(), aside.end(), std::vector<Digest>{july}) == 1);
  CHECK(std::count(aside.begin(), aside.end(), std::vector<Digest>{april}) == 1);
  // Without the permit's reading both can stand.
  const Timeline without = house.timeline(Level::possible, {}, {permit});
  CHECK(without.conflicts.empty());
  CHECK(days(without, "E1", 'B') == "-..1914-07-31");
}

TEST_CASE("two readings of the same words are one contradiction, told with both") {
  for (const std::string other : {"before the war", "before the first war"}) {
    House house;
    house.say({"C1", "works-began", "1924-06-12/1924-11-05", {}, Confidence::probable});
    house.say({"E1", "of-campaign", "C1", {}, Confidence::probable});
    const auto heard = [&](const std::string& date, const std::string& quote) {
      return house.say(
          {"E1", "standing-by", date, {}, Confidence::possible, EvidenceClass::documentary, "P1", quote});
    };
    const Digest april = heard("1917-04", other), july = heard("1914-07", "before the war");
    const Timeline timeline = house.timeline();
    if (other != "before the war") {
      CHECK(timeline.conflicts.size() == 2);
      continue;
    }
    REQUIRE(timeline.conflicts.size() == 1);
    const TimelineConflict& conflict = timeline.conflicts.front();
    CHECK(conflict.set_aside == std::vector<Digest>{july, april});
    CHECK(conflict.statements.size() == 4);
    CHECK(conflict.clash_days == 3603);
    CHECK(conflict.words.find("just short of ten years, or by about seven years") != std::string::npos);
    CHECK(test::text(conflict.statements).find("misses the others by about seven years") !=
          std::string::npos);
    REQUIRE(conflict.ways_out.size() == 1);
    CHECK(conflict.ways_out.front().size() == 2);
    CHECK(conflict.way_taken == 1);
    CHECK(conflict.words.find("read otherwise, ") != std::string::npos);
    const Bound& latest = test::item(timeline, "E1").begins.latest;
    CHECK(latest.leaned);
  }
}

TEST_CASE("statements beyond the limits of the inquiry contradict them") {
  House house;
  house.say({"E1", "installed", "1066"});
  const Timeline timeline = house.timeline();
  REQUIRE(timeline.conflicts.size() == 1);
  CHECK(timeline.conflicts[0].statements.size() == 1);
  CHECK(timeline.conflicts[0].words.find("limits of the inquiry") != std::string::npos);
}

TEST_CASE("phases: what came with the works, what piecemeal, what was seen and what hidden") {
  House house;
  for (const std::string number : {"1", "2"}) {
    house.say({"H" + number, "phase-of", "R1"});
    house.say({"H" + number, "phase-number", number});
    house.say({"H" + number, "opened-by", "C" + number});
  }
  house.say({"C1", "works-began", "1888"});
  house.say({"C1", "works-ended", "1890"});
  house.say({"C2", "works-began", "1924"});
  house.say({"C2", "works-ended", "1926"});
  for (const std::string element : {"E1", "E2", "E3", "E4"}) house.say({element, "stands-in", "R1"});
  house.say({"E1", "of-campaign", "C1"});
  house.say({"E2", "of-campaign", "C2"});
  house.say({"E2", "covers", "E1", "contact=laps over"});
  house.say({"E3", "installed", "1905~"});
  house.say({"E3", "removed-for-good", "1953"});
  house.say({"E5", "installed", "1905"});
  const Timeline timeline = house.timeline(Level::possible, "R1");
  CHECK(timeline.conflicts.empty());
  REQUIRE(timeline.phases.size() == 2);
  CHECK(days(timeline.phases[0].works_end) == "1890-01-01..1890-12-31");
  CHECK(timeline.items.size() == 4);  // not E5, which stands elsewhere

  const auto& first = test::item(timeline, "E1").phases;
  REQUIRE(first.size() == 2);
  CHECK(first[0].installed == Membership::certain);
  CHECK(first[0].how == "by the opening works");
  CHECK(first[0].visible == Membership::certain);
  CHECK(first[1].installed == Membership::no);
  CHECK(first[1].covered == Membership::certain);

  const auto& later = test::item(timeline, "E2").phases;
  REQUIRE(later.size() == 1);
  CHECK(later[0].phase == 1);
  CHECK(later[0].installed == Membership::certain);

  const auto& shelf = test::item(timeline, "E3").phases;
  REQUIRE(shelf.size() == 2);
  CHECK(shelf[0].installed == Membership::certain);
  CHECK(shelf[0].how == "piecemeal");
  CHECK(shelf[1].removed == Membership::certain);

  const auto& undated = test::item(timeline, "E4");
  CHECK_FALSE(undated.dated);
  CHECK(undated.phases.size() == 2);
  CHECK(undated.phases[0].installed == Membership::possible);
  CHECK(timeline.items.back().record.code == "E4");
}

TEST_CASE("membership is decided by relations where printed dates overlap") {
  House house;
  for (const std::string number : {"1", "2"}) {
    house.say({"H" + number, "phase-of", "R1"});
    house.say({"H" + number, "phase-number", number});
  }
  house.say({"E1", "of-phase", "H2"});
  house.say({"E2", "covers", "E1", "contact=laps over"});
  const Timeline timeline = house.timeline();
  CHECK(days(timeline, "E2", 'B') == "-..-");
  const auto& parts = test::item(timeline, "E2").phases;
  const auto in_second =
      std::find_if(parts.begin(), parts.end(), [](const PhasePart& p) { return p.phase == 1; });
  REQUIRE(in_second != parts.end());
  for (const PhasePart& part : parts)
    if (part.phase == 0) CHECK(part.installed == Membership::no);
}

TEST_CASE("the same archive gives the same timeline") {
  House house;
  house.say({"E1", "installed", "1900"});
  house.say({"E2", "covers", "E1", "contact=laps over"});
  const Timeline one = house.timeline(), two = house.timeline();
  REQUIRE(one.items.size() == two.items.size());
  for (std::size_t at = 0; at < one.items.size(); ++at) {
    CHECK(one.items[at].record.code == two.items[at].record.code);
    CHECK(one.items[at].begins.earliest.reason == two.items[at].begins.earliest.reason);
  }
  CHECK(one.reading.fingerprint == two.reading.fingerprint);
}

// The twelve contexts of the worked example in the article 'Harris matrix' of the English Wikipedia (contexts
// 1 to 12 of one section); the order is what its text states: later above earlier.
TEST_CASE("twelve contexts of a section keep their order") {
  const std::vector<std::pair<int, int>> later_than{{3, 5},  {3, 2},  {6, 2},  {2, 12}, {2, 5},   {12, 5},
                                                    {5, 1},  {5, 4},  {5, 9},  {5, 10}, {5, 11},  {1, 9},
                                                    {1, 11}, {4, 10}, {4, 11}, {9, 11}, {10, 11}, {7, 8}};
  const auto name = [](int number) { return "E" + std::to_string(number); };
  House house;
  for (const auto& [later, earlier] : later_than)
    house.say({name(later), "covers", name(earlier), "contact=laps over"});
  house.say({"E11", "not-yet-on", "1900"});
  house.say({"E3", "standing-by", "1950"});
  const Timeline timeline = house.timeline();
  CHECK(timeline.conflicts.empty());
  for (int context = 1; context <= 12; ++context) {
    INFO("context " << context);
    const bool floats = context == 7 || context == 8;
    const bool below_three = context != 6 && !floats;
    CHECK(days(timeline, name(context), 'B') == (floats        ? "-..-"
                                                 : below_three ? "1900-01-01..1950-12-31"
                                                               : "1900-01-01..-"));
  }
  const Digest wrong = house.say({"E11", "covers", "E6", "contact=laps over"});
  const Timeline turned = house.timeline();
  REQUIRE_FALSE(turned.conflicts.empty());
  // Ways round: from 6 down to 11 and back; without the statement that closes them all is well again, and so
  // it is without the other one that all of them pass through, 6 over 2.
  for (const TimelineConflict& conflict : turned.conflicts) {
    CHECK(conflict.statements.size() >= 4);
    CHECK(std::any_of(conflict.statements.begin(), conflict.statements.end(),
                      [&](const ReasonStep& step) { return step.statement == wrong; }));
    REQUIRE(conflict.ways_out.size() == 2);
    CHECK(std::any_of(conflict.ways_out.begin(), conflict.ways_out.end(),
                      [&](const auto& way) { return way.size() == 1 && way.front().statement == wrong; }));
    CHECK(conflict.way_taken == 0);
    CHECK(conflict.set_aside.size() == 2);
  }
  CHECK(house.timeline(Level::possible, {}, {wrong}).conflicts.empty());
}
