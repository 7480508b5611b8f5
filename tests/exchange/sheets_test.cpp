// Import of sheets: what good ones give, and that bad rows are all listed and none imported by halves.
#include "core/exchange/sheets.hpp"

#include <catch2/catch.hpp>

#include "tests/exchange/fakes.hpp"
#include "tests/support/support.hpp"

using namespace lathbook;
using test::MemoryEntry;

namespace {

const std::string kCommon = "source,locator,class,confidence,by,said-on,recorder";
const std::string kCells = "S-1,p. 3,physical,certain,A-1,2026-05-02,A-1";

// A folder of sheets that the tests add to.
struct House {
  test::TempFolder folder;
  MemoryEntry entry;
  SheetOptions options;
  std::vector<std::filesystem::path> files;

  void sheet(const std::string& name, const std::string& bytes) {
    test::write_file(folder / name, bytes);
    files.push_back(folder / name);
  }
  void basics() {
    sheet("agents.csv", "code,name," + kCommon + "\nA-1,M. Reed," + kCells + "\n");
    sheet("sources.csv",
          "code,source-type,title,class,confidence\nS-1,photograph,Dinner,documentary,certain\n");
    sheet("elements.csv", "code,element-type," + kCommon + "\nE-1,green tile field," + kCells +
                              "\nE-2,ivory tile field," + kCells + "\n");
  }
  SheetReport run() { return import_sheets(files, entry, options); }
  Uuid id(const std::string& code) const { return entry.record_by_code(code).value().id; }
};

std::string all_faults(const SheetReport& report) {
  std::string text;
  for (const auto& fault : report.faults) {
    text += std::filesystem::path(fault.file).filename().string() + ":" + std::to_string(fault.line) + " [" +
            fault.column + "] " + fault.value + ": " + fault.reason + "\n";
  }
  return text;
}

void require_clean(const SheetReport& report) {
  INFO(all_faults(report));
  REQUIRE(report.faults.empty());
  REQUIRE(report.applied);
}

void has_fault(const SheetReport& report, const std::string& place, const std::string& part) {
  const auto text = all_faults(report);
  INFO(text);
  const auto at = text.find(place);
  REQUIRE(at != std::string::npos);
  bool found = false;
  for (auto line = at; line != std::string::npos; line = text.find(place, line + 1)) {
    found = found || text.substr(line, text.find('\n', line) - line).find(part) != std::string::npos;
  }
  CHECK(found);
}

}  // namespace

TEST_CASE("sheets: records, labels as headers, several values and their details") {
  House house;
  house.basics();
  house.sheet("rooms.csv",
              "\xEF\xBB\xBF"
              "Code;Name;Lies within;(remarks);" +
                  std::string("source;locator;class;confidence") + "\r\n" +
                  "F1-C;\"Chart Room {sort=on a plan; from=1888} | Pilots' Room {sort=by an occupant; "
                  "source=S-1; locator=00:12; class=oral; "
                  "confidence=possible}\";F1;none;S-1;sheet 3;documentary;certain\r\n"
                  "F1;First floor;;;S-1;sheet 3;documentary;certain\r\n");
  const auto report = house.run();
  require_clean(report);
  CHECK(report.records == 6);
  CHECK(house.entry.records.size() == 6);
  const auto names = house.entry.of("name");
  REQUIRE(names.size() == 4);
  CHECK(names[1].value == "Chart Room");
  CHECK(names[1].qualifiers == std::vector<Qualifier>{{"sort", "on a plan"}, {"from", "1888"}});
  CHECK(names[1].citations == std::vector<Citation>{{house.id("S-1"), "sheet 3", ""}});
  CHECK(names[1].evidence == EvidenceClass::documentary);
  CHECK(names[2].citations == std::vector<Citation>{{house.id("S-1"), "00:12", ""}});
  CHECK(names[2].evidence == EvidenceClass::oral);
  CHECK(names[2].confidence == Confidence::possible);
  const auto within = house.entry.of("within");
  REQUIRE(within.size() == 1);
  CHECK(within[0].subject == house.id("F1-C"));
  CHECK(within[0].value == house.id("F1").text());
  CHECK(within[0].citations.empty());
  CHECK(house.entry.of("place-type").size() == 2);
  const auto titles = house.entry.of("title");
  REQUIRE(titles.size() == 1);
  CHECK(titles[0].citations == std::vector<Citation>{{house.id("S-1"), "", ""}});
  const auto types = house.entry.of("element-type");
  CHECK(types[0].author == house.id("A-1"));
  CHECK(types[0].recorder == house.id("A-1"));
  CHECK(types[0].said_on == "2026-05-02");
}

