// What the export of a small invented house says, triple by triple. The models are those of docs/crm.md:
// CIDOC CRM 7.1.3 (ICOM CIDOC CRM Special Interest Group, 2024) and its extensions, as published in RDFS.
#include <catch2/catch.hpp>

#include "core/base/error.hpp"
#include "core/view/measure.hpp"
#include "plugins/crm/mapping.hpp"
#include "tests/crm/export_support.hpp"
#include "tests/crm/small_house.hpp"

using namespace lathbook;
using namespace lathbook::test;

namespace {

std::string moment(const std::string& text) {
  return "\"" + text + "\"^^<http://www.w3.org/2001/XMLSchema#dateTime>";
}

}  // namespace

TEST_CASE("every property of the registry has a row in the table, and every row a property") {
  const Registry& registry = Registry::standard();
  std::set<std::string_view> rows;
  for (const crm::Rule* rule = crm::begin_rules(); rule != crm::end_rules(); ++rule) {
    INFO(rule->property);
    CHECK(registry.find(rule->property) != nullptr);
    CHECK(rows.insert(rule->property).second);
  }
  for (const Property& property : registry.properties()) {
    INFO(property.name);
    CHECK(rows.count(property.name) == 1);
  }
}

TEST_CASE("records have their class, label and, for places, a space") {
  const SmallHouse house;
  const Lines lines = lines_of(exported(house.reader, "ntriples"));
  CHECK(says(lines, rec(house.site), kType, crm_name("E27_Site")));
  CHECK(says(lines, rec(house.building), kType, extension("crmba", "B1_Built_Work")));
  CHECK(says(lines, rec(house.room), kType, extension("crmba", "B2_Morphological_Building_Section")));
  CHECK(says(lines, rec(house.pit), kType, extension("crmba", "B4_Empty_Morphological_Building_Section")));
  CHECK(says(lines, rec(house.wall), kType, extension("crmba", "B5_Stratigraphic_Building_Unit")));
  CHECK(says(lines, rec(house.cut), kType, extension("crmarchaeo", "A3_Stratigraphic_Interface")));
  CHECK(says(lines, rec(house.person), kType, crm_name("E21_Person")));
  CHECK(says(lines, rec(house.firm), kType, crm_name("E74_Group")));
  CHECK(says(lines, rec(house.photo), kType, crm_name("E36_Visual_Item")));
  CHECK_FALSE(says(lines, rec(house.permit), kType, crm_name("E36_Visual_Item")));
  CHECK(says(lines, rec(house.room), crm_name("P156_occupies"), rec(house.room, "space")));
  CHECK(says(lines, rec(house.room), extension("crmba", "BP1_is_section_of"), rec(house.storey)));
  CHECK(says(lines, rec(house.room, "space"), crm_name("P89_falls_within"), rec(house.storey, "space")));
  CHECK(says(lines, rec(house.building), crm_name("P46i_forms_part_of"), rec(house.site)));
  CHECK(says(lines, rec(house.wall), extension("crmba", "BP2_is_constituent_of"), rec(house.room)));
  // A cut has no stuff and a void is no built thing: neither takes part in BP2.
  CHECK_FALSE(says(lines, rec(house.cut), extension("crmba", "BP2_is_constituent_of"), rec(house.room)));
  CHECK(
      says(lines, rec(house.field), crm_name("P53_has_former_or_current_location"), rec(house.pit, "space")));
}

