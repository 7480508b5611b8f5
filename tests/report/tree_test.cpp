// What must hold of every report, whatever form it is written in.
#include <algorithm>
#include <catch2/catch.hpp>
#include <map>
#include <regex>
#include <set>

#include "core/base/text.hpp"
#include "core/view/views.hpp"
#include "core/view/words.hpp"
#include "plugins/report/chicago.hpp"
#include "plugins/report/tree_walk.hpp"
#include "tests/report/fairlead.hpp"
#include "tests/report/words.hpp"

using namespace lathbook;
using namespace lathbook::report;

namespace {

/// Names of records hold years of their own ("Works of 1924 to 1926"): they assert nothing here.
std::string without_names(std::string words) {
  static const std::vector<std::string> names = [] {
    std::vector<std::string> all;
    const auto reader = test::fairlead().archive->read({});
    reader->each_record(Kind::unknown, [&](const RecordInfo& info) {
      if (info.name.size() > 3) all.push_back(fold(info.name));
      if (!info.code.empty()) all.push_back("(" + fold(info.code) + ")");
      return true;
    });
    std::sort(all.begin(), all.end(), [](const auto& a, const auto& b) { return a.size() > b.size(); });
    return all;
  }();
  words = fold(words);
  for (const std::string& name : names)
    for (std::size_t at = 0; (at = words.find(name, at)) != std::string::npos;) words.erase(at, name.size());
  return words;
}

std::vector<std::string> makers_and_rooms() {
  std::vector<std::string> names;
  const auto reader = test::fairlead().archive->read({});
  const Snapshot snapshot(*reader);
  snapshot.each(Kind::agent, [&](const RecordView& agent) {
    if (agent.text("agent-type") == "firm") names.push_back(agent.info.name);
  });
  snapshot.each(Kind::place, [&](const RecordView& place) {
    if (place.text("place-type") == "room" && place.info.name.find(' ') != std::string::npos)
      names.push_back(place.info.name + " (" + place.info.code + ")");
  });
  return names;
}

}  // namespace

TEST_CASE("no sentence states a date, maker, room or count without a note") {
  const std::regex date("\\b(1[6-9][0-9][0-9]|20[0-9][0-9])\\b");
  const std::regex count("\\b[0-9]+ pieces\\b");
  const auto names = makers_and_rooms();
  REQUIRE(names.size() > 15);
  std::size_t telling = 0;
  const auto check = [&](const Sentence& one, bool of_the_method) {
    const std::string words = one.words();
    const std::string bare = without_names(words);
    bool tells = one.tells() != kNothing || std::regex_search(bare, date) || std::regex_search(bare, count);
    for (const std::string& name : names) tells = tells || words.find(name) != std::string::npos;
    if (!tells) return;
    ++telling;
    // The first page and the chapter on reckoning speak of the report itself: its day, its authors, its
    // method.
    if (one.of_report && of_the_method) return;
    CAPTURE(words);
    CHECK_FALSE(one.notes.empty());
  };
  for (const Block& block : test::whole_house().front)
    walk::in(block, [&](const Sentence& one) { check(one, true); });
  for (const Chapter& chapter : test::whole_house().chapters)
    for (const Block& block : chapter.blocks)
      walk::in(block, [&](const Sentence& one) { check(one, chapter.anchor == "reckoning"); });
  CHECK(telling > 500);
}

