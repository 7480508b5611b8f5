// Tests of the sheet: every date has notes and reasons, every note a full source, nothing slips past the
// reader.
#include <libxml/parser.h>
#include <libxml/xpath.h>

#include <catch2/catch.hpp>
#include <functional>
#include <regex>
#include <sstream>

#include "core/base/error.hpp"
#include "plugins/sheet/content.hpp"
#include "plugins/sheet/write.hpp"
#include "tests/sheet/small_room.hpp"
#include "tests/support/support.hpp"

using namespace lathbook;
using namespace lathbook::sheet;
using lathbook::test::SmallRoom;

namespace {

Sheet sheet_of(const SmallRoom& room) {
  return build_sheet(Snapshot(room.reader), room.timeline);
}

std::string text_of(const Sheet& sheet, bool reasons = false) {
  std::ostringstream out;
  write_text(sheet, out, 80, reasons);
  return out.str();
}
std::string html_of(const Sheet& sheet) {
  std::ostringstream out;
  write_html(sheet, out);
  return out.str();
}
std::string json_of(const Sheet& sheet) {
  std::ostringstream out;
  write_json(sheet, out);
  return out.str();
}

void each_entry(const std::vector<Entry>& entries, const std::function<void(const Sentence&)>& on_sentence) {
  for (const Entry& entry : entries) {
    on_sentence(entry.head);
    for (const Sentence& more : entry.more) on_sentence(more);
  }
}

void each_sentence(const Sheet& sheet, const std::function<void(const Sentence&)>& on_sentence) {
  for (const auto* list : {&sheet.names, &sheet.uses, &sheet.rulings, &sheet.cautions})
    for (const Sentence& one : *list) on_sentence(one);
  for (const Chapter& chapter : sheet.phases) {
    for (const Sentence& one : chapter.opening) on_sentence(one);
    for (const Group& group : chapter.groups) each_entry(group.entries, on_sentence);
  }
  for (const auto* list : {&sheet.outside, &sheet.undated, &sheet.pieces}) each_entry(*list, on_sentence);
  for (const Contradiction& one : sheet.contradictions) {
    on_sentence(one.head);
    for (const Sentence& beside : one.beside) on_sentence(beside);
  }
  for (const Tick& tick : sheet.drawing.ticks) on_sentence(tick.sentence);
}

/// The page parsed as XML; closed at the end.
class Parsed {
public:
  explicit Parsed(const std::string& page)
      : document_(xmlReadMemory(page.data(), static_cast<int>(page.size()), "page", "UTF-8",
                                XML_PARSE_NONET | XML_PARSE_NOERROR | XML_PARSE_NOWARNING)) {}
  ~Parsed() { xmlFreeDoc(document_); }
  Parsed(const Parsed&) = delete;
  Parsed& operator=(const Parsed&) = delete;
  bool well_formed() const { return document_ != nullptr; }
  std::vector<std::string> values(const std::string& path) const {
    std::vector<std::string> found;
    xmlXPathContext* context = xmlXPathNewContext(document_);
    xmlXPathObject* result = xmlXPathEvalExpression(reinterpret_cast<const xmlChar*>(path.c_str()), context);
    for (int at = 0; result && result->nodesetval && at < result->nodesetval->nodeNr; ++at) {
      xmlChar* content = xmlNodeGetContent(result->nodesetval->nodeTab[at]);
      found.emplace_back(reinterpret_cast<const char*>(content));
      xmlFree(content);
    }
    xmlXPathFreeObject(result);
    xmlXPathFreeContext(context);
    return found;
  }

private:
  xmlDoc* document_;
};

}  // namespace

TEST_CASE("no sentence tells a date without a note") {
  const SmallRoom room;
  const Sheet sheet = sheet_of(room);
  const std::regex year("(1[0-9]{3}|20[0-9]{2})");
  int with_year = 0;
  each_sentence(sheet, [&](const Sentence& sentence) {
    const std::string words = sentence.words();
    INFO(words);
    if (std::regex_search(words, year)) {
      ++with_year;
      CHECK_FALSE(sentence.notes.empty());
    }
    for (const Part& part : sentence.parts)
      if (part.why) {
        const Why& why = sheet.whys.at(*part.why);
        CHECK(why.earliest.steps.size() + why.latest.steps.size() > 0);
      }
    for (const int note : sentence.notes) {
      CHECK(note >= 1);
      CHECK(note <= static_cast<int>(sheet.notes.size()));
    }
  });
  CHECK(with_year > 10);
}

