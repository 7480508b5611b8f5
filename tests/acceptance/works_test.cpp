// Work on things with the real program: what was tried before, what must stop, orders that somebody proposes,
// survivors that are given another cell.
#include <catch2/catch.hpp>
#include <regex>

#include "tests/acceptance/house.hpp"

using namespace lathbook::test;
using Catch::Contains;

namespace {

// Three courses of two tiles, the middle one loose.
struct Wall : House {
  Wall() {
    begin();
    take_in(archive, usual_sheets());
    std::string sheet =
        "code,piece-type,piece-of,position,piece-state,bed-sound,piece-condition,source,class,confidence\n";
    for (int row = 1; row <= 3; ++row)
      for (int column = 1; column <= 2; ++column)
        sheet +=
            "N-2." + std::to_string(row) + std::to_string(column) +
            ",tile,N-2,cell {field=N-2; row=" + std::to_string(row) + "; column=" + std::to_string(column) +
            "},in place {on=2026-05-01},hollow {on=2026-05-01},sound {on=2026-05-01},S-1,physical,certain\n";
    take_in(archive, {{"pieces-wall.csv", sheet}});
    say(archive, "N-2", "piece-map", "field", {"--with", "rows=3", "--with", "columns=2"});
  }
};

}  // namespace

TEST_CASE("what freed a rusted slotted screw is found again") {
  Wall house;
  house.say(house.archive, "N-2.11", "description", "steel screw, slotted head");
  house.done({"did", "tried", "N-2.11", "--by", "ME", "--tools", "screwdriver in the slot", "--worked",
              "did not work", "--outcome", "the slot of the rusty head began to give way"});
  house.done({"did", "tried", "N-2.11", "--by", "ME", "--tools",
              "soldering iron on the head, then a turn to the right first", "--worked", "worked", "--hours",
              "0.25", "--lesson", "heat before force"});
  house.done({"did", "cleaned", "N-2.12", "--tools", "damp swab"});
  const auto found = house.done({"tried", "what", "freed", "a", "rusted", "slotted", "screw?"});
  CHECK_THAT(found, Contains("soldering iron") && Contains("heat before force") && Contains("worked"));
  CHECK_THAT(found, Contains("did not work"));
  CHECK(found.find("damp swab") == std::string::npos);
  CHECK_THAT(house.done({"tried", "screw", "--most", "1", "--json"}), Contains("\"worked\": \"worked\""));
  CHECK_THAT(house.done({"tried", "parquet"}), Contains("nothing like it was tried before"));
}

TEST_CASE("work that must stop is entered and tells whom to ring") {
  Wall house;
  house.say(house.archive, "201", "ring-first", "Gas board, 555-0100", {"--with", "alarm=smell of gas"});
  house.say(house.archive, "201", "ring-first", "A. Reed, 555-0101");
  const auto told = house.done({"stop", "201", "smell of gas"});
  CHECK_THAT(told, Contains("Ring: Gas board, 555-0100\nRing: A. Reed, 555-0101") &&
                       Contains("No switch, no flame"));
  CHECK(house.done({"stop", "201", "human remains"}).find("Gas board") == std::string::npos);
  CHECK_THAT(house.run({"stop", "201", "noise"}).err, Contains("is neither an alarm"));
  CHECK_THAT(house.done({"show", "V-1"}), Contains("smell of gas"));
}

TEST_CASE("a removal that would leave something without support says so, and the order is kept") {
  Wall house;
  const auto low = house.run({"take-down", "N-2.11"});
  CHECK(low.code == 0);
  CHECK_THAT(low.err, Contains("Danger: taking N-2.11 ") && Contains("would leave N-2.21 without support") &&
                          Contains("Take first what is in danger, or prop it."));
  const auto top = house.run({"take-down", "N-2.32", "N-2.22"});
  CHECK(top.err.find("Danger") == std::string::npos);
  const auto followed = house.done({"print", "takedown", "N-2", "--json"});
  CHECK(followed.find("\"thing\": \"N-2.11\"") < followed.find("\"thing\": \"N-2.32\""));
  CHECK(followed.find("\"thing\": \"N-2.32\"") < followed.find("\"thing\": \"N-2.22\""));
  CHECK_THAT(house.done({"print", "takedown", "N-2", "--form", "order-followed"}),
             Contains("Order followed"));
  // Back goes what is out and nothing else, from the bottom up.
  const auto back = house.done({"print", "takedown", "N-2", "--setting", "way=back"});
  CHECK_THAT(back, Contains("putting back, 3 steps"));
  CHECK(back.find("N-2.11") < back.find("N-2.22"));
  CHECK(back.find("N-2.22") < back.find("N-2.32"));
  CHECK_THAT(house.run({"take-down", "N-2.31", "N-2.31"}).err, Contains("is named twice"));
}

