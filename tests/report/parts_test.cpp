// Parts of a report on small invented archives: sections that people write, samples, marks, contradictions,
// tasks.
#include <catch2/catch.hpp>

#include "core/base/text.hpp"
#include "tests/report/house.hpp"

using namespace lathbook;
using namespace lathbook::report;
using test::headings_of;
using test::House;
using test::known;
using test::words_of;

namespace {

constexpr const char* kSections[] = {"summary",
                                     "administrative data",
                                     "historical background",
                                     "exterior",
                                     "structure",
                                     "systems",
                                     "significance",
                                     "character-defining features",
                                     "condition assessment",
                                     "requirements for work",
                                     "recommended treatment",
                                     "record of treatment"};

}  // namespace

TEST_CASE("sections that a person wrote are printed as they are, with who wrote them") {
  House house;
  house.write("significance", "The porch is the oldest in town.\n\nIt was copied twice.");
  house.write("structure", "Second.", "2");
  house.write("structure", "First.", "1");
  const Document document = house.report();
  CHECK(document.title == "Phase history");
  const std::string words = words_of(document);
  CHECK(words.find("The porch is the oldest in town.\nIt was copied twice.\nWritten by Ada Wren, 1 May 2024; "
                   "the notes "
                   "are for the whole of it.") != std::string::npos);
  CHECK(words.find("First.") < words.find("Second."));
  std::string missing;
  each_sentence(document, [&](const Sentence& one) {
    if (one.words().starts_with("A full report also has")) missing = one.words();
  });
  CHECK(missing.find("exterior") != std::string::npos);
  CHECK(missing.find("significance") == std::string::npos);
}

TEST_CASE("a paragraph that names its source has that source's note, and not the section's") {
  House house;
  house.write("significance", "The porch is the oldest in town [S-1].\n\nIt was copied twice.");
  const Document document = house.report();
  std::size_t found = 0;
  each_sentence(document, [&](const Sentence& one) {
    CHECK(one.words().find("[S-1]") == std::string::npos);
    if (one.words() == "The porch is the oldest in town.") found += one.notes.size() == 1;
    if (one.words() == "It was copied twice.") found += one.notes.empty();
  });
  CHECK(found == 2);
  CHECK(words_of(document).find("Written by Ada Wren, 1 May 2024.\n") != std::string::npos);
}

TEST_CASE("a sample is told with what it gave") {
  House house;
  const Uuid bed = house.thing("N-1", "Lime bed", "plaster");
  const Uuid sample = house.reader.add(Kind::sample, "SA-1", "Bed of the tile");
  Statement& taken = house.reader.say(sample, "sample-from", bed);
  taken.content.citations = {{house.book, "mortar 1", ""}};
  Statement& material = house.reader.say(bed, "material", "fat lime and sand");
  material.content.citations = {{house.book, "mortar 1", ""}};
  material.content.evidence = EvidenceClass::physical;
  Statement& other = house.reader.say(bed, "material", "lime, by eye");
  other.content.citations = {{house.book, "p. 2", ""}};
  other.content.evidence = EvidenceClass::physical;
  Timeline timeline;
  timeline.items.push_back(house.item(bed));
  const std::string words = words_of(house.report(timeline));
  CHECK(words.find("It gave: material: fat lime and sand.") != std::string::npos);
  CHECK(words.find("It gave: material: lime, by eye") == std::string::npos);
}

TEST_CASE("nobody is told to disturb what may hold asbestos") {
  House house;
  const Uuid board = house.thing("E-1", "Board behind the range", "joinery");
  house.reader.say(board, "hazard", "asbestos", Confidence::certain, {{"status", "presumed"}});
  Timeline timeline;
  timeline.items.push_back(house.item(board));
  TimelineTask task;
  task.sort = "thing";
  task.records = {board};
  timeline.tasks = {task};
  std::string words = words_of(house.report(timeline));
  CHECK(words.find("Date the board behind the range (E-1) by papers and photographs alone") !=
        std::string::npos);
  CHECK(words.find("nails") == std::string::npos);
  timeline.tasks.front().sort = "layers";
  timeline.tasks.front().words = "Read the layers of the board.";
  words = words_of(house.report(timeline));
  CHECK(words.find("Read the layers of the board.") == std::string::npos);
}

