// The whole way, by the program: statements in, sequence out, in every form.
#include <libxml/parser.h>
#include <libxml/xpath.h>

#include <catch2/catch.hpp>
#include <memory>
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

std::size_t count(const std::string& text, const std::string& word) {
  std::size_t found = 0;
  for (auto at = text.find(word); at != std::string::npos; at = text.find(word, at + 1)) ++found;
  return found;
}

bool has(const std::string& text, const std::string& words) {
  // Lines are wrapped where they must; the words must stand in order.
  return std::regex_replace(text, std::regex("\\s+"), " ").find(words) != std::string::npos;
}

// Well-formed, and what an XPath finds in it, as a number.
double number_of(const std::string& xml, const std::string& path) {
  const std::unique_ptr<xmlDoc, void (*)(xmlDocPtr)> document(
      xmlReadMemory(xml.data(), static_cast<int>(xml.size()), nullptr, nullptr, XML_PARSE_NONET), xmlFreeDoc);
  REQUIRE(document);
  const std::unique_ptr<xmlXPathContext, void (*)(xmlXPathContextPtr)> context(
      xmlXPathNewContext(document.get()), xmlXPathFreeContext);
  const std::string whole = "count(" + path + ")";
  const std::unique_ptr<xmlXPathObject, void (*)(xmlXPathObjectPtr)> found(
      xmlXPathEval(reinterpret_cast<const xmlChar*>(whole.c_str()), context.get()), xmlXPathFreeObject);
  REQUIRE(found);
  return found->floatval;
}

// The twelve contexts of tests/sequence/order_test.cpp as things of one room.
std::vector<Said3> twelve_relations() {
  std::vector<Said3> relations;
  for (const auto& [later, earlier] : std::vector<std::pair<int, int>>{{3, 5},
                                                                       {3, 2},
                                                                       {6, 2},
                                                                       {2, 12},
                                                                       {2, 5},
                                                                       {12, 5},
                                                                       {5, 1},
                                                                       {5, 4},
                                                                       {5, 9},
                                                                       {5, 10},
                                                                       {5, 11},
                                                                       {1, 9},
                                                                       {1, 11},
                                                                       {4, 10},
                                                                       {4, 11},
                                                                       {9, 11},
                                                                       {10, 11},
                                                                       {7, 8}})
    relations.push_back({"E-" + std::to_string(later), "covers", "E-" + std::to_string(earlier)});
  return relations;
}

std::vector<Element3> twelve_elements() {
  std::vector<Element3> elements;
  for (int at = 1; at <= 12; ++at)
    elements.push_back({"E-" + std::to_string(at), "Context " + std::to_string(at)});
  return elements;
}

}  // namespace

TEST_CASE("the twelve contexts go through the program") {
  const Wall house(twelve_elements(), twelve_relations());
  const std::string json = house.done({"sequence", "R", "--json"});
  CHECK(count(json, "\"redundant\": true") == 7);
  CHECK(count(json, "\"redundant\": false") == 11);
  CHECK(has(json, "\"chains\": 2"));
  CHECK(has(json, "\"levels\": 7"));
  const std::string text = house.done({"sequence", "R"});
  CHECK(has(text, "12 things, 18 relations of order (7 of them said by the others already); no loops."));
  CHECK(has(text, "Floating: nothing ties this chain to the rest"));
  CHECK(count(text, "covers E-11") == 2);
  CHECK(count(house.done({"sequence", "R", "--redundant"}), "covers E-11") == 5);
  CHECK(count(text, "S-1 Site book") == 0);
  CHECK(count(house.done({"sequence", "R", "--sources"}), "S-1 Site book; certain") == 11);
  CHECK(text.find("* E-3 Context 3") < text.find("* E-2 Context 2"));
}

