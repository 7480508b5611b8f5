// The whole way, by the program: statements in, chances out.
#include <catch2/catch.hpp>
#include <regex>

#include "tests/acceptance/house.hpp"
#include "tests/support/small_wall.hpp"

using namespace lathbook;
using test::Element3;
using test::House;
using test::Said3;

namespace {

struct Wall : House {
  Wall(const std::vector<Element3>& elements, const std::vector<Said3>& relations) {
    begin();
    take_in(archive, test::small_wall(elements, relations));
  }
};

bool has(const std::string& text, const std::string& words) {
  return std::regex_replace(text, std::regex("\\s+"), " ").find(words) != std::string::npos;
}

double number(const std::string& json, const std::string& name) {
  return std::stod(test::member(json, name));
}

const std::vector<Element3> pair{{"E-1", "One", "plaster", "1800/1899"},
                                 {"E-2", "Two", "plaster", "1850/1949"}};

}  // namespace

TEST_CASE("which of two comes first, with the error, the prior and the seed") {
  // 1800-1900 and 1850-1950 without a relation: 0.875 in continuous time; by whole years 49 * 50 / 2 pairs
  // lie in a later and 50 in an equal year of 10,000, so 0.8725 before, 0.005 equal, 0.1225 after.
  const Wall house(pair, {});
  const std::string json = house.done({"which-first", "E-1", "E-2", "--json"});
  CHECK(number(json, "before") == Approx(0.8725).margin(0.012));
  CHECK(number(json, "same-year") == Approx(0.005).margin(0.004));
  CHECK(number(json, "after") == Approx(0.1225).margin(0.012));
  CHECK(number(json, "error") == Approx(std::sqrt(0.8725 * 0.1275 / 16'000)).epsilon(0.25));
  CHECK(number(json, "r-hat") < 1.01);
  CHECK(test::member(json, "seed") == "1");
  CHECK(json == house.done({"which-first", "E-1", "E-2", "--json"}));
  CHECK(json != house.done({"which-first", "E-1", "E-2", "--json", "--seed", "2"}));
  const std::string text = house.done({"which-first", "E-1", "E-2"});
  CHECK(has(text, "(one standard error)"));
  CHECK(has(text, "an even, or uniform, prior"));
  CHECK(has(text, "seed 1 gives the same figures again"));
}

TEST_CASE("an order that the evidence fixes is certain, through things without dates too") {
  const Wall house(
      {{"E-1", "One", "plaster", "1800/1899"}, {"E-2", "Between"}, {"E-3", "Three", "plaster", "1850/1949"}},
      {{"E-1", "covers", "E-2"}, {"E-2", "covers", "E-3"}});
  CHECK(has(house.done({"which-first", "E-1", "E-3"}), "Certain: E-3 Three was there before E-1 One."));
  CHECK(has(house.done({"which-first", "E-3", "E-1"}), "Certain: E-3 Three was there before E-1 One."));
  CHECK(number(house.done({"which-first", "E-3", "E-1", "--json"}), "before") == 1);
}

TEST_CASE("what is the same moves together") {
  const Wall house(pair, {{"E-1", "same-as", "E-2", ""}});
  CHECK(has(house.done({"which-first", "E-1", "E-2"}), "came at one moment"));
  const std::string text = house.done({"chances", "R"});
  CHECK(has(text, "E-1 One: 95 in 100 between 185"));
  CHECK(has(text, "the evidence allows 1 January 1850 to 31 December 1899"));
}

TEST_CASE("no figure where the evidence leaves an end open; orders are counted instead") {
  // a < c, b < c, b < d: five orders, a before d in four of them.
  const Wall house({{"E-1", "A"}, {"E-2", "B"}, {"E-3", "C"}, {"E-4", "D"}},
                   {{"E-3", "covers", "E-1"}, {"E-3", "covers", "E-2"}, {"E-4", "covers", "E-2"}});
  const std::string text = house.done({"which-first", "E-1", "E-4"});
  CHECK(has(text, "No figure from dates:"));
  CHECK(has(text,
            "the relations among 4 things allow 5 orders, and in 4 of them (80 in 100) E-1 A comes first."));
  CHECK(has(house.done({"chances", "R"}), "E-1 A: no figure, as nothing says"));
  const Wall half({{"E-1", "A", "plaster", "1900/.."}, {"E-2", "B", "plaster", "1800/1899"}}, {});
  CHECK(has(half.done({"chances", "R"}),
            "E-1 A: no figure, as nothing says by when it was there; not before 1 January 1900"));
}

TEST_CASE("a chain too long for single draws is drawn in forests") {
  std::vector<Element3> elements;
  std::vector<Said3> relations;
  for (int at = 0; at < 40; ++at) {
    elements.push_back({"E-" + std::to_string(at), "Coat", "plaster", "1800/1999"});
    if (at > 0) relations.push_back({"E-" + std::to_string(at), "covers", "E-" + std::to_string(at - 1)});
  }
  const Wall house(elements, relations);
  const std::string text = house.done({"chances", "E-20", "--json"});
  CHECK(has(text, "forests of dates drawn together"));
  // The 21st of 40 in 200 years: 200 * 21 / 41 = 102.4 years on.
  CHECK(std::abs(number(text, "middle") - 1902) <= 3);
}

TEST_CASE("wrong questions are refused in a sentence") {
  const Wall house(pair, {});
  CHECK(has(house.run({"which-first", "E-1", "E-1"}).err, "name two different things"));
  CHECK(house.run({"which-first", "E-1", "R"}).code == 4);
  CHECK(house.run({"chances", "S-1"}).code == 4);
  CHECK(house.run({"which-first", "E-1", "E-2", "--setting", "2"}).code == 4);
}
