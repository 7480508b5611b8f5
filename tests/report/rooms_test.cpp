// What a room's chapter tells: what was in sight, what was done, and where moved things count.
#include <catch2/catch.hpp>

#include "tests/report/house.hpp"

using namespace lathbook;
using namespace lathbook::report;
using test::House;
using test::known;
using test::words_of;

namespace {

/// Puts one thing into the only phase of the house, surely there and, by its dates, in sight.
TimelineItem in_phase(House& house, const Uuid& id) {
  TimelineItem one = house.item(id);
  one.placement = 1;
  one.dated = true;
  one.begins.earliest = known(1888, 1, 1);
  one.begins.latest = known(1888, 12, 31);
  PhasePart part;
  part.installed = part.present = part.visible = Membership::certain;
  one.phases = {part};
  return one;
}

Timeline one_phase(House& house) {
  Timeline timeline;
  TimelinePhase phase;
  phase.record = *house.reader.record(house.reader.add(Kind::phase, "P-1", "Phase 1"));
  phase.opens.earliest = phase.opens.latest = known(1888, 1, 1);
  timeline.phases = {phase};
  return timeline;
}

Uuid standing(House& house, const char* code, const char* name, const char* of_class, const char* role) {
  const Uuid id = house.reader.add(Kind::element, code, name);
  house.reader.say(id, "element-class", of_class);
  house.reader.say(id, "stands-in", house.room, {{"role", role}});
  return id;
}

/// The sentence of the room's view that begins so; empty for none.
std::string view(const Document& document, const std::string& opening) {
  std::string found;
  each_sentence(document, [&](const Sentence& one) {
    if (found.empty() && one.words().starts_with(opening)) found = one.words();
  });
  return found;
}

}  // namespace

TEST_CASE("what runs within the fabric is not told as in sight") {
  House house;
  Timeline timeline = one_phase(house);
  const Uuid riser = standing(house, "E-1", "Gas riser", "pipe", "passes through");
  const Uuid flex = standing(house, "E-2", "Flex of the lamp", "wiring", "stands in");
  const Uuid wire = standing(house, "E-3", "Bell wire", "wiring", "serves");
  const Uuid wall = standing(house, "E-4", "East wall", "wall", "bounds");
  const Uuid anchor = standing(house, "E-5", "Tie anchor", "ironwork", "stands in");
  house.reader.say(anchor, "prominence", "0");
  const Uuid sill = standing(house, "E-6", "Sill", "joinery", "stands in");
  for (const Uuid& id : {riser, flex, wire, wall, anchor, sill})
    timeline.items.push_back(in_phase(house, id));
  const Document document = house.report(timeline);
  const std::string seen = view(document, "In sight: "), hidden = view(document, "In place but out of sight");
  CHECK(seen == "In sight: flex of the lamp (E-2); sill (E-6).");
  CHECK(hidden == "In place but out of sight: gas riser (E-1); bell wire (E-3); tie anchor (E-5).");
}

TEST_CASE("a picture of what runs within the fabric shows it, an inspection card does not") {
  House house;
  Timeline timeline = one_phase(house);
  const Uuid riser = standing(house, "E-1", "Gas riser", "pipe", "passes through");
  TimelineEvent source;
  source.source = house.book;
  source.when.earliest = source.when.latest = known(1890, 5, 1);
  timeline.sources = {source};
  timeline.items.push_back(in_phase(house, riser));
  Statement& said = house.reader.say(riser, "as-built-in", house.book);
  said.content.citations = {{house.book, "p. 2", ""}};
  CHECK(view(house.report(timeline), "Shown in").empty());
  said.content.property = Registry::standard().named("seen-in").id;
  CHECK(view(house.report(timeline), "Shown in").find("gas riser (E-1)") != std::string::npos);
}