TEST_CASE("marks have a column only where many things have one") {
  House house;
  Timeline timeline;
  std::vector<Uuid> things;
  for (const char* code : {"E-1", "E-2", "E-3", "E-4"}) {
    things.push_back(house.thing(code, std::string("Sill ") + code, "joinery"));
    timeline.items.push_back(house.item(things.back()));
  }
  const auto mark = [&](const Uuid& on, const std::string& code) {
    const Uuid id = house.reader.add(Kind::mark, code, "Mark");
    house.reader.say(id, "mark-on", on);
    house.reader.say(id, "transcription", "WREN");
  };
  const auto columns = [&] {
    std::size_t found = 0;
    const Document document = house.report(timeline);
    each_block<Table>(document, [&](const Table& one) {
      if (one.caption.find("the parts") != std::string::npos) found = one.columns.size();
    });
    return found;
  };
  mark(things[0], "M-1");
  CHECK(columns() == 3);
  CHECK(words_of(house.report(timeline)).find("“WREN”") != std::string::npos);
  mark(things[1], "M-2");
  CHECK(columns() == 4);
}

TEST_CASE("a section that nobody has written keeps its place and says what it must hold") {
  House house;
  house.write("significance", "The porch is the oldest in town.");
  const Document document = house.report();
  std::size_t unwritten = 0;
  std::vector<std::string> titles;
  for (const Heading& heading : headings_of(document)) titles.push_back(heading.text);
  for (const Chapter& chapter : document.chapters) titles.push_back(chapter.title);
  for (const char* section : kSections) {
    if (std::string(section) == "summary" || std::string(section) == "administrative data") continue;
    CHECK(std::count_if(titles.begin(), titles.end(), [&](const std::string& title) {
            return title.starts_with(capital(section)) && title != "Significance and condition";
          }) == 1);
  }
  each_sentence(document, [&](const Sentence& one) {
    if (!one.words().starts_with("To be written:")) return;
    ++unwritten;
    CHECK(one.words().size() > 60);
  });
  CHECK(unwritten == std::size(kSections) - 1);
}

TEST_CASE("two readings of one memory are one contradiction, told on both sides") {
  House house;
  const Uuid tile = house.thing("N-1", "Ivory tile", "tile field");
  const auto memory = [&](const char* day) {
    Statement& said = house.reader.say(tile, "standing-by", day, Confidence::possible);
    said.content.author = house.writer;
    said.content.citations = {{house.book, "00:12:31", ""}};
    said.content.why = "The war read as of " + std::string(day) + ".";
    return said.id;
  };
  const Digest first = memory("1914-07"), second = memory("1917-04");
  Statement& bill = house.reader.say(tile, "installed", "1924", Confidence::certain);
  bill.content.citations = {{house.book, "p. 9", ""}};
  const Digest kept = bill.id;
  Timeline timeline;
  timeline.items.push_back(house.item(tile));
  Span& begins = timeline.items.back().begins;
  begins.earliest = known(1924, 1, 1);
  begins.latest = known(1924, 12, 31);
  begins.earliest.leaned = true;
  begins.earliest.reason = {{kept, "it was laid in 1924"}};
  for (const auto& [aside, years] : {std::pair{first, 10}, std::pair{second, 7}}) {
    TimelineConflict conflict;
    conflict.statements = {{aside, "it stood by then"}, {kept, "it was laid in 1924"}};
    conflict.set_aside = {aside};
    conflict.clash_days = 365 * years;
    conflict.way_taken = 1;
    conflict.ways_out = {{{aside, "it stood by then"}}};
    timeline.conflicts.push_back(conflict);
  }
  const Document document = house.report(timeline);
  std::size_t told = 0;
  for (const Heading& heading : headings_of(document)) told += heading.text.starts_with("Contradiction");
  CHECK(told == 1);
  const std::string words = words_of(document);
  CHECK(words.find("read as of 1914-07") != std::string::npos);
  CHECK(words.find("read as of 1917-04") != std::string::npos);
  // By whom it was left out, and why.
  CHECK(words.find("on the day named on the first page: they are held to be possible, and all that stands "
                   "against them certain.") != std::string::npos);
  // The contested date points to it.
  bool pointed = false;
  each_sentence(document, [&](const Sentence& one) {
    for (const Run& run : one.runs)
      pointed = pointed || (run.link == "contradiction-1" && run.text == "contradiction 1");
  });
  CHECK(pointed);
  CHECK(words.find("In 1924 (contested: see contradiction 1)") != std::string::npos);
  // Without the common source they are two.
  Statement& other = house.reader.say(tile, "standing-by", "1917-04", Confidence::possible);
  other.content.citations = {{house.book, "00:55:00", ""}};
  timeline.conflicts[1].set_aside = {other.id};
  timeline.conflicts[1].statements[0].statement = other.id;
  told = 0;
  for (const Heading& heading : headings_of(house.report(timeline)))
    told += heading.text.starts_with("Contradiction");
  CHECK(told == 2);
}

