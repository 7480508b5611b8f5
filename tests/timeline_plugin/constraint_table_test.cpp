// Every row of the constraint table (docs/evidence-and-time.md): the smallest house in which the rule moves a
// date. What the rules mean is this program's own; the arithmetic is of the Gregorian calendar.
#include <catch2/catch.hpp>
#include <set>

#include "core/evidence/registry.hpp"
#include "plugins/timeline/rules.hpp"
#include "tests/timeline_plugin/house.hpp"

using namespace lathbook;
using test::House;
using test::Said;

namespace {

struct Expected {
  char what;
  std::string code;
  std::string days;
};

struct TableRow {
  std::string rule;
  std::vector<Said> statements;
  std::vector<Expected> expected;
};

const Said kOver{"E2", "covers", "E1", "contact=laps over"};

const std::vector<TableRow> kTable{
    {"begins-in",
     {{"E1", "installed", "1905"}},
     {{'B', "E1", "1905-01-01..1905-12-31"}, {'E', "E1", "1905-01-01..-"}, {'M', "E1", "-..1905-12-31"}}},
    {"ends-in",
     {{"E1", "removed-for-good", "1950"}},
     {{'E', "E1", "1950-01-01..1950-12-31"}, {'B', "E1", "-..1950-12-31"}}},
    {"made-in",
     {{"E1", "made", "1890"}},
     {{'M', "E1", "1890-01-01..1890-12-31"}, {'B', "E1", "1890-01-01..-"}}},
    {"made-after", {{"E1", "made-not-before", "1888"}}, {{'B', "E1", "1888-01-01..-"}}},
    {"begins-by", {{"E1", "standing-by", "1914-07"}}, {{'B', "E1", "-..1914-07-31"}, {'E', "E1", "-..-"}}},
    {"not-yet-day", {{"E1", "not-yet-on", "1900"}}, {{'B', "E1", "1900-01-01..-"}}},
    {"gone-day", {{"E1", "gone-on", "1950"}}, {{'E', "E1", "-..1950-12-31"}, {'B', "E1", "-..1950-12-31"}}},
    {"source-date",
     {{"P1", "source-date", "1911"}, {"E1", "as-built-in", "P1"}},
     {{'B', "E1", "-..1911-12-31"}, {'E', "E1", "1911-01-01..-"}}},
    {"source-by",
     {{"P1", "printed-on", "1920"}, {"E1", "seen-in", "P1", "feature=a chip"}},
     {{'B', "E1", "-..1920-12-31"}, {'E', "E1", "-..-"}}},
    {"seen",
     {{"P1", "source-date", "1905~"}, {"E1", "seen-in", "P1", "feature=a chip"}},
     {{'B', "E1", "-..1910-12-31"}, {'E', "E1", "1900-01-01..-"}}},
    {"seen-day",
     {{"E1", "seen-on", "1911-10-07"}},
     {{'B', "E1", "-..1911-10-07"}, {'E', "E1", "1911-10-07..-"}}},
    {"uncovered",
     {kOver,
      {"P1", "source-date", "1911"},
      {"E1", "uncovered-in", "P1", "feature=a chip"},
      {"E2", "seen-on", "1930"}},
     {{'B', "E2", "1911-01-01..1930-12-31"}, {'B', "E1", "-..1911-12-31"}}},
    {"uncovered-day",
     {kOver, {"E1", "uncovered-on", "1911-10"}, {"E2", "seen-on", "1930"}},
     {{'B', "E2", "1911-10-01..1930-12-31"}, {'B', "E1", "-..1911-10-31"}}},
    {"absent",
     {{"P1", "source-date", "1911"},
      {"E1", "absent-from", "P1", "spot=the back; could-be-hidden=no; ground=nothing stands before it"},
      {"E1", "seen-on", "1930"}},
     {{'B', "E1", "1911-01-01..1930-12-31"}}},
    {"absent",
     {{"P1", "source-date", "1911"},
      {"E1", "absent-from", "P1",
       "spot=the back; could-be-hidden=only by what is recorded in front of it; ground=the view is close"},
      {"E2", "in-front-of", "E1"},
      {"E1", "standing-by", "1900"},
      {"E1", "seen-on", "1930"}},
     {{'B', "E2", "-..1911-12-31"}, {'E', "E2", "1911-01-01..-"}}},
    {"one-of-places",
     {{"E1", "perhaps-in", "R1", "put-in=1888"},
      {"E1", "perhaps-in", "R2", "put-in=1924"},
      {"E1", "standing-by", "1910"}},
     {{'B', "E1", "1888-01-01..1888-12-31"}}},
    {"falls-together",
     {{"E1", "standing-by", "1900", "", Confidence::certain, EvidenceClass::oral, "P1"},
      {"E2", "standing-by", "1900", "", Confidence::certain, EvidenceClass::oral, "P1"},
      {"E3", "standing-by", "1900", "", Confidence::certain, EvidenceClass::oral, "P1"},
      {"E1", "installed", "1920"},
      {"E2", "installed", "1930"},
      {"P1", "falls-together", "yes"}},
     {{'B', "E1", "1920-01-01..1920-12-31"}, {'B', "E2", "1930-01-01..1930-12-31"}, {'B', "E3", "-..-"}}},
    {"not-yet", {{"P1", "source-date", "1911"}, {"E1", "not-yet-in", "P1"}}, {{'B', "E1", "1911-01-01..-"}}},
    {"gone", {{"P1", "source-date", "1911"}, {"E1", "gone-by", "P1"}}, {{'E', "E1", "-..1911-12-31"}}},
    {"billed",
     {{"P1", "source-date", "1926-01/1926-03"}, {"E1", "billed-in", "P1"}},
     {{'B', "E1", "-..1926-03-31"}, {'E', "E1", "-..-"}}},
    {"proposed",
     {{"P1", "source-date", "1924-06-12"},
      {"E1", "proposed-in", "P1", "accept-not-before=yes"},
      {"E2", "proposed-in", "P1"}},
     {{'B', "E1", "1924-06-12..-"}, {'B', "E2", "-..-"}}},
    {"original",
     {{"N1", "made-not-before", "1888"}, {"N1", "original-to", "E1", "grounds=one undisturbed bed"}},
     {{'B', "E1", "1888-01-01..-"}, {'M', "N1", "1888-01-01..-"}}},
    {"covers",
     {kOver, {"E1", "installed", "1900"}, {"E2", "standing-by", "1910"}},
     {{'B', "E2", "1900-01-01..1910-12-31"}, {'E', "E1", "1900-01-01..-"}}},
    {"cuts",
     {{"E2", "cuts", "E1", "contact=stops against"}, {"E2", "installed", "1910"}},
     {{'B', "E1", "-..1910-12-31"}, {'E', "E1", "1910-01-01..-"}}},
    {"takes-away",
     {{"E2", "takes-away", "E1"}, {"E2", "installed", "1910"}},
     {{'B', "E1", "-..1910-12-31"}, {'E', "E1", "1910-01-01..1910-12-31"}}},
    {"fills",
     {{"E2", "fills", "E1", "contact=bedded on"}, {"E1", "installed", "1900"}},
     {{'B', "E2", "1900-01-01..-"}, {'E', "E1", "1900-01-01..-"}}},
    {"butts",
     {{"E2", "fixed-to", "E1", "contact=nailed through"}, {"E2", "installed", "1910"}},
     {{'B', "E1", "-..1910-12-31"}, {'E', "E1", "1910-01-01..-"}}},
    {"bonded",
     {{"E1", "bonded-with", "E2"},
      {"E1", "of-campaign", "C1"},
      {"C1", "works-began", "1888"},
      {"C1", "works-ended", "1890"}},
     {{'B', "E2", "1888-01-01..1890-12-31"}}},
    {"same",
     {{"E1", "same-as", "E2"},
      {"E2", "once-continuous-with", "E3"},
      {"E1", "installed", "1900"},
      {"E1", "removed-for-good", "1950"}},
     {{'B', "E2", "1900-01-01..1900-12-31"},
      {'E', "E2", "1950-01-01..1950-12-31"},
      {'B', "E3", "1900-01-01..1900-12-31"},
      {'E', "E3", "1900-01-01..-"}}},
    {"finish-on",
     {{"F1", "finish-on", "E1"},
      {"F2", "finish-on", "E2"},
      {"F3", "finish-on", "E2", "runs-onto=the wall beside it"},
      {"E1", "made-not-before", "1900"},
      {"E2", "installed", "1920"}},
     {{'B', "F1", "1900-01-01..-"}, {'B', "F2", "-..-"}, {'B', "F3", "1920-01-01..-"}}},
    {"ghost-stops",
     {{"F1", "stops-at-outline-of", "E1"}, {"E1", "installed", "1900"}, {"F1", "standing-by", "1910"}},
     {{'B', "F1", "1900-01-01..1910-12-31"}, {'E', "E1", "1900-01-01..-"}}},
    {"ghost-across",
     {{"F1", "runs-across-ghost-of", "E1"}, {"E1", "removed-for-good", "1950"}},
     {{'B', "F1", "1950-01-01..-"}}},
    {"ghost-behind",
     {{"F1", "continues-behind", "E1"}, {"F1", "installed", "1900"}},
     {{'B', "E1", "1900-01-01..-"}}},
    {"ghost-bare",
     {{"E1", "bare-behind", "F1"}, {"F1", "installed", "1900"}},
     {{'B', "E1", "-..1900-12-31"}}},
    {"same-record",
     {{"E2", "same-record-as", "E1"}, {"E2", "installed", "1900"}},
     {{'B', "E1", "1900-01-01..1900-12-31"}}},
    {"layer",
     {{"F1", "finish-on", "E1"},
      {"F2", "finish-on", "E1"},
      {"F1", "layer", "1"},
      {"F2", "layer", "2"},
      {"F1", "installed", "1890"},
      {"F2", "standing-by", "1900"}},
     {{'B', "F2", "1890-01-01..1900-12-31"}, {'E', "F1", "1890-01-01..-"}}},
    {"replaces",
     {{"E2", "replaces", "E1"}, {"E1", "removed-for-good", "1950"}},
     {{'B', "E2", "1950-01-01..-"}}},
    {"either-order",
     {{"E1", "one-after-other", "E2"},
      {"E1", "installed", "1900"},
      {"E1", "removed-for-good", "1920"},
      {"E2", "seen-on", "1940"}},
     {{'B', "E2", "1920-01-01..1940-12-31"}}},
    {"reused",
     {{"E1", "reused-in", "E2"}, {"E1", "removed-for-good", "1950"}},
     {{'B', "E2", "1950-01-01..-"}}},
    {"of-campaign",
     {{"E1", "of-campaign", "C1"}, {"C1", "works-began", "1924"}, {"C1", "works-ended", "1926"}},
     {{'B', "E1", "1924-01-01..1926-12-31"}}},
    {"campaign-began",
     {{"E1", "of-campaign", "C1"}, {"C1", "works-began", "1924-06-12"}},
     {{'B', "E1", "1924-06-12..-"}}},
    {"after-coat",
     {{"E1", "put-in-after-coat", "F1"}, {"F1", "installed", "1900"}},
     {{'B', "E1", "1900-01-01..-"}}},
    {"by-coat",
     {{"E1", "in-place-by-coat", "F1"}, {"F1", "installed", "1900"}},
     {{'B', "E1", "-..1900-12-31"}}},
    {"campaign-ended",
     {{"E1", "of-campaign", "C1"}, {"C1", "works-ended", "1926-03-22"}},
     {{'B', "E1", "-..1926-03-22"}}},
    // Two years have at most 731 days, counted from the last day of 1888.
    {"campaign-length",
     {{"E1", "of-campaign", "C1"}, {"C1", "works-began", "1888"}, {"C1", "longest-duration", "2"}},
     {{'B', "E1", "1888-01-01..1891-01-01"}}},
    {"removed-in-campaign",
     {{"E1", "removed-in-campaign", "C1"}, {"C1", "works-began", "1953"}, {"C1", "works-ended", "1954"}},
     {{'E', "E1", "1953-01-01..1954-12-31"}}},
    {"of-phase",
     {{"E1", "of-phase", "H1"},
      {"H1", "phase-of", "R1"},
      {"H1", "phase-number", "1"},
      {"H2", "phase-of", "R1"},
      {"H2", "phase-number", "2"},
      {"H1", "opened-by", "C1"},
      {"H2", "opened-by", "C2"},
      {"C1", "works-began", "1888"},
      {"C2", "works-began", "1924"}},
     {{'B', "E1", "1888-01-01..1924-12-31"}}},
    {"gone-in-phase",
     {{"E1", "gone-in-phase", "H1"},
      {"H1", "phase-of", "R1"},
      {"H1", "phase-number", "1"},
      {"H2", "phase-of", "R1"},
      {"H2", "phase-number", "2"},
      {"H2", "opened-by", "C2"},
      {"C2", "works-began", "1924"}},
     {{'E', "E1", "-..1924-12-31"}}},
    {"opened-by",
     {{"H1", "phase-of", "R1"},
      {"H1", "phase-number", "1"},
      {"H1", "opened-by", "C1"},
      {"C1", "works-began", "1888"}},
     {{'S', "H1", "1888-01-01..1888-12-31"}}},
    {"phase-order",
     {{"H1", "phase-of", "R1"},
      {"H1", "phase-number", "1"},
      {"H2", "phase-of", "R1"},
      {"H2", "phase-number", "2"},
      {"H2", "opened-by", "C2"},
      {"C2", "works-began", "1924"}},
     {{'S', "H1", "-..1924-12-31"}}},
    // Five years have 1825 to 1827 days: from 1 January 1900, and from 31 December 1900.
    {"years-at-least",
     {{"E1", "years-after-at-least", "E2", "years=5"}, {"E2", "installed", "1900"}},
     {{'B', "E1", "1904-12-31..-"}}},
    {"years-at-most",
     {{"E1", "years-after-at-most", "E2", "years=5"}, {"E2", "installed", "1900"}},
     {{'B', "E1", "-..1906-01-01"}}},
    {"setting",
     {{"A", "widen-years", "2"}, {"P1", "source-date", "1905~"}, {"E1", "as-built-in", "P1"}},
     {{'B', "E1", "-..1907-12-31"}, {'E', "E1", "1903-01-01..-"}}},
};

}  // namespace

