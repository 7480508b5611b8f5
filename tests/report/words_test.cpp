// Rules for words, and drawings: what needs no archive.
#include <libxml/parser.h>
#include <catch2/catch.hpp>

#include "core/base/error.hpp"
#include "core/base/text.hpp"
#include "plugins/report/ink.hpp"
#include "plugins/report/phrases.hpp"
#include "tests/report/words.hpp"

using namespace lathbook;
using namespace lathbook::report;
using test::known;

TEST_CASE("a name that ends with a full stop ends the sentence") {
  CHECK(as_sentence("Made by Wren & Co.").words() == "Made by Wren & Co.");
  CHECK(as_sentence("Made by Wren & Co..").words() == "Made by Wren & Co.");
  CHECK(as_sentence("made by " + telling(kMaker, "Wren & Co.") + ".").words() == "Made by Wren & Co.");
}

TEST_CASE("the words of a date follow from its bounds and its evidence") {
  Span span;
  const auto says = [&] { return without_marks(when(span)); };
  CHECK(says().empty());
  span.latest = known(1911, 12, 31);
  CHECK(says() == " by 1911");
  span.earliest = known(1888, 1, 1, Level::probable);
  CHECK(says() == " between 1888 and 1911");
  CHECK(surely(span) == "probably ");
  span.latest = {};
  CHECK(says() == " in or after 1888");
  span.earliest = known(1924, 6, 12);
  CHECK(says() == " on or after 12 June 1924");
  CHECK(surely(span).empty());
  span.latest = known(1924, 6, 12, Level::possible);
  CHECK(says() == " on 12 June 1924");
  CHECK(surely(span) == "possibly ");
  span.earliest = known(1924, 6, 1);
  span.latest = known(1924, 6, 30);
  CHECK(says() == " in June 1924");
  span.earliest = known(1924, 6, 12);
  span.latest = known(1924, 12, 31);
  CHECK(says() == " between 12 June 1924 and 31 December 1924");
  span.latest.leaned = true;
  CHECK(says() == " between 12 June 1924 and 31 December 1924 (contested)");
  span.latest.leaned = false;
  span.parts = {{days_from_civil(1924, 7, 1), days_from_civil(1924, 7, 31)},
                {days_from_civil(1924, 12, 1), days_from_civil(1924, 12, 31)}};
  CHECK(says() == " in July 1924, or in December 1924");
}

TEST_CASE("plurals, lists and choices come from the table of words") {
  CHECK(phrase("pieces", {{"n", std::int64_t{1}},
                          {"thing", "the sill"},
                          {"of", "yes"},
                          {"codes", "P-1"},
                          {"state", choice("on bench")},
                          {"container", ""},
                          {"held", "no"}}) == "One piece of the sill, P-1, is on the bench.");
  CHECK(phrase("pieces", {{"n", std::int64_t{12}},
                          {"thing", "the field"},
                          {"of", "yes"},
                          {"codes", "P-1–12"},
                          {"state", choice("in container")},
                          {"container", "crate 1"},
                          {"held", "yes"}}) == "12 pieces of the field, P-1–12, are in crate 1.");
  CHECK(choice("in container") == "incontainer");
  CHECK(choice("") == "other");
  CHECK_THROWS_AS(phrase("no such key"), Error);
}

TEST_CASE("what a sentence asserts survives the pattern") {
  const Sentence one = sentence("put-in.together", {{"names", "the sill"},
                                                    {"be", "was "},
                                                    {"surely", ""},
                                                    {"verb", "fixed"},
                                                    {"when", " " + telling(kDate, "in 1924")},
                                                    {"how", ""},
                                                    {"reason", ""}});
  CHECK(one.words() == "The sill was fixed in 1924.");
  CHECK(one.tells() == kDate);
  const Sentence linked = as_sentence("see " + pointing("there", "part " + telling(kCount, "3")));
  REQUIRE(linked.runs.size() == 4);
  CHECK(linked.runs[0].link.empty());
  CHECK(linked.runs[1].link == "there");
  CHECK(linked.runs[2].link == "there");
  CHECK(linked.runs[2].tells == kCount);
  CHECK(linked.runs[3].link.empty());
  CHECK(without_marks(pointing("there", "part 3")) == "part 3");
}

TEST_CASE("a drawing is well-formed, and has a title, a description and no colour alone") {
  Ink ink(400, "A <title>", "What & what not");
  for (const Level level : {Level::certain, Level::probable, Level::possible}) {
    ink.bar(10, 90, 10, 30, Ink::hatch(level), true, false);
    ink.bar(100, 190, 10, 30, Ink::solid(level), false, false);
  }
  ink.words(0, 50, 20, "Sill & tread");
  const std::string svg = ink.svg(100);
  xmlDoc* document = xmlReadMemory(svg.data(), static_cast<int>(svg.size()), "ink", nullptr, XML_PARSE_NONET);
  REQUIRE(document != nullptr);
  const xmlNode* root = xmlDocGetRootElement(document);
  REQUIRE(root->children != nullptr);
  CHECK(std::string(reinterpret_cast<const char*>(root->children->name)) == "title");
  CHECK(std::string(reinterpret_cast<const char*>(root->children->next->name)) == "desc");
  xmlFreeDoc(document);
  // Hatchings are lines of their own, so they print where patterns do not.
  CHECK(svg.find("<path") != std::string::npos);
  CHECK(svg.find("pattern") == std::string::npos);
  CHECK(Ink::cut("A very long name of a part of a house", 100, 20).size() < 14);
}
