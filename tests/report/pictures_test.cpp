// Pictures, their rings and captions, and the notes that lead to them.
#include <libxml/parser.h>
#include <array>
#include <catch2/catch.hpp>
#include <regex>

#include <algorithm>
#include <cctype>
#include <map>
#include <regex>
#include <set>

#include "core/base/base64.hpp"
#include "core/base/text.hpp"
#include "core/view/views.hpp"
#include "plugins/report/chicago.hpp"
#include "plugins/report/picture.hpp"
#include "plugins/report/plan.hpp"
#include "plugins/report/tree_walk.hpp"
#include "tests/report/fairlead.hpp"

using namespace lathbook;
using namespace lathbook::report;

namespace {

constexpr const char* kDrawing =
    "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"300\" height=\"100\" viewBox=\"0 0 300 100\"/>";

std::vector<const Figure*> figures_of(const Document& document) {
  std::vector<const Figure*> all;
  each_block<Figure>(document, [&](const Figure& figure) { all.push_back(&figure); });
  return all;
}

const Figure* of_source(const std::string& source) {
  for (const Figure* figure : figures_of(test::whole_house()))
    if (figure->source == source) return figure;
  return nullptr;
}

/// Whether a note cites a place outside this part of its source, or such a place first: "leaf 2, block plan"
/// is in leaf 2, "leaf 23" is not.
bool names_another_part(const std::string& words, const std::string& part) {
  static const std::regex place(
      "\\b((first |second "
      ")?leaf\\b|leaves|fo\\.|p\\.|cover\\b|binding\\b|signature\\b|passim\\b|(April|October) 190)");
  std::smatch found;
  if (!std::regex_search(words, found, place)) return false;
  const std::string rest = words.substr(static_cast<std::size_t>(found.position()));
  return !rest.starts_with(part) || std::isalnum(static_cast<unsigned char>(rest[part.size()])) != 0;
}

std::string caption(const Figure& figure) {
  std::string words;
  for (const Sentence& one : figure.caption.sentences) words += one.words() + " ";
  return words;
}

}  // namespace

TEST_CASE("a picture is measured by its bytes and printed so that two fit a page") {
  const auto svg = picture(kDrawing);
  REQUIRE(svg);
  CHECK(svg->width == Approx(150));
  CHECK(svg->height == Approx(50));
  CHECK(svg->rings.empty());
  // PNG: ISO/IEC 15948:2004, 11.2.2: width and height are the first eight bytes of IHDR. A whole file of 16
  // by 32 pixels, white, made with zlib.
  const auto png = picture(*from_base64(
      "iVBORw0KGgoAAAANSUhEUgAAABAAAAAgAQAAAAAz8sVhAAAADklEQVR42mP4/5+BlggA9QU/waESAJMAAAAASUVORK5CYII="));
  REQUIRE(png);
  CHECK(png->media_type == "image/png");
  CHECK(png->height == Approx(92));
  CHECK(png->width == Approx(46));
  // JPEG: ITU-T T.81 (1992), B.2.2: height, then width, in the frame header.
  const std::string jpeg("\xff\xd8\xff\xc0\0\x11\x08\0\x20\0\x40\x03\x01\x22\0\x02\x11\x01\x03\x11\x01", 21);
  const auto photograph = picture(jpeg);
  REQUIRE(photograph);
  CHECK(photograph->media_type == "image/jpeg");
  CHECK(photograph->width == Approx(150));
  CHECK_FALSE(picture("no picture at all"));
  CHECK_FALSE(picture(""));
  CHECK_FALSE(picture(std::string("\xff\xd8\xff", 3)));
}