TEST_CASE("what is contested is claimed and not asserted") {
  SmallHouse house;
  Lines lines = lines_of(exported(house.reader, "ntriples"));
  const std::string spans = crm_name("P4_has_time-span");
  SECTION("a ruling settles two dates") {
    CHECK(says(lines, rec(house.field, "installed-1"), spans, st(house.fitted_late, "span")));
    CHECK_FALSE(says(lines, rec(house.field, "installed-1"), spans, st(house.fitted_early, "span")));
  }
  SECTION("without the ruling neither date is asserted, and both are claimed with their confidence") {
    const auto set_aside = Registry::standard().named("set-aside").id;
    for (Statement& ruling : house.reader.said())
      if (ruling.content.property == set_aside) ruling.current = false;
    lines = lines_of(exported(house.reader, "ntriples"));
    CHECK_FALSE(says(lines, rec(house.field, "installed-1"), spans, st(house.fitted_late, "span")));
    CHECK_FALSE(says(lines, rec(house.field, "installed-1"), spans, st(house.fitted_early, "span")));
  }
  for (const auto& [id, scale] :
       {std::pair(house.fitted_early, "probable"), std::pair(house.fitted_late, "certain")}) {
    CHECK(says(lines, st(id), extension("crminf", "J31_has_range"), st(id, "span")));
    CHECK(says(lines, st(id, "belief"), extension("crminf", "J5_holds_to_be"),
               "\"" + std::string(scale) + "\""));
  }
  // Two transcriptions: the sign has neither as its content; a doubtful name is not a name.
  CHECK(count_with(lines, rec(house.label, "sign") + " " + crm_name("P190_has_symbolic_content")) == 0);
  CHECK(count_with(lines, rec(house.mark, "sign") + " " + crm_name("P190_has_symbolic_content")) == 1);
  CHECK(count_with(lines, rec(house.room) + " " + crm_name("P1_is_identified_by")) == 1);
}

TEST_CASE("at the level 'certain' only certain statements are asserted") {
  const SmallHouse house;
  const Lines all = lines_of(exported(house.reader, "ntriples"));
  const Lines sure = lines_of(exported(house.reader, "ntriples", {}, Level::certain));
  const std::string ended = rec(house.room, "ended") + " " + crm_name("P4_has_time-span");
  CHECK(count_with(all, ended) == 1);
  CHECK(count_with(sure, ended) == 0);
  CHECK(count_with(all, extension("crminf", "J30_has_domain")) ==
        count_with(sure, extension("crminf", "J30_has_domain")));
}

TEST_CASE("a relation that is also said the other way round is not asserted") {
  SmallHouse house;
  const std::string covers = "<" + kBase + "property/covers>";
  CHECK(says(lines_of(exported(house.reader, "ntriples")), rec(house.field), covers, rec(house.wall)));
  house.reader.say(house.wall, "covers", house.field, {{"contact", "laps over"}});
  const Lines lines = lines_of(exported(house.reader, "ntriples"));
  CHECK_FALSE(says(lines, rec(house.field), covers, rec(house.wall)));
  CHECK_FALSE(says(lines, rec(house.wall), covers, rec(house.field)));
}

TEST_CASE("claims lead to the passage, its author, its date and who entered it") {
  const SmallHouse house;
  const Lines lines = lines_of(exported(house.reader, "ntriples"));
  const std::string adoption = st(house.covers, "adoption");
  CHECK(says(lines, adoption, extension("crminf", "J2_concluded_that"), st(house.covers, "belief")));
  CHECK(says(lines, adoption, crm_name("P14_carried_out_by"), rec(house.person)));
  CHECK(says(lines, adoption, crm_name("P4_has_time-span"), st(house.covers, "said")));
  CHECK(says(lines, st(house.covers), "<http://www.w3.org/ns/prov#wasAttributedTo>", rec(house.person)));
  CHECK(says(lines, st(house.note), "<http://www.w3.org/ns/prov#wasRevisionOf>", st(house.replaced)));
  CHECK(says(lines, st(house.note, "inference"), extension("crminf", "J1_used_as_premise"),
             st(house.covers, "belief")));
  CHECK(count_with(lines, rec(house.photo) + " .") > 0);
  CHECK(count_with(lines, crm_name("P3_has_note") + " \"left half\"") ==
        2);  // with and without the quoted words
  // One claim for each statement, current or replaced.
  std::size_t statements = 0;
  Query all;
  all.current_only = false;
  house.reader.each_statement(all, [&](const Statement&) { return ++statements != 0; });
  CHECK(count_with(lines, kType + " " + extension("crminf", "I17_One-Proposition_Set")) == statements);
  CHECK(says(lines, st(house.replaced), extension("crminf", "J30_has_domain"), rec(house.wall)));
  CHECK_FALSE(says(lines, rec(house.wall), crm_name("P3_has_note"), "\"1.20 m wide\""));
}

