// Duplicates, layers, contacts and examinations: what they order, what they do not, and what is said of it.
#include <algorithm>
#include <catch2/catch.hpp>

#include "tests/timeline_plugin/house.hpp"

using namespace lathbook;
using test::days;
using test::House;

namespace {

const PhasePart* part_of(const TimelineItem& item, std::size_t phase) {
  for (const PhasePart& part : item.phases)
    if (part.phase == phase) return &part;
  return nullptr;
}

// Coats on one thing, numbered as given.
std::vector<test::Said> coats(const std::vector<std::string>& numbers) {
  std::vector<test::Said> said;
  for (std::size_t at = 0; at < numbers.size(); ++at) {
    const std::string code = "F" + std::to_string(at + 1);
    said.push_back({code, "finish-on", "E1"});
    said.push_back({code, "layer", numbers[at]});
  }
  return said;
}

}  // namespace

TEST_CASE("records made twice for one thing have one row and one set of dates") {
  House house;
  house.say({"E1", "installed", "1900"});
  house.say({"E2", "removed-for-good", "1950"});
  house.say({"E2", "element-type", "stove"});
  house.say({"E2", "mentioned-in", "P1"});
  const Digest joined = house.say({"E2", "same-record-as", "E1", {}, Confidence::probable});
  const Timeline timeline = house.timeline();
  REQUIRE(timeline.items.size() == 1);
  const TimelineItem& one = timeline.items.front();
  CHECK(one.record.code == "E1");
  REQUIRE(one.also.size() == 1);
  CHECK(one.also.front().code == "E2");
  CHECK(one.type == "stove");
  CHECK(one.remarks.size() == 1);
  CHECK(days(one.begins) == "1900-01-01..1900-12-31");
  CHECK(days(one.ends) == "1950-01-01..1950-12-31");
  CHECK(std::any_of(one.ends.latest.reason.begin(), one.ends.latest.reason.end(),
                    [&](const ReasonStep& step) { return step.statement == joined; }));
  // It is believed as far as the statement is: at 'certain' they are two things still.
  CHECK(house.timeline(Level::certain).items.size() == 2);
  CHECK(house.timeline(Level::possible, {}, {joined}).items.size() == 2);
}

TEST_CASE("two records of one photograph share its moment") {
  House house;
  house.say({"P1", "source-date", "1905"});
  house.say({"E1", "as-built-in", "P2"});
  house.say({"P2", "same-record-as", "P1"});
  CHECK(days(house.timeline(), "E1", 'B') == "-..1905-12-31");
}

TEST_CASE("layer numbers read on the thing order its coats like covers") {
  House house(coats({"1", "2", "5"}));
  house.say({"F1", "installed", "1890"});
  house.say({"F3", "installed", "1926"});
  const Timeline timeline = house.timeline();
  CHECK(timeline.conflicts.empty());
  CHECK(days(timeline, "F2", 'B') == "1890-01-01..1926-12-31");
  CHECK(days(timeline, "F1", 'E') == "1890-01-01..-");
  CHECK(test::text(test::item(timeline, "F2").begins.earliest.reason).find("F2 is layer 2") !=
        std::string::npos);
  const auto& under = test::item(timeline, "F1").under;
  REQUIRE(under.size() == 1);
  CHECK(under.front().record == house.id("F2"));
}

TEST_CASE("layer numbers order nothing where two spots are mixed up, or nobody looked") {
  House mixed(coats({"1", "2", "2", "3"}));
  mixed.say({"F1", "installed", "1890"});
  CHECK(days(mixed.timeline(), "F4", 'B') == "-..-");
  House copied;
  for (const std::string number : {"1", "2"}) {
    copied.say({"F" + number, "finish-on", "E1"});
    copied.say({"F" + number, "layer", number, {}, Confidence::certain, EvidenceClass::documentary});
  }
  copied.say({"F1", "installed", "1890"});
  CHECK(days(copied.timeline(), "F2", 'B') == "-..-");
}

TEST_CASE("a relation whose contact was not read orders nothing and says so") {
  House house;
  house.say({"E1", "installed", "1900"});
  house.say({"E2", "covers", "E1", "contact=not read"});
  const Timeline timeline = house.timeline();
  CHECK(days(timeline, "E2", 'B') == "-..-");
  const auto& remarks = test::item(timeline, "E2").remarks;
  REQUIRE(remarks.size() == 1);
  CHECK(remarks.front().words ==
        "E2 is laid over E1 (contact read: not read), which orders nothing, as the contact was not read");
  // At entry a relation without a contact is refused: it has to be asked for.
  CHECK_THROWS_WITH(house.say({"E3", "covers", "E1"}), Catch::Contains("contact"));
}