TEST_CASE("drawings are whole, legible without colour, and the narrow one fits a phone") {
  const Wall house(twelve_elements(), twelve_relations());
  const auto wide = house.folder / "wide.svg", narrow = house.folder / "narrow.svg";
  house.done({"sequence", "R", "--svg", wide.string()});
  house.done({"sequence", "R", "--svg", narrow.string(), "--narrow"});
  for (const auto& path : {wide, narrow}) {
    const std::string svg = test::read_file(path);
    CHECK(number_of(svg, "/*[local-name()='svg']/*[local-name()='title']") == 1);
    CHECK(number_of(svg, "/*[local-name()='svg']/*[local-name()='desc']") == 1);
    for (int at = 1; at <= 12; ++at)
      CHECK(number_of(svg, "//*[local-name()='text'][.='E-" + std::to_string(at) + "']") == 1);
    // Greys only: every colour has three equal or nearly equal parts.
    const std::regex colour("#([0-9a-f]{2})([0-9a-f]{2})([0-9a-f]{2})\"");
    for (auto at = std::sregex_iterator(svg.begin(), svg.end(), colour); at != std::sregex_iterator(); ++at) {
      const int red = std::stoi((*at)[1], nullptr, 16), blue = std::stoi((*at)[3], nullptr, 16);
      CHECK(std::abs(red - blue) <= 8);
    }
    CHECK(svg.find("<script") == std::string::npos);
  }
  const auto again = house.folder / "again.svg";
  house.done({"sequence", "R", "--svg", again.string()});
  CHECK(test::read_file(again) == test::read_file(wide));
  CHECK(test::read_file(narrow).find("viewBox=\"0 0 360.0 ") != std::string::npos);
  // 11 lines of order, none of the 7 redundant ones.
  const std::string svg = test::read_file(wide);
  CHECK(number_of(svg, "//*[local-name()='g'][*[local-name()='title'][contains(., ' covers ')]]") == 11);
  house.done({"sequence", "R", "--svg", wide.string(), "--redundant"});
  CHECK(number_of(test::read_file(wide),
                  "//*[local-name()='g'][*[local-name()='title'][contains(., ' covers ')]]") == 18);
}

TEST_CASE("the page holds both drawings and fetches nothing") {
  const Wall house(twelve_elements(), twelve_relations());
  const auto page = house.folder / "page.html";
  house.done({"sequence", "R", "--html", page.string()});
  const std::string html = test::read_file(page);
  CHECK(number_of(html, "//*[local-name()='svg']") == 2);
  CHECK(number_of(html, "//*[@src] | //*[local-name()='script'] | //*[local-name()='link']") == 0);
  CHECK(number_of(html, "//*[local-name()='meta'][@name='viewport']") == 1);
  CHECK(number_of(html, "//@id") == number_of(html, "//@id[not(. = preceding::*/@id)]"));
  CHECK(has(html, "not drawn, as the others say it already"));
}

TEST_CASE("a loop is told in full by name, sameness and all") {
  const Wall house({{"E-1", "Lime coat"}, {"E-2", "Paper"}, {"E-3", "Lining"}, {"E-4", "Brick"}},
                   {{"E-1", "covers", "E-2"},
                    {"E-2", "same-as", "E-3", ""},
                    {"E-3", "covers", "E-1", "runs behind"},
                    {"E-1", "covers", "E-4"}});
  const std::string text = house.done({"sequence", "R"});
  CHECK(has(text, "! Loop A: These go round in a circle, so they cannot all be right:"));
  for (const char* words : {"E-1 Lime coat covers E-2 Paper (contact read: laps over) (set aside)",
                            "E-2 Paper is the same as E-3 Lining (set aside)",
                            "E-3 Lining covers E-1 Lime coat (contact read: runs behind) (set aside)"})
    CHECK(has(text, words));
  CHECK(has(text, "It takes in E-1 Lime coat, E-2 Paper, E-3 Lining."));
  CHECK(count(text, ": S-1 Site book; certain") == 3);
  CHECK_FALSE(has(text, "E-4 Brick."));
  const auto svg = house.folder / "loop.svg";
  house.done({"sequence", "R", "--svg", svg.string()});
  CHECK(count(test::read_file(svg), ">loop A<") >= 1);
}

TEST_CASE("the less sure of a loop is set aside and crossed out; the rest keeps its order") {
  const Wall house({{"E-1", "Upper"}, {"E-2", "Middle"}, {"E-3", "Lower"}},
                   {{"E-1", "covers", "E-2"},
                    {"E-2", "covers", "E-3"},
                    {"E-3", "covers", "E-1", "laps over", "possible"}});
  const std::string text = house.done({"sequence", "R"});
  CHECK(has(text, "Loop A"));
  CHECK(has(text, "covers E-1 Upper (contact read: laps over) [set aside]"));
  CHECK(text.find("* E-1 Upper") < text.find("* E-2 Middle"));
  CHECK(text.find("* E-2 Middle") < text.find("* E-3 Lower"));
  CHECK_FALSE(has(house.done({"sequence", "R", "--level", "probable"}), "Loop A"));
}