TEST_CASE("no note without a full source") {
  const Document& document = test::whole_house();
  std::set<std::string> full, listed;
  for (const Entry& entry : document.bibliography) {
    listed.insert(entry.source);
    CHECK(plain(entry.words).size() > entry.source.size() + 10);
  }
  int number = 0;
  std::map<std::string, std::size_t> lengths;
  for (const Note& note : document.notes) {
    CHECK(note.number == ++number);
    CHECK((note.places.size() == 1 || note.places.size() > 4));
    for (const CitedPlace& place : note.places) {
      const std::string words = plain(place.words);
      CAPTURE(words);
      CHECK_FALSE(place.source.empty());
      CHECK(words.find("[" + place.source + "]") != std::string::npos);
      if (place.full) CHECK(full.insert(place.source).second);
      CHECK(full.count(place.source) == 1);
      CHECK(listed.count(place.source) == 1);
    }
  }
  CHECK(full == listed);
  std::set<int> cited;
  each_sentence(document, [&](const Sentence& one) {
    CHECK(one.notes.size() <= 4);
    cited.insert(one.notes.begin(), one.notes.end());
  });
  CHECK(cited.size() == document.notes.size());
  CHECK(*cited.rbegin() == static_cast<int>(document.notes.size()));
}

TEST_CASE("what a note cites is a figure, or stands where the bibliography says") {
  const Document& document = test::whole_house();
  std::set<int> figures;
  each_block<Figure>(document, [&](const Figure& one) { figures.insert(one.number); });
  const auto reader = test::fairlead().archive->read({});
  // Who keeps it, under which mark, on which page of the web, or in which publication.
  const auto is_found = [&](const std::string& code) {
    const auto info = reader->record_by_code(code);
    if (!info) return false;
    const SourceView view(RecordView::read(*reader, *info));
    const auto line = std::find_if(document.bibliography.begin(), document.bibliography.end(),
                                   [&](const Entry& one) { return one.source == code; });
    if (line == document.bibliography.end()) return false;
    const std::string words = plain(line->words);
    for (const std::string& where :
         {view.repository, view.shelf_mark, view.published_in, view.record.text("web-page")})
      if (!where.empty() && words.find(where) != std::string::npos) return true;
    return false;
  };
  std::set<std::string> lost;
  for (const Note& note : document.notes)
    for (const CitedPlace& place : note.places) {
      if (place.figure != 0)
        CHECK(figures.count(place.figure) == 1);
      else if (!is_found(place.source))
        lost.insert(place.source);
    }
  CAPTURE(join({lost.begin(), lost.end()}, ", "));
  CHECK(lost.empty());
}

TEST_CASE("notes run in the order of reading") {
  int last = 0;
  each_sentence(test::whole_house(), [&](const Sentence& one) {
    for (const int number : one.notes)
      if (number > last) {
        CHECK(number == last + 1);
        last = number;
      }
  });
}

TEST_CASE("the sample's contradictions are told on both sides") {
  const std::string all = test::words_of(test::whole_house());
  for (const char* words : {"stood by July 1914", "ivory tile",
                            "On the one side:", "On the other side, left out of the dates shown:", "1884",
                            "sewing room", "Second-hand, from her mother's sister"}) {
    CAPTURE(words);
    CHECK(all.find(words) != std::string::npos);
  }
}

TEST_CASE("what is contested points to a contradiction that is told") {
  std::set<std::string> anchors;
  for (const Block& block : test::whole_house().front)
    if (const auto* heading = std::get_if<Heading>(&block)) anchors.insert(heading->anchor);
  for (const Chapter& chapter : test::whole_house().chapters)
    for (const Block& block : chapter.blocks)
      if (const auto* heading = std::get_if<Heading>(&block)) anchors.insert(heading->anchor);
  std::size_t contested = 0, pointed = 0;
  each_sentence(test::whole_house(), [&](const Sentence& one) {
    for (const Run& run : one.runs)
      if (!run.link.empty() && !run.link.starts_with("room-") && run.link != "at-large")
        CHECK(anchors.count(run.link) == 1);
    if (one.words().find("(contested") == std::string::npos) return;
    ++contested;
    CAPTURE(one.words());
    pointed += one.words().find("(contested: see contradiction ") != std::string::npos;
  });
  CHECK(contested > 5);
  CHECK(pointed == contested);
}

