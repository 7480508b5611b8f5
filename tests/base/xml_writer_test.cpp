// XML that is written must come back from an independent reader as it was given.
#include "core/base/xml_writer.hpp"

#include <libxml/parser.h>
#include <libxml/tree.h>

#include <catch2/catch.hpp>
#include <fstream>
#include <memory>
#include <sstream>

#include "core/base/error.hpp"
#include "core/base/text.hpp"

using namespace lathbook;

namespace {

using Layout = XmlWriter::Layout;
const std::string head = "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n";

template <typename Work>
std::string written(Layout layout, const Work& work) {
  std::ostringstream out;
  XmlWriter xml(out, layout);
  work(xml);
  xml.finish();
  REQUIRE(out.str().substr(0, head.size()) == head);
  return out.str().substr(head.size());
}

struct Back {
  std::string attribute;
  std::string text;
};

Back read_back(const std::string& document) {
  const std::unique_ptr<xmlDoc, void (*)(xmlDocPtr)> doc(
      xmlReadMemory(document.data(), static_cast<int>(document.size()), nullptr, nullptr,
                    XML_PARSE_NONET | XML_PARSE_NOERROR | XML_PARSE_NOWARNING),
      &xmlFreeDoc);
  REQUIRE(doc != nullptr);
  const auto take = [](xmlChar* taken) {
    const std::string copy = taken != nullptr ? reinterpret_cast<const char*>(taken) : "";
    xmlFree(taken);
    return copy;
  };
  const xmlNodePtr root = xmlDocGetRootElement(doc.get());
  return {take(xmlGetProp(root, reinterpret_cast<const xmlChar*>("a"))), take(xmlNodeGetContent(root))};
}

}  // namespace

TEST_CASE("elements are laid out by line") {
  const auto work = [](XmlWriter& xml) {
    xml.start("archive").attribute("version", "1");
    xml.start("room").element("name", "Hall").empty("seen").end();
    xml.start("note").text("see ").element("em", "the").text(" hearth").end();
    xml.start("plain").text("").end();
    xml.end();
  };
  CHECK(written(Layout::indented, work) ==
        "<archive version=\"1\">\n  <room>\n    <name>Hall</name>\n    <seen/>\n  </room>\n"
        "  <note>see <em>the</em> hearth</note>\n  <plain></plain>\n</archive>\n");
  CHECK(written(Layout::compact, work) ==
        "<archive version=\"1\"><room><name>Hall</name><seen/></room>"
        "<note>see <em>the</em> hearth</note><plain></plain></archive>\n");
}

// T. Bray and others: Extensible Markup Language (XML) 1.0, fifth edition, W3C 2008, sections 2.4
// (escaping), 2.11 (line ends) and 3.3.3 (attribute values): what a reader would change goes as a number.
TEST_CASE("marks, line ends and tabs are escaped") {
  const std::string all = "a&b<c>d\"e'f\tg\nh\r\ni]]>";
  CHECK(
      written(Layout::compact, [&](XmlWriter& xml) { xml.start("x").attribute("a", all).text(all).end(); }) ==
      "<x a=\"a&amp;b&lt;c&gt;d&quot;e'f&#9;g&#10;h&#13;&#10;i]]&gt;\">"
      "a&amp;b&lt;c&gt;d\"e'f\tg\nh&#13;\ni]]&gt;</x>\n");
}

TEST_CASE("every character XML allows comes back from libxml2") {
  // In runs, so that the neighbours vary.
  for (char32_t first = 1; first <= 0x10ffff; first += 4096) {
    std::string run = "x";
    for (char32_t c = first; c < first + 4096 && c <= 0x10ffff; ++c) {
      const std::string one = utf8(std::u32string(1, c));
      if (XmlWriter::can_hold(one) && (c < 0xd800 || c > 0xdfff)) run += one;
    }
    std::ostringstream out;
    XmlWriter xml(out, Layout::indented);
    xml.start("x").attribute("a", run).text(run).end().finish();
    const Back back = read_back(out.str());
    if (back.attribute != run || back.text != run) FAIL("the run from U+" << std::hex << unsigned(first));
  }
}

// The same, section 2.2, production 2 (Char): the ends of each range and their neighbours.
TEST_CASE("what XML cannot hold is refused, with its place") {
  for (const char32_t c : {0x9U, 0xaU, 0xdU, 0x20U, 0xd7ffU, 0xe000U, 0xfffdU, 0x10000U, 0x10ffffU}) {
    CHECK(XmlWriter::can_hold(utf8(std::u32string(1, c))));
  }
  for (const char32_t c : {0x0U, 0x1U, 0x8U, 0xbU, 0xcU, 0xeU, 0x1fU, 0xfffeU, 0xffffU}) {
    CHECK_FALSE(XmlWriter::can_hold(utf8(std::u32string(1, c))));
  }
  CHECK_FALSE(XmlWriter::can_hold("\xed\xa0\x80"));
  std::ostringstream out;
  XmlWriter xml(out);
  xml.start("x");
  CHECK_THROWS_WITH(xml.text("ab\x0b"), Catch::Contains("offset 2") && Catch::Contains("U+000B"));
  CHECK_THROWS_WITH(xml.attribute("a", "\xe9t\xe9"), Catch::Contains("0xE9") && Catch::Contains("“a”"));
  CHECK_THROWS_WITH(xml.element("e", utf8(U"\xfffe")), Catch::Contains("U+FFFE"));
  xml.text("fine").end().finish();
  CHECK(out.str() == head + "<x>fine</x>\n");
}

TEST_CASE("names and order are checked") {
  std::ostringstream out;
  XmlWriter xml(out);
  CHECK_THROWS_AS(xml.text("x"), Error);
  CHECK_THROWS_AS(xml.end(), Error);
  CHECK_THROWS_AS(xml.finish(), Error);
  CHECK_THROWS_AS(xml.attribute("a", "x"), Error);
  for (const char* bad : {"", "1a", "-a", "a b", "a:", ":a", "a:b:c", "a:1", "é", "a>", "a\"", "a/"}) {
    INFO(bad);
    CHECK_THROWS_AS(xml.start(bad), Error);
  }
  xml.start("xlink:href_1.x-y").attribute("a", "1");
  CHECK_THROWS_WITH(xml.attribute("a", "2"), Catch::Contains("twice"));
  xml.text("x");
  CHECK_THROWS_WITH(xml.attribute("b", "2"), Catch::Contains("too late"));
  CHECK_THROWS_WITH(xml.finish(), Catch::Contains("still open"));
  xml.end();
  CHECK_THROWS_WITH(xml.start("second"), Catch::Contains("outermost"));
  CHECK(xml.depth() == 0);
  xml.finish();
  CHECK_THROWS_AS(xml.finish(), Error);
}

TEST_CASE("a full disk is noticed while XML is written") {
  std::ofstream full("/dev/full", std::ios::binary);
  REQUIRE(full);
  XmlWriter small(full);
  CHECK_THROWS_WITH(small.empty("x").finish(), Catch::Contains("disk full"));
  std::ofstream full_again("/dev/full", std::ios::binary);
  XmlWriter large(full_again);
  large.start("x");
  const auto fill = [&large] {
    for (int i = 0; i < 100000; ++i) large.element("y", "some words of a statement");
  };
  CHECK_THROWS_AS(fill(), Error);
}