TEST_CASE("every rule of dating moves the dates it should, and no others") {
  for (const TableRow& row : kTable) {
    House house(row.statements);
    const Timeline timeline = house.timeline();
    CHECK(timeline.conflicts.empty() == (row.rule != "falls-together"));
    for (const Expected& expected : row.expected) {
      INFO(row.rule << ": " << expected.what << " of " << expected.code);
      CHECK(test::days(timeline, expected.code, expected.what) == expected.days);
    }
  }
}

TEST_CASE("the table of rules is the registry's") {
  std::set<std::string> named{"ruling"};  // tested by itself: it needs the name of a statement
  for (const TableRow& row : kTable) named.insert(row.rule);
  std::set<std::string> registered;
  for (const Property& property : Registry::standard().properties())
    if (!property.dating.empty()) registered.insert(property.dating);
  const auto known = timeline::known_rules();
  CHECK(std::is_sorted(known.begin(), known.end()));
  CHECK(std::set<std::string>(known.begin(), known.end()) == registered);
  CHECK(named == registered);
}

TEST_CASE("a person's ruling sets a statement aside for good") {
  House house;
  house.say({"E1", "installed", "1905"});
  const Digest wrong = house.say({"E1", "installed", "1955"});
  REQUIRE(house.timeline().conflicts.size() == 1);
  house.say({"A", "set-aside", wrong.hex(), "reason=the other bill is the right one"});
  const Timeline timeline = house.timeline();
  CHECK(timeline.conflicts.empty());
  CHECK(timeline.set_aside_by_ruling.size() == 1);
  CHECK(test::days(timeline, "E1", 'B') == "1905-01-01..1905-12-31");
}