TEST_CASE("what was to be seen is told once, and then what changed") {
  std::size_t whole = 0, changes = 0;
  for (const Chapter& chapter : test::whole_house().chapters) {
    bool first = true;
    for (std::size_t at = 0; at + 1 < chapter.blocks.size(); ++at) {
      const auto* heading = std::get_if<Heading>(&chapter.blocks[at]);
      const auto* words = std::get_if<Paragraph>(&chapter.blocks[at + 1]);
      if (heading == nullptr || words == nullptr || !heading->text.starts_with("To be seen")) continue;
      const bool tells_change = words->sentences.front().words().starts_with("As in the phase before");
      CAPTURE(chapter.title, words->sentences.front().words());
      CHECK(tells_change == !first);
      first = false;
      ++(tells_change ? changes : whole);
    }
  }
  CHECK(whole > 10);
  CHECK(changes > 10);
}

TEST_CASE("what a photograph of the phase settles is told as seen in it") {
  const std::string all = test::words_of(test::whole_house());
  const auto dinner = all.find("Shown in the photograph “[Pilots' dinner in the Chart Room]” (about 1911): ");
  REQUIRE(dinner != std::string::npos);
  const std::string seen = all.substr(dinner, all.find('\n', dinner) - dinner);
  CHECK(seen.find("sea-green tile field (N-203)") != std::string::npos);
  // What lies under the tile is never told as in sight.
  for (const char* under : {"cement bed (N-206)", "lime bed (N-205)", "niche back (N-201)"})
    for (std::size_t at = 0; (at = all.find("n sight: ", at)) != std::string::npos; ++at) {
      CAPTURE(under);
      CHECK(all.substr(at, all.find('\n', at) - at).find(under) == std::string::npos);
    }
}

TEST_CASE("figures and tables are numbered in the order of reading") {
  int figures = 0, tables = 0;
  each_block<Figure>(test::whole_house(), [&](const Figure& one) { CHECK(one.number == ++figures); });
  each_block<Table>(test::whole_house(), [&](const Table& one) { CHECK(one.number == ++tables); });
  CHECK(figures > 20);
  CHECK(tables > 20);
}

TEST_CASE("what is the same in every room is told once") {
  std::map<std::string, int> told;
  const std::regex twice("[a-z]\\.\\.( |$)");
  each_sentence(test::whole_house(), [&](const Sentence& one) {
    const std::string words = one.words();
    for (const char* begins : {"Layers are numbered from", "Where crates and boxes stand", "Local codes come",
                               "Before anything is scraped"})
      told[begins] += words.starts_with(begins);
    CHECK_FALSE(std::regex_search(words, twice));
    CHECK(words.find("the works the works") == std::string::npos);
  });
  CHECK(told.size() == 4);
  for (const auto& [begins, times] : told) {
    CAPTURE(begins);
    CHECK(times == 1);
  }
}

TEST_CASE("an examination of several rooms is told in the first of them, and pointed to from the others") {
  std::map<std::string, int> told;
  int pointed = 0;
  const std::regex code(" \\((X-[0-9]+)\\)\\.$");
  each_sentence(test::whole_house(), [&](const Sentence& one) {
    const std::string words = one.words();
    std::smatch found;
    if (words.find(" looked at ") != std::string::npos && std::regex_search(words, found, code))
      ++told[found[1]];
    pointed += words.find(" looked here, too: see ") != std::string::npos;
  });
  CHECK(told.size() > 10);
  for (const auto& [name, times] : told) {
    CAPTURE(name);
    CHECK(times == 1);
  }
  CHECK(pointed > 1);
}

TEST_CASE("long proofs stand in a table of their own, the rest where the date is told") {
  const Chapter* proofs = nullptr;
  for (const Chapter& chapter : test::whole_house().chapters)
    if (chapter.anchor == "proofs") proofs = &chapter;
  REQUIRE(proofs != nullptr);
  std::string table;
  for (const Block& block : proofs->blocks)
    walk::in(block, [&](const Sentence& one) { table += one.words() + "\n"; });
  CHECK(table.find("Rd No 101774") != std::string::npos);
  each_sentence(test::whole_house(), [&](const Sentence& one) {
    if (one.words().starts_with("The sea-green tile field (N-203) was probably laid"))
      CHECK(one.words().find("not before the making of the sea-green tile 14 (N-203.14), and not after the "
                             "photograph “[Pilots' dinner in the Chart Room]” (about 1911)") !=
            std::string::npos);
  });
}