TEST_CASE("a room tells what the study did there, by whom and with what outcome") {
  House house;
  const Uuid grille = house.thing("E-1", "Air grille", "ironwork");
  const Uuid piece = house.reader.add(Kind::piece, "PC-1", "Bar of the grille");
  house.reader.say(piece, "piece-of", grille);
  const Uuid look = house.reader.add(Kind::examination, "X-1", "First look");
  house.reader.say(look, "examined", grille);
  house.reader.say(look, "examined-on", "2023-04-01");
  const auto happened = [&](const char* code, const char* name, const char* type, const char* day,
                            const Uuid& on) {
    const Uuid id = house.reader.add(Kind::event, code, name);
    house.reader.say(id, "event-type", type);
    house.reader.say(id, "event-date", day);
    house.reader.say(id, "event-on", on).content.citations = {{house.book, "p. 8", ""}};
    return id;
  };
  const Uuid out = happened("V-2", "Grille taken out", "removed", "2024-04-06", grille);
  house.reader.say(out, "done-by", house.writer);
  house.reader.say(out, "outcome", "one bolt came");
  house.reader.say(out, "to-return", "yes");
  happened("V-1", "Bar cleaned", "cleaned", "2024-03-01", piece);
  happened("V-3", "Grille painted", "repaired", "1953-01-01", grille);
  happened("V-4", "Grille photographed", "photographed", "2024-04-05", grille);
  Timeline timeline;
  timeline.items.push_back(house.item(grille));
  const Document document = house.report(timeline);
  std::vector<std::string> rows;
  std::size_t without_note = 0;
  each_block<Table>(document, [&](const Table& one) {
    if (one.caption.find("by this study") == std::string::npos) return;
    for (const Row& row : one.rows) {
      std::string words;
      for (const Cell& cell : row.cells)
        for (const Sentence& said : cell.sentences) {
          words += said.words() + "|";
          without_note += said.words() != "–" && said.notes.size() != 1;
        }
      rows.push_back(words);
    }
  });
  CHECK(rows ==
        std::vector<std::string>{
            "1 March 2024|Bar cleaned (V-1): PC-1.|–|",
            "6 April 2024, Ada Wren|Grille taken out (V-2): air grille (E-1).|Taken away for the works, to "
            "come back.|Outcome: one bolt came.|"});
  CHECK(without_note == 0);
  // What was done before the study is told with the old repairs.
  CHECK(words_of(document).find("Grille painted: the air grille (E-1), 1 January 1953.") !=
        std::string::npos);
}

TEST_CASE("what was moved on is examined where it stands, not where it stood") {
  House house;
  const Uuid office = house.reader.add(Kind::place, "102", "Office");
  house.reader.say(office, "place-type", "room");
  house.reader.say(office, "within", house.building);
  const Uuid mantel = house.reader.add(Kind::element, "E-1", "Mantel");
  house.reader.say(mantel, "element-class", "joinery");
  house.reader.say(mantel, "placements", "2");
  house.reader.say(mantel, "stands-in", house.room, {{"role", "stands in"}, {"placement", "1"}});
  house.reader.say(mantel, "stands-in", office, {{"role", "stands in"}, {"placement", "2"}});
  const Uuid look = house.reader.add(Kind::examination, "X-1", "First look");
  house.reader.say(look, "examined", mantel).content.citations = {{house.book, "p. 1", ""}};
  Timeline timeline;
  for (const int placement : {1, 2}) {
    timeline.items.push_back(house.item(mantel));
    timeline.items.back().placement = placement;
    timeline.items.back().placements = 2;
  }
  const std::string words = words_of(house.report(timeline));
  CHECK(words.find("looked at the mantel (E-1)") != std::string::npos);
  CHECK(words.find("X-1 looked here, too") == std::string::npos);
}

TEST_CASE("coats between matched coats are taken for the same where they are alike") {
  House house;
  const Uuid dado = house.thing("E-1", "Dado", "joinery"), rail = house.thing("E-2", "Rail", "joinery");
  FinishLayers layers;
  const auto sequence = [&](const Uuid& on, const std::string& code,
                            const std::vector<const char*>& colours) {
    FinishSequence one;
    one.element = *house.reader.record(on);
    for (const char* colour : colours) {
      FinishCoat coat;
      coat.layer = static_cast<int>(one.coats.size()) + 1;
      coat.record =
          *house.reader.record(house.reader.add(Kind::finish, code + std::to_string(coat.layer), colour));
      coat.colour = colour;
      coat.role = "finish coat";
      one.coats.push_back(coat);
    }
    layers.sequences.push_back(one);
  };
  sequence(dado, "F-1", {"pink", "green", "white", "red", "cream"});
  sequence(rail, "F-2", {"pink", "green", "grey", "red"});
  FinishGroup group;
  FinishAlignment alignment;
  alignment.sequence = 1;
  alignment.matches = {{1, 1, -1, -1, 0, 0.9}, {3, 3, -1, -1, 0, 0.9}};
  group.alignments = {alignment};
  layers.groups = {group};
  Timeline timeline;
  timeline.items = {house.item(dado), house.item(rail)};
  const auto put_on = [&] {
    std::vector<std::string> words;
    const Document document = house.report(timeline, &layers);
    each_block<Table>(document, [&](const Table& one) {
      if (one.caption.find("Rail") == std::string::npos) return;
      for (const Row& row : one.rows) words.push_back(row.cells.back().sentences.front().words());
    });
    return words;
  };
  // The grey between the two is no white.
  CHECK(put_on() == std::vector<std::string>{"as layer 1 of dado (E-1)", "as layer 2 of dado (E-1)",
                                             "not dated", "as layer 4 of dado (E-1)"});
  layers.sequences[1].coats[2].colour = "white";
  CHECK(put_on()[2] == "as layer 3 of dado (E-1)");
  layers.sequences[1].coats[0].colour = "buff";
  CHECK(put_on()[0] == "not dated");
}