TEST_CASE("sheets: relations, statements, corrections and withdrawals in any order") {
  House house;
  house.sheet("statements.csv",
              "subject,property,value,qualifiers," + kCommon + ",ref,replaces,withdraws,grounds,why\n" +
                  ",,,,,,,,A-1,2026-05-20,,,,orig,,the bed is cement\n"
                  "E-1,note,1.02 m wide,," +
                  kCells + ",,wide,,,slip of the pen\n" + "E-1,note,1.20 m wide,," + kCells + ",wide,,,,\n" +
                  "P-1,original-to,E-1,\"grounds=same joint; same bed\"," + kCells + ",orig,,,nb,\n" +
                  "P-1,made-not-before,1888,basis=Rd 101774," + kCells + ",nb,,,,\n");
  house.sheet("relations.csv", "from,relation,to,contact,feature," + kCommon +
                                   "\nE-2,Covers,E-1,laps over,," + kCells +
                                   "\nE-1,seen-in,S-1,,chipped corner," + kCells + "\n");
  house.sheet("pieces.csv",
              "code,piece of,"
              "made," +
                  kCommon + "\nP-1,,about 1888," + kCells + "\n");
  // The label of piece-of is 'is a piece of'; its name with a blank serves as well.
  house.basics();
  const auto report = house.run();
  require_clean(report);
  const auto covers = house.entry.of("covers");
  REQUIRE(covers.size() == 1);
  CHECK(covers[0].qualifiers == std::vector<Qualifier>{{"contact", "laps over"}});
  CHECK(house.entry.of("seen-in")[0].qualifiers == std::vector<Qualifier>{{"feature", "chipped corner"}});
  const auto made = house.entry.of("made");
  REQUIRE(made.size() == 1);
  CHECK(made[0].value == "about 1888");
  CHECK(made[0].edtf == "1888~");
  const auto notes = house.entry.of("note");
  REQUIRE(notes.size() == 2);
  CHECK(notes[0].value == "1.20 m wide");
  CHECK(notes[1].targets.size() == 1);
  CHECK(notes[1].why == "slip of the pen");
  const auto original = house.entry.of("original-to");
  REQUIRE(original.size() == 1);
  CHECK(original[0].qualifier("grounds") == "same joint; same bed");
  CHECK(house.entry.ids.contains(original[0].grounds.at(0)));
  const auto withdrawal = std::find_if(house.entry.added.begin(), house.entry.added.end(),
                                       [](const Content& content) { return content.act == Act::withdraw; });
  REQUIRE(withdrawal != house.entry.added.end());
  CHECK(withdrawal->why == "the bed is cement");
  CHECK(house.entry.ids.contains(withdrawal->targets.at(0)));
}

TEST_CASE("sheets: media and records that the archive has already") {
  House house;
  house.basics();
  require_clean(house.run());
  house.files.clear();
  test::write_file(house.folder / "photo.png", "not a real picture");
  house.sheet("sources-2.csv",
              "code,title,media,class,confidence\nS-2,Second,photo.png,documentary,certain\n"
              "S-3,Third,absent.png,documentary,certain\nS-4,Fourth,../../etc/passwd,documentary,certain\n");
  house.sheet("relations.csv", "from,relation,to," + kCommon + "\nE-1,mentioned-in,S-2," + kCells + "\n");
  const auto report = house.run();
  CHECK_FALSE(report.applied);
  has_fault(report, "sources-2.csv:3 [media] absent.png", "absent.png");
  has_fault(report, "sources-2.csv:4 [media]", "");
  CHECK(report.faults.size() == 2);
  CHECK(house.entry.media.empty());
  house.options.take_good_rows = true;
  const auto good = house.run();
  CHECK(good.applied);
  CHECK(good.records == 1);
  CHECK(good.media == 1);
  REQUIRE(house.entry.of("media").size() == 1);
  CHECK(house.entry.of("media")[0].value == sha256("not a real picture").hex());
  CHECK(house.entry.of("media")[0].qualifier("file-name") == "photo.png");
  CHECK(house.entry.of("mentioned-in").size() == 1);
}