TEST_CASE("dates become full moments, inclusive to the last second") {
  // CIDOC CRM 7.1.3, scope notes of P81 and P82: P82 the maximum, P81 the minimum extent; the inclusive last
  // second as in Linked Art 1.0, 'Dates and times'.
  const SmallHouse house;
  const Lines lines = lines_of(exported(house.reader, "ntriples"));
  const std::string span = rec(house.works, "span");
  CHECK(says(lines, span, crm_name("P82a_begin_of_the_begin"), moment("1924-06-01T00:00:00Z")));
  CHECK(says(lines, span, crm_name("P81a_end_of_the_begin"), moment("1924-06-30T23:59:59Z")));
  CHECK(says(lines, span, crm_name("P81b_begin_of_the_end"), moment("1926-01-01T00:00:00Z")));
  CHECK(says(lines, span, crm_name("P82b_end_of_the_end"), moment("1926-12-31T23:59:59Z")));
  CHECK(count_with(lines, crm_name("P79_beginning_is_qualified_by") + " \"approximate\"") >= 2);
}

TEST_CASE("a measure becomes one number and one unit") {
  const auto both = [](const char* text) {
    const auto measure = read_measure(text);
    return measure ? measure->number + "|" + measure->unit : std::string("-");
  };
  CHECK(both("152 mm") == "152|mm");
  CHECK(both("11.50 kg") == "11.50|kg");
  CHECK(both("3 1/2 in") == "3.5|in");
  CHECK(both("1/3 ft") == "0.333333|ft");
  CHECK(both("5' 3 1/2\"") == "63.5|in");
  CHECK(both("5'") == "60|in");
  CHECK(both("15/16\"") == "0.9375|in");
  CHECK(both("wide") == "-");
  CHECK(both("") == "-");
}

TEST_CASE("pieces, marks and labels stand apart from what they say and where they sat") {
  const SmallHouse house;
  const Lines lines = lines_of(exported(house.reader, "ntriples"));
  CHECK(says(lines, rec(house.mark), crm_name("P56i_is_found_on"), rec(house.piece)));
  CHECK(says(lines, rec(house.mark), crm_name("P65_shows_visual_item"), rec(house.mark, "sign")));
  CHECK(says(lines, rec(house.mark, "sign"), crm_name("P67_refers_to"), rec(house.firm)));
  CHECK(says(lines, rec(house.label), crm_name("P46i_forms_part_of"), rec(house.field)));
  CHECK(says(lines, rec(house.piece, "removal"), crm_name("P113_removed"), rec(house.piece)));
  CHECK(says(lines, rec(house.removal), kType, crm_name("E80_Part_Removal")));
  CHECK(says(lines, rec(house.removal), crm_name("P112_diminished"), rec(house.field)));
  CHECK(says(lines, rec(house.move), crm_name("P25_moved"), rec(house.piece)));
  CHECK(says(lines, rec(house.move), crm_name("P25_moved"), rec(house.wall, "thing")));
  CHECK(says(lines, rec(house.move), crm_name("P26_moved_to"), rec(house.crate, "space")));
  CHECK(says(lines, rec(house.finish, "making"), crm_name("P108_has_produced"), rec(house.finish, "thing")));
  CHECK(says(lines, rec(house.field), crm_name("P138i_has_representation"), rec(house.photo)));
  CHECK(says(lines, rec(house.wall), crm_name("P67i_is_referred_to_by"), rec(house.permit)));
  // 'Marked for' proves no place.
  CHECK(count_with(lines, rec(house.piece) + " " + crm_name("P103_was_intended_for")) == 0);
}