TEST_CASE("relations that lack what they must have order nothing") {
  House house;
  house.say({"E1", "installed", "1900"});
  house.say({"E2", "covers", "E1", "contact=not read"});
  house.say({"E3", "touches", "E1", "how=slid in behind"});
  house.say({"E4", "in-front-of", "E1"});
  house.say({"E5", "covers", "E1", "contact=laps over", Confidence::conjecture});
  const Timeline timeline = house.timeline();
  for (const std::string code : {"E2", "E3", "E4", "E5"}) {
    INFO(code);
    CHECK(test::days(timeline, code, 'B') == "-..-");
  }
  CHECK_FALSE(test::item(timeline, "E2").remarks.empty());
  CHECK_FALSE(test::item(timeline, "E5").remarks.empty());
}

TEST_CASE("fewest and most days of a span of years") {
  CHECK(timeline::days_in_years(1) == std::pair<Day, Day>{365, 366});
  CHECK(timeline::days_in_years(4) == std::pair<Day, Day>{1460, 1461});
  CHECK(timeline::days_in_years(8) == std::pair<Day, Day>{2921, 2922});
  CHECK(timeline::days_in_years(400) == std::pair<Day, Day>{146097, 146097});
  CHECK(timeline::days_in_years(0.5) == std::pair<Day, Day>{182, 183});
}