TEST_CASE("sheets: all bad rows are listed and nothing is imported") {
  House house;
  house.basics();
  house.sheet("finishes.csv", "code,layer,finish-on," + kCommon +
                                  "\n"
                                  "F-1,one,E-1," +
                                  kCells +
                                  "\n"  // 2: no number
                                  ",1,E-1," +
                                  kCells +
                                  "\n"  // 3: no code
                                  "F-3,1,E-11," +
                                  kCells +
                                  "\n"  // 4: no such record
                                  "F-4,1,S-1," +
                                  kCells +
                                  "\n"  // 5: wrong kind
                                  "E-1,1,E-1," +
                                  kCells +
                                  "\n"                                        // 6: code twice
                                  "F-6,1,E-1,,p. 3,physical,certain,,,\n"     // 7: locator, no source
                                  "F-7,1,E-1,S-1,p. 3,physikal,certain,,,\n"  // 8: class
                                  "F-8,1,E-1,S-1,p. 3,physical,certain,,after the 1926 permit,\n"  // 9: date
                                  "F-9,1,E-1,S-1,p. 3,physical,certain,A-9,,\n"         // 10: no such agent
                                  "F-10,1,E-1,S-1,p. 3,physical,certain,,,,,surplus\n"  // 11: too long
                                  "F-11,1 {placement=3},E-1," +
                                  kCells + "\n");  // 12: unknown detail
  house.sheet("relations.csv", "from,relation,to,contact," + kCommon +
                                   "\n"
                                   "E-1,covers,E-2,," +
                                   kCells +
                                   "\n"  // 2: contact missing
                                   "E-1,coverz,E-2,laps over," +
                                   kCells +
                                   "\n"  // 3: no such property
                                   "E-1,note,E-2,," +
                                   kCells +
                                   "\n"  // 4: no relation
                                   "E-1,seen-in,S-1,laps over," +
                                   kCells + "\n");  // 5: a detail it has not
  const auto report = house.run();
  CHECK_FALSE(report.applied);
  CHECK(house.entry.records.empty());
  CHECK(house.entry.added.empty());
  has_fault(report, "finishes.csv:2 [layer] one", "");
  has_fault(report, "finishes.csv:3 [code]", "every row needs a code");
  has_fault(report, "finishes.csv:4 [finish-on] E-11", "E-1");
  has_fault(report, "finishes.csv:5 [finish-on] S-1", "source");
  has_fault(report, "finishes.csv:6 [code] E-1", "elements.csv:2");
  has_fault(report, "finishes.csv:7 [locator] p. 3", "no source");
  has_fault(report, "finishes.csv:8 [class] physikal", "physical, documentary");
  has_fault(report, "finishes.csv:9 [", "");
  has_fault(report, "finishes.csv:10 [by] A-9", "A-1");
  has_fault(report, "finishes.csv:11 [character", "more cells");
  has_fault(report, "finishes.csv:12 [layer] placement=3", "no detail");
  has_fault(report, "relations.csv:2 [to]", "contact");
  has_fault(report, "relations.csv:3 [relation] coverz", "covers");
  has_fault(report, "relations.csv:4 [relation] note", "sheet of statements");
  has_fault(report, "relations.csv:5 [to] contact=laps over", "feature");
}

TEST_CASE("sheets: what leans on a refused row is refused too when the good ones are taken") {
  House house;
  house.basics();
  house.sheet("finishes.csv",
              "code,layer,finish-on," + kCommon + "\nF-1,one,E-1," + kCells + "\nF-2,2,E-1," + kCells + "\n");
  house.sheet("relations.csv", "from,relation,to,contact," + kCommon +
                                   ",ref,replaces,why\nF-2,covers,F-1,laps over," + kCells +
                                   ",r,,\nF-2,covers,E-2,laps over," + kCells + ",,r,better look\n");
  house.options.take_good_rows = true;
  const auto report = house.run();
  INFO(all_faults(report));
  CHECK(report.applied);
  CHECK(report.faults.size() == 3);
  has_fault(report, "relations.csv:2 []", "finishes.csv:2, which is refused");
  has_fault(report, "relations.csv:3 []", "relations.csv:2, which is refused");
  CHECK_FALSE(house.entry.record_by_code("F-1"));
  CHECK(house.entry.record_by_code("F-2"));
  CHECK(house.entry.of("covers").empty());
  CHECK(report.refused.size() == 3);
}