TEST_CASE("the number of nodes of a kind is the number of records") {
  const SmallHouse house;
  const Lines lines = lines_of(exported(house.reader, "ntriples"));
  for (const Kind kind : all_kinds()) {
    std::size_t records = 0;
    house.reader.each_record(kind, [&](const RecordInfo& info) {
      INFO(info.code);
      CHECK(count_with(lines, rec(info.id) + " " + kType) >= 1);
      return ++records != 0;
    });
    CHECK(records > 0);
  }
}

TEST_CASE("a value that names a record which may not be shown leaves no trace of it") {
  SmallHouse house;
  const Uuid hidden = uuid_from_name("nobody's record");
  Statement& said = house.reader.say(house.removal, "done-by", hidden);
  said.content.citations = {{hidden, "p. 3", ""}};
  said.content.author = hidden;
  Statement& other = house.reader.say(house.wall, "note", "cites what is hidden");
  other.content.author = hidden;
  other.content.recorder = hidden;
  other.content.citations = {{hidden, "p. 4", ""}};
  std::ostringstream out;
  QuietServices services;
  crm::CrmExporter().write(Snapshot(house.reader), {{}, Level::possible, kBase, "turtle", {}}, out, services);
  CHECK(out.str().find(hidden.text()) == std::string::npos);
  CHECK(std::count_if(services.notes.begin(), services.notes.end(), [](const std::string& note) {
          return note.find("left out, for naming what this export may not show") != std::string::npos;
        }) == 1);
}

TEST_CASE("the same archive gives the same bytes, and both formats the same triples") {
  const SmallHouse house;
  CHECK(exported(house.reader, "turtle") == exported(house.reader, "turtle"));
  CHECK(exported(house.reader, "ntriples") == exported(house.reader, "ntriples"));
}

TEST_CASE("a base address that cannot begin an IRI is refused") {
  const SmallHouse house;
  for (const char* base :
       {"", "archive/", "http://example.org/archive", "http://example.org/a b/", "http://x/<y>/", ":/"}) {
    std::ostringstream out;
    QuietServices services;
    INFO(base);
    CHECK_THROWS_AS(crm::CrmExporter().write(Snapshot(house.reader),
                                             {{}, Level::possible, base, "turtle", {}}, out, services),
                    Error);
  }
}

TEST_CASE("an export of one place holds what belongs to it, and the sources and people behind it") {
  SmallHouse house;
  const Uuid elsewhere = house.reader.add(Kind::element, "E-9", "Elsewhere");
  house.reader.say(elsewhere, "stands-in", house.building);
  const Lines lines = lines_of(exported(house.reader, "ntriples", house.room));
  const std::string claimed = extension("crminf", "J30_has_domain") + " ";
  for (const Uuid& inside :
       {house.room, house.pit, house.field, house.piece, house.mark, house.finish, house.photo})
    CHECK(count_with(lines, claimed + rec(inside)) > 0);
  CHECK(count_with(lines, rec(elsewhere)) == 0);
  CHECK(count_with(lines, claimed + rec(house.storey)) == 0);
  CHECK(says(lines, rec(house.storey), kType, extension("crmba", "B2_Morphological_Building_Section")));
  CHECK_THROWS_AS(exported(house.reader, "turtle", house.wall), Error);
}

TEST_CASE("a stream that takes no more bytes is an error") {
  const SmallHouse house;
  std::ostringstream out;
  out.setstate(std::ios::badbit);
  QuietServices services;
  CHECK_THROWS_AS(crm::CrmExporter().write(Snapshot(house.reader), {{}, Level::possible, kBase, "turtle", {}},
                                           out, services),
                  Error);
}