TEST_CASE("what was missing at the survey cannot lose its support") {
  Wall house;
  house.say(house.archive, "N-2.32", "piece-state", "missing at survey", {"--with", "on=2026-05-02"});
  house.done({"take-down", "N-2.22"});
  CHECK(house.done({"print", "takedown", "N-2"}).find("as done") == std::string::npos);
  house.done({"take-down", "N-2.11"});
  CHECK_THAT(house.done({"print", "takedown", "N-2"}), Contains("while N-2.21 still stood"));
}

TEST_CASE("a proposed order is judged, and one that touches evidence is refused") {
  Wall house;
  const auto judged = [&](const std::string& order) {
    return house.run({"print", "takedown", "N-2", "--setting", "propose=" + order});
  };
  CHECK_THAT(judged("N-2.31 N-2.21 N-2.11").out, Contains("endangers nothing"));
  CHECK_THAT(judged("N-2.11, N-2.21").out, Contains("taking N-2.11") &&
                                               Contains("as number 1 would leave N-2.21") &&
                                               Contains("without support"));
  CHECK_THAT(judged("N-9").err, Contains("is not here to be taken"));
  house.say(house.archive, "N-2.31", "retained-as-evidence", "the last one in its bed");
  const auto refused = judged("N-2.31");
  CHECK(refused.code != 0);
  CHECK_THAT(refused.err, Contains("is kept as evidence, so no order may touch it"));
  CHECK(is_one_sentence(refused.err));
  CHECK_THAT(house.run({"did", "cleaned", "N-2.31"}).err, Contains("is kept as evidence"));
  CHECK(house.run({"did", "photographed", "N-2.31"}).code == 0);
}

TEST_CASE("where a part of a field stays, the order names it with what it may lie over") {
  Wall house;
  house.take_in(house.archive, {{"pieces-more.csv",
                                 "code,piece-type,piece-of,piece-state,source,class,confidence\n"
                                 "N-1.11,tile,N-1,in place {on=2026-05-01},S-1,physical,certain\n"
                                 "N-1.12,tile,N-1,in place {on=2026-05-01},S-1,physical,certain\n"}});
  house.say(house.archive, "N-1", "covers", "N-2", {"--with", "contact=laps over"});
  house.say(house.archive, "N-1.11", "retained-as-evidence", "the last one in its bed");
  const std::string warning =
      "look first: what stays as evidence, N-1.11 of N-1 tile field, may lie over N-2.";
  CHECK_THAT(house.done({"print", "takedown", "N-2"}), Contains(warning));
  const auto taken = house.run({"take-down", "N-2.31"});
  CHECK(taken.code == 0);
  CHECK_THAT(taken.err, Contains("Evidence: " + warning + "31"));
  const auto own = house.done({"print", "takedown", "N-1", "--form", "json"});
  const auto steps = own.substr(own.find("\"down\""), own.find("\"reasons\"") - own.find("\"down\""));
  CHECK_THAT(steps, Contains("\"N-1.12\"") && !Contains("\"N-1.11\""));
}

TEST_CASE("what beginning on a field endangers is told once and then pointed to") {
  Wall house;
  house.say(house.archive, "N-3", "covers", "N-2", {"--with", "contact=laps over"});
  const auto first = house.run({"take-down", "N-2.31"});
  CHECK_THAT(first.err, Contains("Danger: beginning on N-2") && Contains("lies over"));
  const auto second = house.run({"take-down", "N-2.32"});
  CHECK_THAT(second.err, !Contains("beginning on") && Contains("was begun: N-3 is still there; "));
  CHECK_THAT(second.err, Contains("--setting propose=N-2' says why"));
}

TEST_CASE("a bag is in nothing's way") {
  Wall house;
  house.take_in(
      house.archive,
      {{"pieces-bags.csv",
        "code,piece-type,piece-of,piece-state,in-container,count,source,class,confidence\n"
        "PC-1,bed,N-3,in container {on=2026-05-02},K-1 {on=2026-05-02},17,S-1,physical,certain\n"}});
  house.say(house.archive, "N-2", "fixed-to", "N-3", {"--with", "contact=bedded on"});
  house.done({"take-down", "N-2.31"});
  const auto back = house.run({"put-back", "N-2.31"});
  CHECK(back.code == 0);
  CHECK_THAT(back.err, !Contains("PC-1"));
  CHECK_THAT(house.done({"print", "takedown", "201", "--setting", "way=back"}), !Contains("PC-1"));
}