TEST_CASE("sheets: rules across rows") {
  House house;
  house.basics();
  house.sheet("places.csv", "code,place-type,within\nP1,room,P2\nP2,storey,P3\nP3,building,P1\nP4,room,P1\n");
  house.sheet("statements.csv", "subject,property,value," + kCommon +
                                    ",ref,replaces,why\n"
                                    "E-1,element-type,another type," +
                                    kCells +
                                    ",,,\n"
                                    "E-1,note,a," +
                                    kCells +
                                    ",x,y,because\n"
                                    "E-1,note,b," +
                                    kCells +
                                    ",y,x,because\n"
                                    "E-1,note,c," +
                                    kCells +
                                    ",x,,\n"
                                    "E-1,note,d," +
                                    kCells + ",,nowhere,because\n");
  const auto report = house.run();
  CHECK_FALSE(report.applied);
  has_fault(report, "places.csv:2 [within]", "circle");
  has_fault(report, "places.csv:3 [within]", "circle");
  has_fault(report, "places.csv:4 [within]", "P3 > P1");
  CHECK(all_faults(report).find("places.csv:5") == std::string::npos);
  has_fault(report, "statements.csv:2 [value] another type", "elements.csv:2");
  has_fault(report, "statements.csv:5 [ref] x", "statements.csv:3");
  has_fault(report, "statements.csv:6 [value] nowhere", "no statement in these sheets");
  has_fault(report, "statements.csv", "lean on each other");
}

TEST_CASE("sheets: a row that only the archive refuses") {
  House house;
  house.basics();
  house.sheet("statements.csv", "subject,property,value," + kCommon + "\nE-1,note,refuse me," + kCells +
                                    "\nE-1,note,fine," + kCells + "\n");
  house.entry.refused_value = "refuse me";
  house.options.take_good_rows = true;
  const auto first = house.run();
  CHECK_FALSE(first.applied);
  CHECK(first.try_again);
  has_fault(first, "statements.csv:2 [value] refuse me", "another value");
  house.entry = MemoryEntry();  // the owner rolls back
  house.entry.refused_value = "refuse me";
  house.options.refused = first.refused;
  const auto second = house.run();
  CHECK(second.applied);
  CHECK(house.entry.of("note").size() == 1);
}

TEST_CASE("sheets: headers and files that cannot be understood") {
  House house;
  house.basics();
  house.sheet("marks.csv",
              "code,transcripton,kind,note,Note," + kCommon + "\nM-1,abc,mark,a,b," + kCells + "\n");
  house.sheet("labels.csv", "name\nx\n");
  house.sheet("events.csv", "");
  house.sheet("samples.csv", "code,spot\nX-1,\"open");
  const auto report = house.run();
  CHECK_FALSE(report.applied);
  has_fault(report, "marks.csv:1 [transcripton]", "transcription");
  has_fault(report, "marks.csv:1 [kind]", "the sheet's name");
  has_fault(report, "marks.csv:1 [Note]", "two columns");
  has_fault(report, "labels.csv:1 [code]", "is missing");
  has_fault(report, "events.csv:1 []", "empty");
  has_fault(report, "samples.csv:2 [character 5] open", "never closed");
  CHECK(report.refused.size() == 2);

  CHECK_THROWS_WITH(import_sheets({house.folder / "curtains.csv"}, house.entry, {}),
                    Catch::Contains("does not say what its rows are"));
  CHECK_THROWS_WITH(import_sheets({house.folder / "rooms-elements.csv"}, house.entry, {}),
                    Catch::Contains("could be a sheet of"));
  CHECK_THROWS_AS(import_sheets({house.folder / "rooms.csv"}, house.entry, {}), Error);
  std::filesystem::create_directory(house.folder / "finds.csv");
  CHECK_THROWS_AS(import_sheets({house.folder / "finds.csv"}, house.entry, {}), Error);
  SheetOptions told;
  told.sheet_of[(house.folder / "curtains.csv").string()] = "elements";
  test::write_file(house.folder / "curtains.csv", "code\nE-9\n");
  CHECK(import_sheets({house.folder / "curtains.csv"}, house.entry, told).records == 1);
}

TEST_CASE("sheets: privacy, defaults and several sources") {
  House house;
  house.basics();
  house.sheet("finds.csv",
              "code,description,whereabouts,source,locator,private,private-until\n"
              "N-1,a button {language=fr},crate 3,S-1 | S-1,left | right,family wish,2050\n");
  house.options.evidence = "physical";
  house.options.confidence = "certain";
  house.options.recorder = "A-1";
  const auto report = house.run();
  require_clean(report);
  const auto found = house.entry.of("description");
  REQUIRE(found.size() == 1);
  CHECK(found[0].language == "fr");
  CHECK(found[0].evidence == EvidenceClass::physical);
  CHECK(found[0].confidence == Confidence::certain);
  CHECK(found[0].recorder == house.id("A-1"));
  CHECK(found[0].privacy == Privacy{"family wish", "2050"});
  REQUIRE(found[0].citations.size() == 2);
  CHECK(found[0].citations[1].locator == "right");
}
