// The forms of the schedule: whole, well-formed, bounded, whatever people typed.
#include <libxml/parser.h>
#include <libxml/xpath.h>
#include <libxml/xpathInternals.h>

#include <memory>
#include <sstream>

#include "plugins/finishes/schedule.hpp"
#include "plugins/finishes/write.hpp"
#include "tests/finishes/painted_room.hpp"

using namespace lathbook;
using test::about;
using test::PaintedRoom;

namespace {

std::string svg(const FinishLayers& layers, bool narrow = false) {
  std::ostringstream out;
  finishes::write_svg(layers, out, narrow);
  return out.str();
}

std::string text(const FinishLayers& layers, std::size_t columns = 80) {
  std::ostringstream out;
  finishes::write_text(layers, out, columns);
  return out.str();
}

std::string json(const FinishLayers& layers) {
  std::ostringstream out;
  finishes::write_json(layers, out);
  return out.str();
}

// How many nodes an XPath finds; -1 when the bytes are no XML.
int nodes(const std::string& xml, const char* path) {
  const std::unique_ptr<xmlDoc, decltype(&xmlFreeDoc)> document(
      xmlReadMemory(xml.data(), static_cast<int>(xml.size()), nullptr, nullptr,
                    XML_PARSE_NONET | XML_PARSE_NOERROR),
      &xmlFreeDoc);
  if (!document) return -1;
  const std::unique_ptr<xmlXPathContext, decltype(&xmlXPathFreeContext)> context(
      xmlXPathNewContext(document.get()), &xmlXPathFreeContext);
  xmlXPathRegisterNs(context.get(), reinterpret_cast<const xmlChar*>("s"),
                     reinterpret_cast<const xmlChar*>("http://www.w3.org/2000/svg"));
  const std::unique_ptr<xmlXPathObject, decltype(&xmlXPathFreeObject)> found(
      xmlXPathEvalExpression(reinterpret_cast<const xmlChar*>(path), context.get()), &xmlXPathFreeObject);
  return found && found->nodesetval ? found->nodesetval->nodeNr : 0;
}

FinishLayers usual(PaintedRoom& room) {
  room.thing(
      "E-1",
      {{"10R 8/2", "primer"}, {"7.5YR 4/4"}, {"N 3/", "dirt line"}, {"5G 3/4"}, {"5PB 5/4"}, {"N 9/"}});
  room.thing("E-2", {{"5G 3/4"}, {"5PB 5/4"}, {"N 9/"}});
  return room.layers(room.room);
}

}  // namespace

TEST_CASE("schedule: coats that are one share a row, and what lies between has its own") {
  PaintedRoom room;
  const FinishLayers layers = usual(room);
  const auto schedule = finishes::schedule_of(layers, layers.groups.front());
  REQUIRE(schedule.rows.size() == 6);
  REQUIRE(schedule.columns.size() == 2);
  for (std::size_t row = 0; row < 6; ++row) {
    CHECK(schedule.rows[row].coats[0] == row);
    CHECK(schedule.rows[row].coats[1] == (row < 3 ? std::nullopt : std::optional<std::size_t>(row - 3)));
  }
}

TEST_CASE("schedule: a coat that the reference lacks gets a row between") {
  PaintedRoom room;
  room.thing("E-1", {{"7.5YR 4/4"}, {"5G 3/4"}, {"5PB 5/4"}, {"5Y 8/6"}, {"5R 4/8"}});
  room.thing("E-2", {{"7.5YR 4/4"}, {"5G 3/4"}, {"5P 3/8"}, {"5PB 5/4"}});
  const FinishLayers layers = room.layers(room.room);
  const auto schedule = finishes::schedule_of(layers, layers.groups.front());
  REQUIRE(schedule.rows.size() == 6);
  CHECK_FALSE(schedule.rows[2].coats[0]);
  CHECK(schedule.rows[2].coats[1] == 2U);
}

