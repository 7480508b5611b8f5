// The two forms, held against other people's programs: XML and RELAX NG readers, a browser with axe-core,
// LibreOffice.
#include <libxml/parser.h>
#include <libxml/xpath.h>
#include <catch2/catch.hpp>

#include <cctype>
#include <filesystem>
#include <memory>
#include <set>

#include "core/base/text.hpp"
#include "plugins/report/chicago.hpp"
#include "plugins/report/write.hpp"
#include "tests/report/fairlead.hpp"
#include "tests/support/browser.hpp"

using namespace lathbook;
using namespace lathbook::report;
namespace fs = std::filesystem;

namespace {

struct FreeDocument {
  void operator()(xmlDoc* document) const { xmlFreeDoc(document); }
};
using Xml = std::unique_ptr<xmlDoc, FreeDocument>;

Xml parse(const std::string& bytes) {
  return Xml(xmlReadMemory(bytes.data(), static_cast<int>(bytes.size()), "report", nullptr,
                           XML_PARSE_NONET | XML_PARSE_HUGE));
}

std::vector<std::string> values(xmlDoc* document, const char* path) {
  std::vector<std::string> found;
  const std::unique_ptr<xmlXPathContext, void (*)(xmlXPathContext*)> context(xmlXPathNewContext(document),
                                                                             xmlXPathFreeContext);
  const std::unique_ptr<xmlXPathObject, void (*)(xmlXPathObject*)> result(
      xmlXPathEvalExpression(reinterpret_cast<const xmlChar*>(path), context.get()), xmlXPathFreeObject);
  if (!result || result->nodesetval == nullptr) return found;
  for (int at = 0; at < result->nodesetval->nodeNr; ++at) {
    xmlChar* text = xmlNodeGetContent(result->nodesetval->nodeTab[at]);
    found.emplace_back(reinterpret_cast<const char*>(text));
    xmlFree(text);
  }
  return found;
}

/// Letters and digits alone: a printed page breaks lines where it likes.
std::string letters(const std::string& text) {
  std::string out;
  for (const char c : text)
    if (static_cast<unsigned char>(c) >= 0x80 || std::isalnum(static_cast<unsigned char>(c))) out += c;
  return out;
}

const std::string& page() {
  static const std::string html = [] {
    test::lathbook_says({"report", "FL-H", (test::fairlead().folder / "report.html").string()});
    return test::read_file(test::fairlead().folder / "report.html");
  }();
  return html;
}

const fs::path& text_document() {
  static const fs::path path = [] {
    const fs::path made = test::fairlead().folder / "report.odt";
    test::lathbook_says({"report", "FL-H", made.string()});
    return made;
  }();
  return path;
}

std::string member(const std::string& name) {
  const test::Ran ran = test::run({"unzip", "-p", text_document().string(), name});
  REQUIRE(ran.code == 0);
  return ran.out;
}

}  // namespace

TEST_CASE("the page is well-formed, its links and notes lead somewhere") {
  const std::string doctype = "<!DOCTYPE html>\n";
  REQUIRE(page().starts_with(doctype));
  const Xml document = parse(page().substr(doctype.size()));
  REQUIRE(document);
  std::set<std::string> ids;
  for (const std::string& id : values(document.get(), "//@id")) CHECK(ids.insert(id).second);
  const auto links = values(document.get(), "//*[local-name()='a']/@href");
  CHECK(links.size() > 500);
  for (const std::string& link : links) {
    REQUIRE(link.starts_with("#"));
    CHECK(ids.count(link.substr(1)) == 1);
  }
  const auto pictures = values(document.get(), "//*[local-name()='img']");
  CHECK(pictures.size() > 20);
  CHECK(values(document.get(), "//*[local-name()='img'][string-length(@alt) > 20]").size() ==
        pictures.size());
  CHECK(values(document.get(), "//*[local-name()='img'][starts-with(@src, 'data:')]").size() ==
        pictures.size());
  CHECK(page().find("href=\"http") == std::string::npos);
}

TEST_CASE("axe-core finds nothing to complain of in the page") {
  const fs::path axe = fs::path(LATHBOOK_SOURCE_DIR) / "tests/browser/node_modules/axe-core/axe.min.js";
  if (!fs::exists(axe)) {
    WARN("axe-core is not installed (npm ci in tests/browser): the page is not tested for accessibility");
    return;
  }
  std::string rules = test::read_file(axe);
  for (std::size_t at = 0; (at = rules.find("</script", at)) != std::string::npos; ++at)
    rules.insert(at + 1, "\\");
  // The page as on a phone; then the same judge must find what is wrong on purpose.
  const std::string asks =
      "const wide = doc.documentElement.scrollWidth;"
      "return view.axe.run(doc, {resultTypes: ['violations']}).then(found => {"
      "  const said = found.violations.map(one => one.id + ': ' + one.nodes[0].html).join('; ');"
      "  const wrong = doc.createElement('img');"
      "  wrong.src = 'data:,';"
      "  doc.body.appendChild(wrong);"
      "  return view.axe.run(doc, {runOnly: ['image-alt']}).then(again => 'wide ' + wide + ', violations ' +"
      "    found.violations.length + ', on purpose ' + again.violations.length + '. ' + said);"
      "});";
  // Two rooms have every kind of part that a page can have, and are judged in a few seconds.
  const fs::path rooms = test::fairlead().folder / "rooms.html";
  test::lathbook_says({"report", "FL-H", rooms.string(), "--rooms", "105,202"});
  std::string html = test::read_file(rooms);
  html.insert(html.find("</head>"), "<script>" + rules + "</script>");
  test::write_file(rooms, html);
  const auto answer = test::in_browser(rooms, 360, asks);
  if (!answer) {
    WARN("there is no browser here: the page is not tested for accessibility");
    return;
  }
  CHECK(*answer == "wide 360, violations 0, on purpose 1. ");
}

