// What the sample's written sections count must be what its sheets hold: the prose is checked against the
// evidence.
#include <catch2/catch.hpp>
#include <map>
#include <set>

#include "core/view/snapshot.hpp"
#include "tests/report/fairlead.hpp"

using namespace lathbook;

namespace {

/// What was seen of the parts in November 2024: how many have which class of one scale.
std::map<std::string, std::size_t> classes(std::string_view scale) {
  std::map<std::string, std::size_t> counted;
  const auto reader = test::fairlead().archive->read({});
  const Snapshot snapshot(*reader);
  snapshot.each(Kind::element, [&](const RecordView& element) {
    for (const Statement* said : element.all(scale))
      if (said->content.qualifier("on").starts_with("2024-11-")) ++counted[said->content.value];
  });
  return counted;
}

/// The tiles of a field, by their latest state.
std::map<std::string, std::size_t> tiles(const std::string& field) {
  std::map<std::string, std::size_t> counted;
  const auto reader = test::fairlead().archive->read({});
  const Snapshot snapshot(*reader);
  snapshot.each(Kind::piece, [&](const RecordView& piece) {
    if (!piece.info.code.starts_with(field + ".") || piece.text("position").empty()) return;
    const Statement* state = piece.latest("piece-state");
    ++counted[state == nullptr ? "" : state->content.value];
  });
  return counted;
}

std::string written() {
  std::string all;
  const auto reader = test::fairlead().archive->read({});
  const Snapshot snapshot(*reader);
  snapshot.each(Kind::place, [&](const RecordView& place) {
    for (const Statement* said : place.all("report-section")) all += said->content.value + "\n";
  });
  return all;
}

bool says(std::string_view words) {
  static const std::string all = written();
  return all.find(words) != std::string::npos;
}

}  // namespace

TEST_CASE("the condition assessment counts the parts as the survey classed them") {
  const auto condition = classes("condition-class");
  CHECK(condition.at("0") + condition.at("1") + condition.at("2") + condition.at("3") == 146);
  CHECK(says("Of 146 parts looked at in November 2024, two are in the worst class"));
  CHECK(condition.at("3") == 2);
  CHECK(condition.at("2") == 20);
  CHECK(says("Twenty are in the class above it"));
  CHECK(condition.at("1") + condition.at("0") == 124);
  CHECK(says("124 show minor symptoms or none"));
  CHECK(condition.at("1") == 72);
  CHECK(condition.at("0") == 52);
  CHECK(says("Class 1, minor symptoms: 72 parts; class 0, none: 52."));
  const auto urgency = classes("urgency-class");
  CHECK(urgency.at("3") == 2);
  CHECK(urgency.at("2") == 13);
  CHECK(says("Short term are thirteen"));
}

TEST_CASE("the tiles of the niche are as many in the prose as on the map") {
  const auto green = tiles("N-203");
  CHECK(green.at("in place") == 57);
  CHECK(green.at("missing at survey") + green.at("discarded") == 3);
  CHECK(green.at("in container") + green.at("on bench") + green.at("away") == 24);
  CHECK(says("The three empty cells, 41, 42 and 58"));
  const auto ivory = tiles("N-204");
  CHECK(ivory.at("in place") == 24);
  CHECK(ivory.at("in container") == 58);
  CHECK(ivory.at("used up as a sample") == 1);
  CHECK(ivory.at("not accounted for") == 1);
  CHECK(says("Of the sixty ivory tiles lifted, 58 are held in crates 3 to 5"));
}

TEST_CASE("the prose has the periods of significance and the way of showing that the trust decided last") {
  const auto reader = test::fairlead().archive->read({});
  const Snapshot snapshot(*reader);
  const auto house = snapshot.find_code("FL-H");
  REQUIRE(house);
  const auto periods = house->all("period-of-significance");
  REQUIRE(periods.size() == 1);
  CHECK(periods.front()->content.value == "1888 to 1919 and 1924 to 1926");
  CHECK(says("The first, 1888 to 1919,"));
  CHECK(says("The second, 1924 to 1926,"));
  const auto shown = house->all("interpreted-date");
  REQUIRE(shown.size() == 1);
  CHECK(shown.front()->content.value.starts_with("no one year"));
  CHECK(says("No year is set at which the house is to be shown."));
  CHECK_FALSE(says("as in 1926"));
}