TEST_CASE(
    "drawing: well-formed, titled, described, with the same layers as a list; nothing by colour alone") {
  PaintedRoom room;
  const FinishLayers layers = usual(room);
  for (const bool narrow : {false, true}) {
    const std::string drawn = svg(layers, narrow);
    CHECK(nodes(drawn, "/s:svg[@role='img']/*[1][self::s:title[@id='title']]") == 1);
    CHECK(nodes(drawn, "/s:svg/s:desc[@id='desc']") == 1);
    CHECK(nodes(drawn, "//s:g[@role='table']/s:g[@role='row']") == 9 + 2);
    // Every chip stands in a group that says in words what it shows, beside a strip of hatching.
    CHECK(nodes(drawn, "//s:g[@role='group'][@aria-label]") == 9);
    CHECK(nodes(drawn, "//s:g[@role='group'][s:rect[starts-with(@fill, 'url(#')]]") == 9);
    CHECK(nodes(drawn, "//s:g[@role='group']/s:text[contains(., '5G 3/4')]") == 2);
    CHECK(nodes(drawn, "//s:text[contains(., 'not yet in place')]") == 3);
    CHECK(nodes(drawn, "//@href") == 0);
  }
}

TEST_CASE("forms: the same state gives the same bytes, and machines get it all") {
  PaintedRoom room;
  const FinishLayers layers = usual(room);
  PaintedRoom again;
  CHECK(svg(layers) == svg(usual(again)));
  const std::string machine = json(layers);
  CHECK_THAT(machine, Catch::Contains("\"put-in-after-coat\""));
  CHECK_THAT(machine, Catch::Contains("\"srgb\""));
  const std::string words = text(layers);
  CHECK_THAT(words, Catch::Contains("Woodwork in Parlour (R-1)"));
  CHECK_THAT(words, Catch::Contains("E-1  E-2  layer"));
}

TEST_CASE("text: many columns stand in panels, each with the reference") {
  PaintedRoom room;
  room.thing("E-1", {{"7.5YR 4/4"}, {"5G 3/4"}, {"5PB 5/4"}});
  for (int i = 2; i < 30; ++i) room.thing("E-" + std::to_string(i), {{"5G 3/4"}, {"5PB 5/4"}});
  const std::string words = text(room.layers(room.room));
  std::istringstream lines(words);
  std::size_t panels = 0;
  for (std::string line; std::getline(lines, line);) {
    INFO(line);
    CHECK(line.size() <= 110);
    if (line.rfind("  E-1  ", 0) == 0) ++panels;
  }
  CHECK(panels > 1);
  for (int i = 2; i < 30; ++i) CHECK_THAT(words, Catch::Contains("  E-" + std::to_string(i) + "  "));
}

TEST_CASE("forms: an empty place says so") {
  PaintedRoom room;
  const FinishLayers layers = room.layers(room.room);
  CHECK_THAT(text(layers), Catch::Contains("no layers of paint are recorded there"));
  CHECK(nodes(svg(layers), "//s:text[contains(., 'No layers of paint')]") == 1);
  CHECK_THAT(json(layers), Catch::Contains("\"groups\": []"));
}

TEST_CASE("forms: hostile words stay words") {
  PaintedRoom room;
  const Uuid thing = room.thing("E-1", {{"7.5YR 4/4"}, {"5G 3/4"}});
  const Uuid finish = room.reader.record_by_code("E-1.f1")->id;
  room.reader.say(finish, "colour",
                  "<script>alert(1)</script> \xe2\x80\xae & \"green\" \x07" + std::string(20000, 'x'));
  room.reader.say(thing, "note", "unused");
  const FinishLayers layers = room.layers(room.room);
  const std::string drawn = svg(layers);
  CHECK(nodes(drawn, "//s:title") == 1);
  CHECK(nodes(drawn, "//script") == 0);
  CHECK(drawn.find('\x07') == std::string::npos);
  CHECK(drawn.find("\xe2\x80\xae") == std::string::npos);
  CHECK(text(layers).find("\xe2\x80\xae") == std::string::npos);
}

TEST_CASE("forms: a thing of more coats than can be compared is set aside, and the others are told") {
  PaintedRoom room;
  room.thing("E-1", {{"7.5YR 4/4"}, {"5G 3/4"}, {"5PB 5/4"}});
  room.thing("E-2", {{"5G 3/4"}, {"5PB 5/4"}});
  room.thing("E-3", std::vector<test::Coat>(70, {"5G 3/4"}));
  const FinishLayers layers = room.layers(room.room);
  CHECK(about(layers, "E-2").concluded);
  CHECK_THAT(about(layers, "E-3").words, Catch::Contains("more than 60 coats"));
  CHECK(nodes(svg(layers), "//s:title") == 1);
}