TEST_CASE("what happened is told with the verb of its kind") {
  const std::regex wrong(
      "(removal|repair)[^.]* (was|were) (probably |possibly )?(cut|put in|made)"
      "|(opening|cut) [^.,]*\\) (was|were) (probably |possibly )?installed");
  each_sentence(test::whole_house(), [&](const Sentence& one) {
    const std::string words = one.words();
    CAPTURE(words);
    CHECK_FALSE(std::regex_search(words, wrong));
  });
}

TEST_CASE("the owners' times are told without a gap") {
  const Table* owners = nullptr;
  for (const Chapter& chapter : test::whole_house().chapters)
    for (const Block& block : chapter.blocks)
      if (const auto* table = std::get_if<Table>(&block))
        if (table->caption.find("owners, and uses") != std::string::npos) owners = table;
  REQUIRE(owners != nullptr);
  std::string all;
  for (const Row& row : owners->rows)
    for (const Cell& cell : row.cells)
      for (const Sentence& one : cell.sentences) all += one.words() + "\n";
  for (const char* words :
       {"1888 to 1921", "Owner: Tobias Merrow.", "From 2017", "Owner: The Fairlead Trust."}) {
    CAPTURE(words);
    CHECK(all.find(words) != std::string::npos);
  }
}

TEST_CASE("every room has its chapter, and what it could not examine") {
  std::set<std::string> titles;
  for (const Chapter& chapter : test::whole_house().chapters) titles.insert(chapter.title);
  for (const char* title : {"202 Chart Room", "105 Dining Room", "101 Hall", "301 Lamp Room"})
    CHECK(titles.count(title) == 1);
  for (const Chapter& chapter : test::whole_house().chapters) {
    if (!chapter.anchor.starts_with("room-")) continue;
    bool examined = false;
    for (const Block& block : chapter.blocks)
      if (const auto* heading = std::get_if<Heading>(&block))
        examined = examined || heading->text == "What was examined, and what was not";
    CAPTURE(chapter.title);
    CHECK(examined);
  }
}

TEST_CASE("the sample has all authored parts, so it is a preservation report") {
  const Document& document = test::whole_house();
  CHECK(document.title == "Preservation report");
  const std::string all = test::words_of(document);
  for (const char* words : {"Port Ellery's harbour has a bar that shifts", "Brick walls on a rubble footing",
                            "open-string stair of the Hall", "For the Fairlead preservation was chosen",
                            "Written by Ruth Amsel", "Written by Peter Vosk"}) {
    CAPTURE(words);
    CHECK(all.find(words) != std::string::npos);
  }
  report::Options one_room;
  one_room.rooms = {"202"};
  CHECK(test::report_of("FL-H", one_room).title == "Phase history");
}

TEST_CASE("the order of the chapters is a choice") {
  const auto place_of = [](const Document& document, const std::string& anchor) {
    for (std::size_t at = 0; at < document.chapters.size(); ++at)
      if (document.chapters[at].anchor == anchor) return static_cast<int>(at);
    return -1;
  };
  report::Options described;
  described.description_first = true;
  described.rooms = {"202"};
  const Document after = test::report_of("FL-H", described);
  CHECK(place_of(after, "chronology") > place_of(after, "room-0"));
  CHECK(place_of(test::whole_house(), "chronology") < place_of(test::whole_house(), "at-large"));
}

TEST_CASE("places that follow each other are drawn together") {
  CHECK(drawn_together({"tile 3", "tile 1", "tile 2", "tile 7"}) == "tile 1–3, 7");
  CHECK(drawn_together({"p. 31"}) == "p. 31");
  CHECK(drawn_together({"leaf 3", "p. 31", "leaf 3"}) == "leaf 3; p. 31");
  CHECK(drawn_together({}).empty());
}
