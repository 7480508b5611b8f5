// Works suggested by shared dates: which days are found, and that nothing is entered by itself.
#include <algorithm>
#include <catch2/catch.hpp>

#include "tests/timeline_plugin/house.hpp"

using namespace lathbook;
using test::House;

namespace {

std::vector<std::string> suggested(const Timeline& timeline) {
  std::vector<std::string> words;
  for (const Draft& draft : timeline.proposals)
    if (draft.content.value == "campaign") words.push_back(draft.words);
  return words;
}

// Things in one room, dated so.
std::vector<test::Said> room(const std::vector<std::string>& dates) {
  std::vector<test::Said> said;
  for (std::size_t at = 0; at < dates.size(); ++at) {
    const std::string code = "E" + std::to_string(at + 1);
    said.push_back({code, "stands-in", "R1"});
    said.push_back({code, "installed", dates[at]});
  }
  return said;
}

}  // namespace

TEST_CASE("three things that share a date suggest works, as a proposal") {
  House house(room({"1903/1905", "1904/1906", "1902/1904", "1950"}));
  const Timeline timeline = house.timeline(Level::possible, "R1");
  const auto words = suggested(timeline);
  REQUIRE(words.size() == 1);
  // The days that lie in all three: of 1904.
  CHECK(words[0] ==
        "a course of works in R1, 1904, suggested by shared dates only: it would hold E3, E1, E2");
  for (const Draft& draft : timeline.proposals) {
    if (draft.content.property != Registry::standard().named("of-campaign").id) continue;
    CHECK(draft.content.confidence == Confidence::possible);
    CHECK(draft.content.evidence == EvidenceClass::comparative);
    CHECK(draft.content.grounds.size() == 1);
    CHECK_FALSE(draft.content.citations.empty());
  }
  CHECK(timeline.works.empty());
  CHECK(house.timeline(Level::possible, "R1").proposals.size() == timeline.proposals.size());
}

// Least number of days that meet [1,5], [2,3], [4,8] and [6,9] is two, at 3 and 8: the usual example of
// interval stabbing, with years for numbers and each group made up to three.
TEST_CASE("the fewest days that meet all beginnings are taken") {
  House house(room({"1901/1905", "1902/1903", "1904/1908", "1906/1909", "1902/1903", "1906/1908"}));
  const auto words = suggested(house.timeline(Level::possible, "R1"));
  REQUIRE(words.size() == 2);
  CHECK(words[0].find("1902 to 1903") != std::string::npos);
  CHECK(words[1].find("1906 to 1908") != std::string::npos);
}

TEST_CASE("nothing is suggested where works are named, dates are wide, or things are few") {
  House named(room({"1904", "1904", "1904"}));
  named.say({"C1", "campaign-of", "R1"});
  named.say({"C1", "works-began", "1903"});
  CHECK(suggested(named.timeline(Level::possible, "R1")).empty());
  named.say({"C1", "works-ended", "1903"});
  CHECK(suggested(named.timeline(Level::possible, "R1")).size() == 1);
  CHECK(suggested(House(room({"1890/1920", "1890/1920", "1890/1920"})).timeline(Level::possible, "R1"))
            .empty());
  CHECK(suggested(House(room({"1904", "1904"})).timeline(Level::possible, "R1")).empty());
}