TEST_CASE("spots are ringed and numbered, and what lies outside the picture is not") {
  // Regions: W3C, 'Media Fragments URI 1.0 (basic)', 2012, section 4.2.2.
  const auto ringed =
      picture(kDrawing, {"left, xywh=10,20,30,40", "xywh=900,900,5,5", "xywh=percent:50,50,10,10"});
  REQUIRE(ringed);
  CHECK(ringed->rings == std::vector<std::string>{"xywh=10,20,30,40", "xywh=percent:50,50,10,10"});
  CHECK(ringed->media_type == "image/svg+xml");
  xmlDoc* drawn = xmlReadMemory(ringed->bytes.data(), static_cast<int>(ringed->bytes.size()), "ring", nullptr,
                                XML_PARSE_NONET);
  REQUIRE(drawn != nullptr);
  xmlFreeDoc(drawn);
  // The picture is in it whole; each ring leaves its region free, and its number stands beside the picture.
  CHECK(ringed->bytes.find(to_base64(kDrawing)) != std::string::npos);
  const std::regex frame(
      "<rect x=\"([-0-9.]+)\" y=\"([-0-9.]+)\" width=\"([-0-9.]+)\" height=\"([-0-9.]+)\"");
  const std::regex label("<circle cx=\"([-0-9.]+)\" cy=\"([-0-9.]+)\"");
  const auto numbers = [&](const std::regex& pattern, std::size_t at) {
    std::vector<double> found;
    auto match = std::sregex_iterator(ringed->bytes.begin(), ringed->bytes.end(), pattern);
    std::advance(match, at);
    for (std::size_t n = 1; n < match->size(); ++n) found.push_back(std::stod((*match)[n]));
    return found;
  };
  // Every frame is drawn twice: a white edge, and ink.
  for (const auto& [at, region] : {std::pair{0, std::array{10.0, 20.0, 30.0, 40.0}},
                                   std::pair{2, std::array{150.0, 50.0, 30.0, 10.0}}}) {
    const auto shape = numbers(frame, static_cast<std::size_t>(at));
    CHECK(shape[0] < region[0]);
    CHECK(shape[1] < region[1]);
    CHECK(shape[0] + shape[2] > region[0] + region[2]);
    CHECK(shape[1] + shape[3] > region[1] + region[3]);
  }
  for (const std::size_t at : {std::size_t{0}, std::size_t{1}}) {
    const auto shape = numbers(label, at);
    CHECK((shape[0] < 0 || shape[0] > 300 || shape[1] < 0 || shape[1] > 100));
  }
  CHECK(ringed->bytes.find(">2</text>") != std::string::npos);
  CHECK(ringed->bytes.find(">3</text>") == std::string::npos);
}

TEST_CASE("a region is told apart from the words beside it") {
  CHECK(region_in("upper half, xywh=196,168,310,104") == "xywh=196,168,310,104");
  CHECK(without_region("upper half, xywh=196,168,310,104") == "upper half");
  CHECK(without_region("top course; xywh=1,2,3,4; left") == "top course, left");
  CHECK(without_region("xywh=1,2,3,4").empty());
  CHECK(region_in("upper half").empty());
  CHECK(without_region("upper half") == "upper half");
}

TEST_CASE("figures run in the order of reading, and each says what it shows") {
  int last = 0;
  for (const Figure* figure : figures_of(test::whole_house())) {
    CHECK(figure->number == ++last);
    CAPTURE(figure->title);
    CHECK_FALSE(figure->caption.sentences.empty());
    CHECK_FALSE(figure->description.empty());
  }
  CHECK(last > 20);
  const Figure* dinner = of_source("S-17");
  REQUIRE(dinner != nullptr);
  REQUIRE(dinner->rings.size() >= 7);
  const std::string words = caption(*dinner);
  for (const char* told : {"about 1911", "L. Sturgess", "Sturgess 388",
                           "It shows in place:", "with nothing over it: Sea-green tile field (N-203) (frame ",
                           "and does not show:", "the green tile is seen there with its joints"}) {
    CAPTURE(words, told);
    CHECK(fold(words).find(fold(told)) != std::string::npos);
  }
}