TEST_CASE("not looked, looked and none, could not tell are three answers") {
  House house;
  house.say({"F1", "stripping-looked-for", "looked, none"});
  house.say({"F2", "stripping-looked-for", "could not tell"});
  house.say({"F3", "stripping-looked-for", "not looked"});
  house.say({"E1", "absent-from", "P1", "spot=the wall"});
  house.say({"E2", "absent-from", "P1", "spot=the wall; could-be-hidden=yes; ground=a press stands there"});
  house.say({"E3", "absent-from", "P1", "spot=the wall; could-be-hidden=no"});
  const Timeline timeline = house.timeline();
  const auto remark = [&](const std::string& code) { return test::text(test::item(timeline, code).remarks); };
  CHECK(remark("F1") == "signs of stripping on F1: looked, none\n");
  CHECK(remark("F2") == "signs of stripping on F2: could not tell\n");
  CHECK(remark("F3") == "signs of stripping on F3: not looked\n");
  CHECK(remark("E1").find("nobody has said whether something could have hidden it") != std::string::npos);
  CHECK(remark("E2").find("something may have hidden it") != std::string::npos);
  CHECK(remark("E3").find("until the ground is told") != std::string::npos);
}

TEST_CASE("a screw or nail of later make dates itself, not what it holds") {
  House house;
  house.say({"N1", "piece-of", "E1"});
  house.say({"N1", "made-not-before", "1935~", "basis=Phillips screw"});
  house.say({"E2", "fixed-to", "E1", "contact=nailed through"});
  house.say({"E2", "made-not-before", "1846-08-20", "basis=gimlet point"});
  const Timeline timeline = house.timeline();
  CHECK(days(timeline, "N1", 'M') == "1930-01-01..-");
  CHECK(days(timeline, "E2", 'B') == "1846-08-20..-");
  CHECK(days(timeline, "E1", 'B') == "-..-");
}

TEST_CASE("what is covered is out of sight from that day until its cover goes") {
  House house;
  for (const std::string number : {"1", "2", "3"}) {
    house.say({"H" + number, "phase-of", "R1"});
    house.say({"H" + number, "phase-number", number});
    house.say({"H" + number, "opened-by", "C" + number});
  }
  house.say({"C1", "works-began", "1888"});
  house.say({"C2", "works-began", "1924"});
  house.say({"C3", "works-began", "1953"});
  house.say({"E1", "installed", "1890"});
  house.say({"E1", "seen-on", "2024"});
  house.say({"E2", "covers", "E1", "contact=laps over"});
  house.say({"E2", "installed", "1926"});
  house.say({"E2", "removed-for-good", "1956"});
  const Timeline timeline = house.timeline();
  const TimelineItem& green = test::item(timeline, "E1");
  REQUIRE(green.under.size() == 1);
  CHECK(green.under.front().record == house.id("E2"));
  // 1890 to 1926 in phase 1 and into phase 2; bare again from 1956 in phase 3.
  CHECK(part_of(green, 0)->visible == Membership::certain);
  CHECK(part_of(green, 0)->covered == Membership::no);
  CHECK(part_of(green, 1)->visible == Membership::certain);
  CHECK(part_of(green, 1)->covered == Membership::certain);
  CHECK(part_of(green, 2)->visible == Membership::possible);
  const TimelineItem& ivory = test::item(timeline, "E2");
  CHECK(part_of(ivory, 1)->visible == Membership::certain);
  CHECK(part_of(ivory, 2)->visible == Membership::certain);
  CHECK(part_of(ivory, 0) == nullptr);
}

TEST_CASE("a primer covered on the day it was put on was not surely to be seen") {
  House house;
  house.say({"H1", "phase-of", "R1"});
  house.say({"H1", "phase-number", "1"});
  house.say({"F1", "installed", "1890-05-03"});
  house.say({"F2", "installed", "1890-05-03"});
  house.say({"F2", "covers", "F1", "contact=laps over"});
  const Timeline timeline = house.timeline();
  CHECK(timeline.conflicts.empty());
  CHECK(part_of(test::item(timeline, "F1"), 0)->visible == Membership::possible);
}

namespace {

// A room R1, and a cellar R2, in one phase that began in 1888.
std::vector<test::Said> one_phase() {
  return {{"H1", "phase-of", "R1"},
          {"H1", "phase-number", "1"},
          {"H1", "opened-by", "C1"},
          {"C1", "works-began", "1888"}};
}

// Is E1, put in before the phase and still there, to be seen in it, when E2 of the same age lies at it so?
Membership seen_under(const std::string& relation, const std::string& details,
                      const std::string& scope = "R1") {
  House house(one_phase());
  house.say({"E1", "stands-in", "R1", "role=bounds"});
  house.say({"E1", "stands-in", "R2", "role=bounds"});
  house.say({"E2", "stands-in", "R1"});
  for (const std::string one : {"E1", "E2"}) {
    house.say({one, "installed", "1885"});
    house.say({one, "seen-on", "2024"});
  }
  house.say({"E2", relation, "E1", details});
  return part_of(test::item(house.timeline(Level::possible, scope), "E1"), 0)->visible;
}

}  // namespace