TEST_CASE("each note ends in a whole source") {
  const SmallRoom room;
  const Sheet sheet = sheet_of(room);
  REQUIRE_FALSE(sheet.notes.empty());
  for (std::size_t at = 0; at < sheet.notes.size(); ++at) {
    const Note& note = sheet.notes[at];
    CHECK(note.number == static_cast<int>(at) + 1);
    const Note& whole = note.full_in ? sheet.notes.at(static_cast<std::size_t>(*note.full_in) - 1) : note;
    INFO(whole.words);
    CHECK_FALSE(whole.full_in.has_value());
    CHECK(whole.number <= note.number);
    CHECK(whole.words.find("Port Ellery Athenaeum") != std::string::npos);
  }
}

TEST_CASE("certain and possible members are told apart") {
  const SmallRoom room;
  const Sheet sheet = sheet_of(room);
  REQUIRE(sheet.phases.size() == 2);
  const auto group = [&](std::size_t phase, const std::string& label) -> const Group* {
    for (const Group& one : sheet.phases[phase].groups)
      if (one.label == label) return &one;
    return nullptr;
  };
  REQUIRE(group(0, "Put in, surely"));
  CHECK(group(0, "Put in, surely")->entries.size() == 2);
  CHECK_FALSE(group(0, "Put in, possibly"));
  REQUIRE(group(0, "Taken out, possibly"));
  CHECK_FALSE(group(0, "Taken out, surely"));
  REQUIRE(group(1, "Covered up, surely"));
  CHECK(group(1, "Covered up, surely")->entries.front().head.words() ==
        "The sea-green tile (N-203) was covered by the ivory tile (N-204), which came between 12 June 1924 "
        "and 1926 (probable; contested).");
  REQUIRE(sheet.undated.size() == 1);
  CHECK(sheet.undated.front().head.words() == "The skirting (E-202.09).");
  CHECK(sheet.undated.front().more.front().words() == "Marked for the Chart Room; fit not tested.");
}

TEST_CASE("a contradiction is told on both sides with its size") {
  const SmallRoom room;
  const Sheet sheet = sheet_of(room);
  REQUIRE(sheet.contradictions.size() == 1);
  const Contradiction& clash = sheet.contradictions.front();
  CHECK(clash.one_side.size() == 2);
  REQUIRE(clash.set_aside.size() == 1);
  CHECK(clash.set_aside.front().words == "H. Odell says that the ivory tile (N-204) stood by July 1914");
  // 31 July 1914 to 12 June 1924: ten years (3,653 days, two of the leap days 1916 and 1920 and that of 1924
  // within) less 49 days. Counted by hand.
  CHECK(clash.clash == "They miss each other by about 9 years and 10 months (3,604 days).");
  CHECK(clash.proposal.find("nobody has ruled") != std::string::npos);
  bool invoice = false;
  for (const Sentence& beside : clash.beside)
    invoice = invoice || beside.words().find("Invoice of Rusk & Son") != std::string::npos;
  CHECK(invoice);
}

TEST_CASE("the page is well-formed, whole and links only to itself") {
  const SmallRoom room;
  const std::string page = html_of(sheet_of(room));
  CHECK(page.starts_with("<!DOCTYPE html>\n<html "));
  const Parsed parsed(page);
  REQUIRE(parsed.well_formed());
  CHECK(parsed.values("//*[local-name()='script' or local-name()='link' or local-name()='img' or @src]")
            .empty());
  std::vector<std::string> ids = parsed.values("//@id");
  std::sort(ids.begin(), ids.end());
  CHECK(std::adjacent_find(ids.begin(), ids.end()) == ids.end());
  const auto links = parsed.values("//@href");
  CHECK(links.size() > 20);
  for (const std::string& link : links) {
    INFO(link);
    CHECK((link.starts_with('#') && std::binary_search(ids.begin(), ids.end(), link.substr(1))));
  }
  // W3C, 'Scalable Vector Graphics (SVG) 2', 2018, section 5.8: title is the first child and names the whole.
  CHECK(parsed.values("//*[local-name()='svg']/*[1][local-name()='title']").size() == 2);
  CHECK(parsed.values("//*[local-name()='svg']/*[2][local-name()='desc']").size() == 2);
  for (const std::string& named : parsed.values("//*[local-name()='svg']/@aria-labelledby"))
    for (const std::string& id : split(named, ' ')) CHECK(std::binary_search(ids.begin(), ids.end(), id));
  CHECK(parsed.values("//*[local-name()='table']//*[local-name()='tr']").size() == 5);
  // What the style sheet holds must mean the same to HTML, where nothing in it is an escape.
  const auto style = parsed.values("//*[local-name()='style']");
  REQUIRE(style.size() == 1);
  CHECK(page.find(style.front()) != std::string::npos);
  CHECK(style.front().find("url(") == std::string::npos);
  CHECK(style.front().find("@import") == std::string::npos);
}