TEST_CASE("a note leads to the figure of its source, and to the ring round its spot") {
  const Document& document = test::whole_house();
  std::set<std::string> pictured;
  std::map<std::string, std::string> parts;
  for (const Figure* figure : figures_of(document)) {
    if (figure->source.empty()) continue;
    CHECK(pictured.insert(figure->source).second);
    if (!figure->part.empty()) parts[figure->source] = figure->part;
  }
  CHECK(parts["S-34"] == "leaf 23");
  const auto reader = test::fairlead().archive->read({});
  for (const Entry& entry : document.bibliography) {
    const auto source = reader->record_by_code(entry.source);
    CAPTURE(entry.source);
    if (source)
      CHECK(SourceView(RecordView::read(*reader, *source)).media.empty() ==
            (pictured.count(entry.source) == 0));
  }
  CHECK(pictured.size() > 10);
  std::size_t ringed = 0, other_leaves = 0;
  std::vector<CitedPlace> places;
  for (const Note& one : document.notes) places.insert(places.end(), one.places.begin(), one.places.end());
  for (const CitedPlace& note : places) {
    CAPTURE(plain(note.words));
    // The picture of Sallow's day-book is of leaf 23, which a note of another leaf must not point to; and so
    // with every picture of a part.
    const std::string words = plain(note.words);
    const auto part = parts.find(note.source);
    const bool other_leaf = part != parts.end() && names_another_part(words, part->second);
    other_leaves += other_leaf ? 1 : 0;
    CHECK((note.figure != 0) == (pictured.count(note.source) == 1 && !other_leaf));
    if (note.ring != 0) {
      ++ringed;
      // The ring says where it is; pixels are for programs.
      CHECK(plain(note.words).find("of the picture") == std::string::npos);
    }
  }
  CHECK(ringed >= 10);
  CHECK(other_leaves > 3);
  report::Options bare;
  bare.pictures = false;
  bare.rooms = {"202"};
  const Document room = test::report_of("FL-H", bare);
  for (const Note& note : room.notes)
    for (const CitedPlace& place : note.places) CHECK(place.ring == 0);
}

TEST_CASE("the bibliography goes by kinds, and what was not used is named") {
  const Document& document = test::whole_house();
  std::map<std::string, Sort> sorts;
  Sort last = Sort::primary;
  for (const Entry& entry : document.bibliography) {
    CHECK(entry.sort >= last);
    last = entry.sort;
    sorts[entry.source] = entry.sort;
  }
  CHECK(sorts.at("S-03") == Sort::primary);    // a plan of 1888
  CHECK(sorts.at("S-17") == Sort::primary);    // a photograph of about 1911
  CHECK(sorts.at("S-50") == Sort::survey);     // a photograph by one who looked at the house
  CHECK(sorts.at("S-42") == Sort::survey);     // the measured survey
  CHECK(sorts.at("S-48") == Sort::survey);     // the laboratory's report
  CHECK(sorts.at("S-38") == Sort::oral);       // an interview
  CHECK(sorts.at("S-61") == Sort::oral);       // a video of a walk through the house
  CHECK(sorts.at("S-63") == Sort::secondary);  // a town history
  CHECK(sorts.at("S-44") == Sort::secondary);  // a table
  CHECK_FALSE(document.not_cited.empty());
  for (const Entry& entry : document.not_cited) CHECK(sorts.count(entry.source) == 0);
  const auto reader = test::fairlead().archive->read({});
  std::size_t sources = 0;
  reader->each_record(Kind::source, [&](const RecordInfo&) {
    ++sources;
    return true;
  });
  CHECK(document.bibliography.size() + document.not_cited.size() == sources);
}

TEST_CASE("an opening is placed by its distance along the wall") {
  // Worked by hand: a room from 1,1 to 5,4, walls of 0.4 outside and 0.3 to the room in the east.
  const Box room{1, 1, 5, 4};
  Lengths lengths;
  lengths.width = 0.9;
  lengths.away = 0.5;
  lengths.end = 'e';
  const auto gap = along_wall(room, 's', lengths, lengths.width, 0.4);
  REQUIRE(gap);
  CHECK(gap->left == Approx(3.6));
  CHECK(gap->right == Approx(4.5));
  CHECK(gap->low == Approx(0.6));
  CHECK(gap->high == Approx(1));
  // A wall in the south has no south end; and nothing is longer than its wall.
  lengths.end = 's';
  CHECK_FALSE(along_wall(room, 's', lengths, lengths.width, 0.4));
  CHECK(along_wall(room, 'e', lengths, 2.5, 0.4));
  CHECK_FALSE(along_wall(room, 'e', lengths, 2.6, 0.4));
  const Box stretch = *along_wall(room, 'e', lengths, 0.9, 0);
  const std::vector<Box> beyond{{0.6, 0.6, 9, 4.4}, {5.3, 1, 8, 4}};
  CHECK(thickness(room, 'e', stretch, beyond) == Approx(0.3));
  CHECK(thickness(room, 'w', stretch, beyond) == Approx(0.4));
  CHECK(thickness(room, 'e', stretch, {}) == Approx(0.3));
  CHECK(metres_in("950 mm") == Approx(0.95));
  CHECK_FALSE(metres_in("two paces"));
  CHECK(side_in("west wall") == 'w');
  CHECK_FALSE(side_in("niche"));
}