TEST_CASE("why takes the words and the statement names that show prints") {
  Wall house;
  const auto told = house.done({"why", "N-2", "type"});
  CHECK_THAT(told, Contains("plaster coat"));
  std::smatch found;
  REQUIRE(std::regex_search(told, found, std::regex("[0-9a-f]{8}-[0-9]+")));
  const std::string name = found.str();
  CHECK_THAT(house.done({"why", name}), Contains("plaster coat") && Contains(name));
  CHECK_THAT(house.done({"why", "N-2", name}), Contains("plaster coat"));
  CHECK(house.run({"why", "00000000-1"}).code == 3);
  CHECK_THAT(house.run({"why", "N-2", "no such words"}).err, Contains("there is no property"));
}

TEST_CASE("an answer that no contradiction has is one sentence") {
  Wall house;
  const auto ran = house.run({"history", "201", "--answer", "99"});
  CHECK(ran.code == 4);
  CHECK_THAT(ran.err, Contains("no contradiction here has several equally good ways out"));
  CHECK(is_one_sentence(ran.err));
  CHECK(house.run({"history", "201", "--answer", "1"}).code == 0);
}

TEST_CASE("survivors are proposed for the cells most in view, and one is accepted") {
  Wall house;
  for (const char* piece : {"N-2.32", "N-2.31", "N-2.22", "N-2.21", "N-2.12", "N-2.11"})
    house.done({"take-down", piece});
  for (const char* piece : {"N-2.22", "N-2.21"})
    house.say(house.archive, piece, "piece-condition", "broken", {"--with", "on=2026-05-03"});
  const auto proposals = house.done({"proposals", "placing", "N-2", "--json"});
  const auto key = member(proposals, "key");
  REQUIRE(!key.empty());
  CHECK_THAT(house.done({"proposals", "placing", "N-2"}), Contains("to row 2, column 1"));
  house.done({"accept", "placing", "N-2", key});
  CHECK_THAT(house.done({"print", "placing", "N-2"}), Contains("it was given row 2, column"));
}

TEST_CASE("the sheet for putting back tells steps, waiting and the map") {
  Wall house;
  house.say(house.archive, "N-2", "repair-step", "bed in lime putty",
            {"--with", "order=1", "--with", "each=course", "--with", "waits=2", "--with", "product=putty"});
  house.say(house.archive, "N-2", "repair-step", "point the joints",
            {"--with", "order=2", "--with", "each=once"});
  const auto sheet =
      house.done({"print", "takedown", "N-2", "--form", "work-sheet", "--setting", "way=back"});
  CHECK_THAT(sheet, Contains("bed in lime putty") && Contains("2 days") && Contains("<svg"));
  CHECK(sheet.find("bed in lime putty") < sheet.find("point the joints"));
}

TEST_CASE("a piece marked on a photograph is drawn on it, with the face that is seen") {
  Wall house;
  write_file(house.folder / "wall.svg",
             "<svg xmlns='http://www.w3.org/2000/svg' width='400' height='200'><rect width='400' "
             "height='200'/></svg>");
  house.say(house.archive, "S-1", "media", (house.folder / "wall.svg").string());
  CHECK_THAT(house.run({"print", "pieces", "N-2", "--form", "photo-map"}).err, Contains("no piece of N-2"));
  house.say(house.archive, "N-2.11", "pictured-in", "S-1",
            {"--with", "spot=left, xywh=100,50,200,100", "--with", "face=back"});
  house.say(house.archive, "N-2.12", "piece-state", "missing at survey", {"--with", "on=2026-05-03"});
  // The marked rectangle alone, of the whole picture.
  CHECK_THAT(house.done({"print", "pieces", "N-2", "--form", "matching-sheet"}),
             Contains("viewBox=\"100 50 200 100\"") && Contains("back: N-2.11"));
  const auto map = house.done({"print", "pieces", "N-2", "--form", "photo-map"});
  // A quarter of 180 mm from the left, half of it wide.
  CHECK_THAT(map, Contains("<rect x=\"45\" y=\"39.5\" width=\"90\" height=\"45\"") &&
                      Contains("data:image/svg+xml;base64,") && Contains("shows the back") &&
                      Contains("1 piece is marked on it, of 6"));
}
