// The export against published schemas and other people's parsers: a small house and the whole sample.
#include <catch2/catch.hpp>
#include <filesystem>

#include "tests/crm/export_support.hpp"
#include "tests/crm/facts.hpp"
#include "tests/crm/small_house.hpp"
#include "tests/crm/tools.hpp"

using namespace lathbook;
using namespace lathbook::test;

namespace {

/// Two formats of one export in files.
struct Files {
  TempFolder folder;
  std::filesystem::path turtle, ntriples;
  explicit Files(const StatementReader& reader, const Uuid& scope = {})
      : turtle(folder / "export.ttl"), ntriples(folder / "export.nt") {
    write_file(turtle, exported(reader, "turtle", scope));
    write_file(ntriples, exported(reader, "ntriples", scope));
  }
};

}  // namespace

TEST_CASE("three parsers read the export as the same triples") {
  const Files files(SmallHouse().reader);
  check_parsers(files.turtle, files.ntriples);
  CHECK(read_file(files.ntriples).find("_:") == std::string::npos);
}

TEST_CASE("the export keeps the domains, ranges and rules of the published models") {
  const SmallHouse house;
  const Files files(house.reader);
  Facts facts;
  facts.add(house.reader, kBase);
  REQUIRE(facts.rooms().size() == 1);
  REQUIRE(facts.removed().size() == 1);
  std::ofstream out(files.folder / "facts.json", std::ios::binary);
  facts.write(out);
  out.close();
  const Ran ran = check_models(files.ntriples, files.folder / "facts.json");
  INFO(ran.out << ran.err);
  CHECK(ran.code == 0);
}

TEST_CASE("an export of one place keeps them too") {
  const SmallHouse house;
  const Ran ran = check_models(Files(house.reader, house.room).ntriples);
  INFO(ran.out << ran.err);
  CHECK(ran.code == 0);
}

TEST_CASE("the check of the models finds faults that are put in on purpose") {
  const SmallHouse house;
  const std::string good = exported(house.reader, "ntriples");
  const std::string p = " ";
  const std::pair<const char*, std::string> faults[] = {
      {"check 1", rec(house.wall) + p + crm_name("P46_is_composed_off") + p + rec(house.field) + " ."},
      {"check 2",
       rec(house.wall) + p + crm_name("P55_has_current_location") + p + rec(house.room, "space") + " ."},
      {"check 2", rec(house.piece) + p + crm_name("P56_bears_feature") + p + rec(house.mark, "sign") + " ."},
      {"check 3", rec(house.works) + p + kType + p + crm_name("E22_Human-Made_Object") + " ."},
      {"check 4",
       rec(house.works) + p + crm_name("P14_carried_out_by") + p + "<" + kBase + "record/nobody> ."},
      {"check 6", rec(house.works, "span") + p + crm_name("P82a_begin_of_the_begin") +
                      " \"1871\"^^<http://www.w3.org/2001/XMLSchema#dateTime> ."},
      {"check 8", rec(house.works) + p + kType + p + crm_name("E79_Part_Addition") + " ."},
      {"check 11", rec(house.wall) + p + "<" + kBase + "property/bonded-with>" + p + rec(house.cut) + " ."},
      {"check 15", "<" + kBase + "type/bare> " + kType + p + crm_name("E55_Type") + " ."},
      {"check claim 1",
       st(house.covers) + p + extension("crminf", "J31_has_range") + p + rec(house.cut) + " ."},
  };
  std::string bad = good;
  for (const auto& [number, line] : faults) bad += line + "\n";
  const TempFolder folder;
  write_file(folder / "bad.nt", bad);
  const Ran ran = check_models(folder / "bad.nt");
  if (ran.out == "skipped") return;
  CHECK(ran.code == 1);
  const Lines found = lines_of(ran.out);
  for (const auto& [number, line] : faults) {
    INFO(number << ": " << line << "\n" << ran.out);
    // Names without a declaration or type are told by themselves, all other faults by the subject.
    const std::string number_text(number);
    const std::string node = number_text == "check 1"   ? kCrm + "P46_is_composed_off"
                             : number_text == "check 4" ? kBase + "record/nobody"
                                                        : line.substr(1, line.find('>') - 1);
    CHECK(std::any_of(found.begin(), found.end(), [&, check = number_text + ":"](const std::string& one) {
      return one.rfind(check, 0) == 0 && one.find(node) != std::string::npos;
    }));
  }
}

TEST_CASE("a conclusion older than its source is warned of, and is no fault") {
  const SmallHouse house;
  const auto node = [](const std::string& name) { return "<" + kBase + "seeded/" + name + ">"; };
  const auto day = [](const std::string& text) {
    return "\"" + text + "T00:00:00Z\"^^<http://www.w3.org/2001/XMLSchema#dateTime>";
  };
  const std::pair<std::string, std::string> triples[] = {
      {node("act") + " " + extension("crminf", "J7_is_based_on_evidence_from"), node("passage")},
      {node("act") + " " + crm_name("P4_has_time-span"), node("said")},
      {node("said") + " " + crm_name("P82b_end_of_the_end"), day("1900-01-01")},
      {node("passage") + " " + crm_name("P106i_forms_part_of"), node("source")},
      {node("source") + " " + crm_name("P94i_was_created_by"), node("birth")},
      {node("birth") + " " + crm_name("P4_has_time-span"), node("made")},
      {node("made") + " " + crm_name("P82a_begin_of_the_begin"), day("1950-01-01")}};
  std::string text = exported(house.reader, "ntriples");
  const TempFolder folder;
  write_file(folder / "good.nt", text);
  const Ran good = check_models(folder / "good.nt");
  if (good.out == "skipped") return;
  CHECK(good.err.find("claim 10") == std::string::npos);
  for (const auto& [subject, object] : triples) text += subject + " " + object + " .\n";
  write_file(folder / "late.nt", text);
  CHECK(
      check_models(folder / "late.nt").err.find("claim 10: concluded before its source was made: " + kBase) !=
      std::string::npos);
}