TEST_CASE("many things are drawn in parts that fit a sheet of paper") {
  SmallRoom room;
  const TimelineItem item = room.timeline.items.front();
  for (int more = 0; more < 97; ++more) room.timeline.items.push_back(item);
  // 100 dated things: three of the small room and 97 more; 42 rows a part make three parts in two sizes.
  const Parsed parsed(html_of(sheet_of(room)));
  REQUIRE(parsed.well_formed());
  CHECK(parsed.values("//*[local-name()='svg']").size() == 6);
  CHECK(parsed.values("//*[local-name()='svg'][@class='wide']/*[local-name()='text'][starts-with(.,'N-203')]")
            .size() == 98);
  std::vector<std::string> ids = parsed.values("//@id");
  std::sort(ids.begin(), ids.end());
  CHECK(std::adjacent_find(ids.begin(), ids.end()) == ids.end());
}

TEST_CASE("every computed date of the page unfolds once into its reasons") {
  const SmallRoom room;
  const Sheet sheet = sheet_of(room);
  const Parsed parsed(html_of(sheet));
  REQUIRE(parsed.well_formed());
  const auto reasons = parsed.values("//*[local-name()='details']/*[@class='chain']/@id");
  CHECK(reasons.size() == sheet.whys.size());
}

TEST_CASE("hostile names stay words") {
  SmallRoom room;
  room.reader.say(room.room, "use",
                  "\"><script>alert(1)</script> & ]]> \xE2\x80\xAE"
                  "desrever");
  const Sheet sheet = sheet_of(room);
  const std::string page = html_of(sheet);
  const Parsed parsed(page);
  REQUIRE(parsed.well_formed());
  CHECK(parsed.values("//*[local-name()='script']").empty());
  CHECK(page.find("<script") == std::string::npos);
  for (const std::string& form : {page, text_of(sheet), json_of(sheet)})
    CHECK(form.find("\xE2\x80\xAE") == std::string::npos);
}

TEST_CASE("nothing is shown that the reader does not give") {
  SmallRoom room;
  const std::string canary = "canarywharf";
  TimelineItem& item = room.timeline.items.front();
  item.begins.earliest.reason.push_back({sha256("a private statement"), "the tile bears " + canary});
  item.remarks.push_back({sha256("another"), canary});
  TimelineItem hidden = item;
  hidden.record = {uuid_from_name(canary), Kind::element, canary, canary};
  hidden.last_seen = canary;
  room.timeline.items.push_back(hidden);
  TimelinePhase phase = room.timeline.phases.front();
  phase.record = {uuid_from_name("x"), Kind::phase, canary, canary};
  room.timeline.phases.push_back(phase);
  TimelineConflict& clash = room.timeline.conflicts.front();
  clash.statements.push_back({sha256("a third"), canary});
  clash.words = canary;
  room.timeline.settings.push_back({sha256("a fourth"), canary});
  room.timeline.set_aside_by_ruling.push_back(canary);
  room.timeline.items[1].type = canary;
  room.timeline.items[1].material = canary;
  room.timeline.items[1].record.name = canary;
  const Sheet sheet = sheet_of(room);
  for (const std::string& form : {html_of(sheet), text_of(sheet, true), json_of(sheet)}) {
    CHECK(form.find(canary) == std::string::npos);
    CHECK(form.find("does not give") != std::string::npos);
    CHECK(form.find("3 statements are withheld; dates may be narrower in the private archive.") !=
          std::string::npos);
  }
}

TEST_CASE("an end that nothing fixes is not told as a removal") {
  SmallRoom room;
  for (TimelineItem& item : room.timeline.items)
    for (PhasePart& part : item.phases) part.removed = Membership::possible;
  const Sheet sheet = sheet_of(room);
  for (const Chapter& chapter : sheet.phases)
    for (const Group& group : chapter.groups)
      if (group.sort == "taken-out") {
        REQUIRE(group.entries.size() == 1);
        CHECK(sheet.things[group.entries.front().thing].code == "E-202.05");
      }
}

TEST_CASE("the small room in the terminal, word for word") {
  const SmallRoom room;
  const std::string path = std::string(LATHBOOK_SOURCE_DIR) + "/tests/sheet/small_room.txt";
  CHECK(text_of(sheet_of(room), true) == test::read_file(path));
}

TEST_CASE("a place that is not in the reading is refused") {
  SmallRoom room;
  room.timeline.scope.id = uuid_from_name("nowhere");
  CHECK_THROWS_AS(sheet_of(room), Error);
}