TEST_CASE("what hides a thing: laid over it, filling it or bedded on it, in the place where it lies") {
  CHECK(seen_under("covers", "contact=laps over") == Membership::no);
  CHECK(seen_under("covers", "contact=not read") == Membership::no);
  CHECK(seen_under("fills", "contact=bedded on") == Membership::no);
  CHECK(seen_under("fixed-to", "contact=bedded on") == Membership::no);
  CHECK(seen_under("fixed-to", "contact=nailed through; extent=the whole of it") == Membership::no);
  CHECK(seen_under("fixed-to", "contact=nailed through") == Membership::certain);
  CHECK(seen_under("butts", "contact=stops against") == Membership::certain);
  CHECK(seen_under("covers", "contact=laps over; extent=a part of it") == Membership::certain);
  CHECK(seen_under("fixed-to", "contact=bedded on; extent=a part of it") == Membership::certain);
  // From the other room it can still be seen.
  CHECK(seen_under("covers", "contact=laps over", "E1") == Membership::certain);
}

TEST_CASE("what was slid in behind a thing is hidden by it, though nothing is ordered") {
  House house(one_phase());
  for (const std::string one : {"E1", "E2"}) {
    house.say({one, "stands-in", "R1"});
    house.say({one, "installed", "1885"});
    house.say({one, "seen-on", "2024"});
  }
  house.say({"E1", "touches", "E2", "how=slid in behind"});
  const Timeline timeline = house.timeline(Level::possible, "R1");
  CHECK(part_of(test::item(timeline, "E1"), 0)->visible == Membership::no);
  CHECK(part_of(test::item(timeline, "E2"), 0)->visible == Membership::certain);
}

TEST_CASE("a coat hides the coats below it and not the thing") {
  House house(one_phase());
  house.say({"E1", "stands-in", "R1"});
  house.say({"F1", "finish-on", "E1"});
  house.say({"F2", "covers", "F1", "contact=laps over"});
  house.say({"F2", "covers", "E1", "contact=laps over"});
  for (const std::string one : {"E1", "F1", "F2"}) {
    house.say({one, "installed", "1885"});
    house.say({one, "seen-on", "2024"});
  }
  const Timeline timeline = house.timeline(Level::possible, "R1");
  CHECK(part_of(test::item(timeline, "E1"), 0)->visible == Membership::certain);
  CHECK(part_of(test::item(timeline, "F1"), 0)->visible == Membership::no);
}

TEST_CASE("a void is no place to see a thing from") {
  House house(one_phase());
  house.say({"R2", "place-type", "void"});
  house.say({"E1", "stands-in", "R1", "role=stands in"});
  house.say({"E1", "stands-in", "R2", "role=bounds"});
  house.say({"E2", "stands-in", "R1"});
  for (const std::string one : {"E1", "E2"}) {
    house.say({one, "installed", "1885"});
    house.say({one, "seen-on", "2024"});
  }
  house.say({"E2", "covers", "E1", "contact=laps over"});
  CHECK(part_of(test::item(house.timeline(Level::possible, "E1"), "E1"), 0)->visible == Membership::no);
}

TEST_CASE("what hides a thing hides the coats it had by then, and none put on later") {
  House house(one_phase());
  house.say({"E1", "stands-in", "R1"});
  house.say({"E2", "stands-in", "R1"});
  house.say({"F1", "finish-on", "E1"});
  house.say({"F2", "finish-on", "E1"});
  house.say({"F1", "installed", "1880"});
  house.say({"E2", "installed", "1885"});
  house.say({"F2", "installed", "1887"});
  house.say({"E2", "covers", "E1", "contact=laps over"});
  for (const std::string one : {"E1", "E2", "F1", "F2"}) house.say({one, "seen-on", "2024"});
  const Timeline timeline = house.timeline(Level::possible, "R1");
  CHECK(part_of(test::item(timeline, "F1"), 0)->visible == Membership::no);
  CHECK(part_of(test::item(timeline, "F2"), 0)->visible == Membership::certain);
}

TEST_CASE("what covers a part only does not gainsay a view of the uncovered face") {
  for (const std::string extent : {"the whole of it", "a part of it"}) {
    House house;
    house.say({"P1", "source-date", "1911"});
    house.say({"E2", "covers", "E1", "contact=laps over; extent=" + extent});
    house.say({"E2", "installed", "1900"});
    house.say({"E2", "seen-on", "2024"});
    house.say({"E1", "uncovered-in", "P1", "feature=a chip"});
    CHECK(house.timeline().conflicts.empty() == (extent == "a part of it"));
  }
}