TEST_CASE("a ruling is told with who ruled, when and why, beside what it is about") {
  House house;
  const Uuid tile = house.thing("N-1", "Ivory tile", "tile field");
  Statement& seen = house.reader.say(tile, "seen-in", house.book);
  seen.content.citations = {{house.book, "p. 4", ""}};
  const Digest about = seen.id;
  const std::string name = seen.name();
  const Uuid root = house.reader.add(Kind::archive, "ROOT", "Papers");
  Statement& ruling = house.reader.say(root, "set-aside", about.hex(), Confidence::certain,
                                       {{"reason", "the page shows the other house"}});
  ruling.content.author = house.writer;
  ruling.content.said_on = "2024-06-02";
  Timeline timeline;
  timeline.items.push_back(house.item(tile));
  timeline.set_aside_by_ruling = {name};
  const std::string words = words_of(house.report(timeline));
  const std::string told =
      "Ada Wren ruled, 2 June 2024, that this takes no part in the dates: the page shows the other house.";
  const auto at = words.find(told);
  REQUIRE(at != std::string::npos);
  // Beside the evidence, and once more where rulings are told.
  CHECK(words.find(told, at + 1) != std::string::npos);
}

TEST_CASE("a task leaves out looks that were taken, and tells what they gave") {
  House house;
  const Uuid rail = house.thing("N-1", "Chart table rail", "joinery");
  const Uuid look = house.reader.add(Kind::examination, "X-1", "First look");
  house.reader.say(look, "examined", rail);
  Statement& sought = house.reader.say(look, "sought", "a maker's mark on any edge", Confidence::certain,
                                       {{"outcome", "looked, none"}});
  sought.content.citations = {{house.book, "p. 6", ""}};
  Timeline timeline;
  timeline.items.push_back(house.item(rail));
  TimelineTask task;
  task.sort = "thing";
  task.records = {rail};
  TimelineOutcome found;
  found.day = days_from_civil(1900, 1, 1);
  task.outcomes = {found};
  timeline.tasks = {task};
  const std::string words = words_of(house.report(timeline));
  CHECK(
      words.find(
          "Date the chart table rail (N-1): look on it and its pieces for nails or screws and saw marks, and "
          "for it in papers and photographs.") != std::string::npos);
  CHECK(words.find("Already sought: a maker's mark on any edge; not there (X-1).") != std::string::npos);
  // A cut carries neither mark nor nail.
  const Uuid hole = house.thing("N-2", "Mat well", "cut");
  timeline.items.push_back(house.item(hole));
  timeline.tasks.front().records = {hole};
  CHECK(words_of(house.report(timeline))
            .find("Date the mat well (N-2): look for it in papers and photographs.") != std::string::npos);
}