TEST_CASE("the text document is packed as OpenDocument wants it, and valid") {
  const std::string bytes = test::read_file(text_document());
  // OpenDocument 1.3, part 2, 3.3: the type stands in clear at the thirty-ninth byte.
  REQUIRE(bytes.size() > 100000);
  CHECK(bytes.substr(30, 8) == "mimetype");
  CHECK(bytes.substr(38, 39) == "application/vnd.oasis.opendocument.text");
  if (!test::can_run("unzip")) return;
  if (test::standards().empty() || !test::can_run("xmllint")) {
    WARN("no folder of standards: the document is not validated");
    return;
  }
  const fs::path schemas = test::standards() / "odf";
  const auto fits = [&](const std::string& name, const std::string& xml, const std::string& schema) {
    const fs::path file = test::fairlead().folder / name;
    test::write_file(file, xml);
    return test::run({"xmllint", "--nonet", "--huge", "--noout", "--relaxng", (schemas / schema).string(),
                      file.string()})
               .code == 0;
  };
  const std::string content = member("content.xml");
  CHECK(fits("content.xml", content, "OpenDocument-v1.3-schema.rng"));
  CHECK(fits("styles.xml", member("styles.xml"), "OpenDocument-v1.3-schema.rng"));
  CHECK(fits("meta.xml", member("meta.xml"), "OpenDocument-v1.3-schema.rng"));
  CHECK(fits("manifest.xml", member("META-INF/manifest.xml"), "OpenDocument-v1.3-manifest-schema.rng"));
  // A document that is wrong on purpose must not pass.
  std::string wrong = content;
  const std::string body = "<text:note-body>";
  REQUIRE(wrong.find(body) != std::string::npos);
  wrong.replace(wrong.find(body), body.size(), "<text:note-bodies>");
  CHECK_FALSE(fits("wrong.xml", wrong, "OpenDocument-v1.3-schema.rng"));
}

TEST_CASE("LibreOffice opens the text document with every note and picture in place") {
  if (!test::can_run("soffice") || !test::can_run("pdftotext") || !test::can_run("pdfimages")) return;
  const fs::path folder = test::fairlead().folder.path();
  const test::Ran ran =
      test::run({"soffice", "-env:UserInstallation=file://" + (folder / "office").string(), "--headless",
                 "--convert-to", "pdf", "--outdir", folder.string(), text_document().string()});
  REQUIRE(fs::exists(folder / "report.pdf"));
  CAPTURE(ran.err);
  const std::string printed = letters(test::run({"pdftotext", (folder / "report.pdf").string(), "-"}).out);
  const Document& document = test::whole_house();
  std::size_t missing = 0;
  for (const Note& note : document.notes) {
    // Notes may run over a page: their first words are looked for.
    for (const CitedPlace& place : note.places)
      if (printed.find(letters(plain(place.words)).substr(0, 24)) == std::string::npos) ++missing;
  }
  CHECK(document.notes.size() > 100);
  CHECK(missing == 0);
}

TEST_CASE("what is private in the sample is in no public report, and is counted on the first page") {
  const std::string all = page() + (test::can_run("unzip") ? member("content.xml") : std::string());
  for (const char* words : {"Quenby", "Harbottle", "Penhallow", "alarm panel", "bench drawer", "third pallet",
                            "biscuit tin", "locked mesh", "charged for taking it out"}) {
    CAPTURE(words);
    CHECK(all.find(words) == std::string::npos);
  }
  CHECK(page().find("statements are withheld from this report") != std::string::npos);
  const std::string owner = test::lathbook_says({"--with-private", "report", "FL-H", "-", "--form", "html"});
  CHECK(owner.find("alarm panel") != std::string::npos);
  CHECK(owner.find("Do not pass it on") != std::string::npos);
}

TEST_CASE("the same archive gives the same bytes") {
  const fs::path folder = test::fairlead().folder.path();
  for (const std::string name : {"again.html", "again.odt"}) {
    test::lathbook_says({"report", "FL-H", (folder / name).string()});
    CHECK(test::read_file(folder / name) ==
          (name == "again.html" ? page() : test::read_file(text_document())));
  }
}

TEST_CASE("what cannot be reported on is refused in a sentence") {
  const auto says = [](std::vector<std::string> arguments) {
    arguments.insert(arguments.begin(), {test::program(), "--archive",
                                         (test::fairlead().folder / "archive").string(), "report"});
    const test::Ran ran = test::run(arguments);
    CHECK(ran.code != 0);
    return ran.err;
  };
  const std::string file = (test::fairlead().folder / "no.html").string();
  CHECK(says({"FL-H", "report.docx"}).find("end it in .html or .odt") != std::string::npos);
  CHECK(says({"FL-H", file, "--rooms", "999"}).find("999") != std::string::npos);
  CHECK(says({"FL-H", file, "--order", "upside-down"}).find("history-first") != std::string::npos);
  CHECK(says({"NOWHERE", file}).find("NOWHERE") != std::string::npos);
  CHECK_FALSE(fs::exists(file));
}