TEST_CASE("what is the same is one box with its reason; butting both ways is one time") {
  const Wall house({{"E-1", "West face"}, {"E-2", "East face"}, {"E-3", "Core"}, {"E-4", "Pier"}},
                   {{"E-1", "same-as", "E-2", ""},
                    {"E-2", "covers", "E-3"},
                    {"E-3", "butts", "E-4", "stops against"},
                    {"E-4", "butts", "E-3", "stops against"}});
  const std::string text = house.done({"sequence", "R"});
  CHECK(has(text, "* E-1 = E-2 West face"));
  CHECK(has(text, "one thing: E-1 West face is the same as E-2 East face"));
  CHECK(has(text, "Of one time, as each is said to be not before the other: E-3 Core, E-4 Pier."));
  CHECK_FALSE(has(text, "Loop"));
}

TEST_CASE("taking the whole of a thing away is a removal, later than it, and no loop") {
  const Wall house({{"E-1", "Lean-to"}, {"E-2", "Lean-to taken down", "cut"}, {"E-3", "Opening"}},
                   {{"E-2", "takes-away", "E-1"}, {"E-3", "cuts", "E-1"}});
  const std::string json = house.done({"sequence", "R", "--json"});
  CHECK(count(json, "\"sort\": \"removal\"") == 1);
  CHECK(count(json, "\"sort\": \"cut\"") == 1);
  CHECK(count(json, "\"bond\": \"order\"") == 2);
  const std::string text = house.done({"sequence", "R"});
  CHECK(has(text, "no loops"));
  CHECK(text.find("X E-2 Lean-to taken down") < text.find("* E-1 Lean-to"));
}

TEST_CASE("what orders nothing is listed with its reason") {
  const Wall house(
      {{"E-1", "Shelf"}, {"E-2", "Wall"}, {"E-3", "Mantel", "joinery", "", "", "2"}, {"E-4", "Pipe"}},
      {{"E-1", "covers", "E-2", "not read"},
       {"E-3", "covers", "E-2"},
       {"E-4", "covers", "E-2", "laps over", "conjecture"}});
  const std::string text = house.done({"sequence", "R"});
  CHECK(has(text, "E-1 Shelf covers E-2 Wall: the contact was not read."));
  CHECK(has(text, "E-3 Mantel covers E-2 Wall: which setting is meant is not said."));
  CHECK(has(text, "E-4 Pipe covers E-2 Wall: a conjecture."));
  CHECK(has(text, "no relations of order"));
}

TEST_CASE(
    "things elsewhere are drawn when they tie two of the room; one thing is asked with its neighbours") {
  const Wall house({{"E-1", "Paint"},
                    {"E-2", "Panel", "joinery", "", "", "", "Q"},
                    {"E-3", "Wall"},
                    {"E-4", "Far", "joinery", "", "", "", "Q"}},
                   {{"E-1", "covers", "E-2"}, {"E-2", "covers", "E-3"}, {"E-3", "covers", "E-4"}});
  const std::string room = house.done({"sequence", "R"});
  CHECK(has(room, "E-2 Panel (stands elsewhere)"));
  CHECK_FALSE(has(room, "E-4 Far"));
  const std::string one = house.done({"sequence", "E-1"});
  CHECK(has(one, "E-2 Panel"));
  CHECK_FALSE(has(one, "E-3 Wall"));
  CHECK(has(house.done({"sequence", "E-1", "--steps", "2"}), "E-3 Wall"));
  CHECK(house.run({"sequence", "S-1"}).code == 4);
  CHECK(house.run({"sequence", "R", "--steps", "40"}).code == 2);
}

TEST_CASE("names with signs of markup stay names") {
  const Wall house({{"E-1", "Coat <b> & \"more\""}, {"E-2", "Wall"}}, {{"E-1", "covers", "E-2"}});
  const auto svg = house.folder / "signs.svg";
  house.done({"sequence", "R", "--svg", svg.string()});
  CHECK(number_of(test::read_file(svg), "//*[local-name()='title'][contains(., 'Coat <b> & ')]") >= 1);
}

TEST_CASE("an empty room has an empty sequence") {
  const Wall house({}, {});
  CHECK(has(house.done({"sequence", "Q"}), "No things, no relations of order; no loops."));
  const auto svg = house.folder / "empty.svg";
  house.done({"sequence", "Q", "--svg", svg.string()});
  CHECK(number_of(test::read_file(svg), "/*[local-name()='svg']") == 1);
}