TEST_CASE("things that would date themselves alone are asked for together, by what suits them") {
  House house;
  const auto made_of = [&](const char* code, const char* name, const char* of_class, const char* material) {
    const Uuid id = house.thing(code, name, of_class);
    house.reader.say(id, "material", material);
    return id;
  };
  Timeline timeline;
  for (const Uuid& id :
       {made_of("E-1", "Coat rail", "joinery", "pine"), made_of("E-2", "Plate shelf", "joinery", "oak"),
        made_of("E-3", "Boiler base", "other", "concrete"),
        made_of("E-4", "Old bath", "fixture", "copper")}) {
    timeline.items.push_back(house.item(id));
    TimelineTask task;
    task.sort = "thing";
    task.records = {id};
    timeline.tasks.push_back(task);
  }
  // It is gone, and no piece of it is kept.
  timeline.items.back().placement = 1;
  timeline.items.back().ends.latest = known(1926, 3, 22);
  const std::string words = words_of(house.report(timeline));
  CHECK(words.find(
            "Date the coat rail (E-1) and the plate shelf (E-2): look on each and its pieces for nails or "
            "screws and saw marks, and for them in papers and photographs.") != std::string::npos);
  CHECK(words.find("Date the boiler base (E-3) and the old bath (E-4): look for them in papers and "
                   "photographs.") != std::string::npos);
}

TEST_CASE("what was looked at later than it was seen is told as seen then") {
  House house;
  const Uuid wire = house.thing("E-1", "Wiring", "wiring");
  Statement& look =
      house.reader.say(wire, "condition", "brittle", Confidence::certain, {{"on", "2024-11-06"}});
  look.content.citations = {{house.book, "p. 8", ""}};
  Timeline timeline;
  timeline.items.push_back(house.item(wire));
  timeline.items.back().ends.earliest = known(1931, 2, 10);
  timeline.items.back().last_seen = "still in place when last seen on 10 February 1931";
  const std::string words = words_of(house.report(timeline));
  CHECK(words.find("last seen on 6 November 2024") != std::string::npos);
  CHECK(words.find("10 February 1931") == std::string::npos);
}

TEST_CASE("one sample is asked for once, whatever coats it would date") {
  House house;
  const Uuid wall = house.thing("E-1", "Hall plaster", "plaster");
  Timeline timeline;
  timeline.items.push_back(house.item(wall));
  for (const char* code : {"F-1", "F-2"}) {
    const Uuid coat = house.reader.add(Kind::finish, code, std::string("Coat ") + code);
    house.reader.say(coat, "finish-on", wall);
    timeline.items.push_back(house.item(coat));
    timeline.items.back().finish_on = wall;
    TimelineTask task;
    task.sort = "thing";
    task.records = {coat};
    timeline.tasks.push_back(task);
  }
  const std::string words = words_of(house.report(timeline));
  const auto at = words.find("Have a sample of the coats of the hall plaster (E-1) analysed");
  REQUIRE(at != std::string::npos);
  CHECK(words.find("analysed", words.find("analysed", at) + 1) == std::string::npos);
}

TEST_CASE("a task tells which things its outcomes would date, and to what") {
  House house;
  const Uuid skirting = house.thing("E-1", "Skirting", "joinery"),
             paint = house.thing("E-2", "Casing", "casing");
  Timeline timeline;
  timeline.items = {house.item(skirting), house.item(paint)};
  TimelineTask task;
  task.sort = "contact";
  task.words = "Read the contact between the two.";
  task.records = {skirting, paint};
  TimelineOutcome older{skirting, paint, {}, {}};
  older.gains = {{skirting, 1, false, std::nullopt, days_from_civil(1924, 12, 31)}};
  TimelineOutcome younger{paint, skirting, {}, {}};
  younger.gains = {{skirting, 1, false, days_from_civil(1924, 1, 1), days_from_civil(1953, 12, 31)}};
  task.outcomes = {older, younger};
  timeline.tasks = {task};
  const std::string words = words_of(house.report(timeline));
  CHECK(words.find("If the skirting (E-1) proves older than the casing (E-2): the skirting (E-1) would be "
                   "placed by 1924.") != std::string::npos);
  CHECK(words.find("If the casing (E-2) proves older than the skirting (E-1): the skirting (E-1) would be "
                   "placed between 1924 and 1953.") != std::string::npos);
}

TEST_CASE("with all its parts it is a preservation report") {
  House house;
  for (const char* section : kSections) house.write(section, "Text of " + std::string(section) + ".");
  const Document document = house.report();
  CHECK(document.title == "Preservation report");
  for (const char* section : kSections)
    CHECK(words_of(document).find("Text of " + std::string(section) + ".") != std::string::npos);
}
