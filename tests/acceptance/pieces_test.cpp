// Pieces taken down, packed, lost, found and put back with the real program; what cannot be is refused.
#include <catch2/catch.hpp>

#include "tests/acceptance/house.hpp"

using namespace lathbook::test;
using Catch::Contains;

namespace {

struct Tiled : House {
  Tiled() {
    begin();
    take_in(archive, usual_sheets());
    take_in(archive, {{"pieces-more.csv",
                       "code,piece-type,piece-of,position,piece-state,source,class,confidence\n"
                       "N-1.11,tile,N-1,\"low {field=N-1; row=1; column=1}\",in place "
                       "{on=2026-05-01},S-1,physical,certain\n"
                       "N-1.12,tile,N-1,\"high {field=N-1; row=2; column=1}\",in place "
                       "{on=2026-05-01},S-1,physical,certain\n"}});
    say(archive, "N-1", "piece-map", "field", {"--with", "rows=2", "--with", "columns=1"});
  }
};

}  // namespace

TEST_CASE("a tile comes down, is packed, moves on, is put back; each move is kept") {
  Tiled house;
  const auto down =
      house.run({"take-down", "N-1.12", "--by", "ME", "--tools", "thin chisel", "--hours", "0.5"});
  REQUIRE(down.code == 0);
  CHECK_THAT(down.out, Contains("N-1.12: on bench, since 2026-05-03 (event V-1)"));
  CHECK_THAT(down.err, Contains("not tested, presume present: lead"));
  CHECK_THAT(house.done({"pack", "N-1.12", "--into", "K-1", "--order", "1"}), Contains("in container, K-1"));
  const auto early = house.run({"pack", "N-1.12", "--into", "K-2", "--on", "2 May 2026"});
  CHECK(early.code == 4);
  CHECK(is_one_sentence(early.err));
  CHECK_THAT(early.err, Contains("was in place on 2 May 2026, and in container only since 3 May 2026"));
  CHECK_THAT(house.done({"print", "pieces", "N-1", "--json"}), Contains("\"container\": \"K-1\""));
  house.now = "2026-06-01T10:00:00Z";
  CHECK_THAT(
      house.done({"put-back", "N-1.12", "--product", "lime putty", "--batch", "7", "--on", "2026-06-01"}),
      Contains("in place"));
  CHECK_THAT(house.done({"show", "N-1.12"}), Contains("in container") && Contains("in place"));
  CHECK_THAT(house.done({"find", "thin chisel"}), Contains("V-1"));
  CHECK(house.run({"check"}).code == 0);
}

TEST_CASE("impossible events are refused in one sentence and nothing is entered") {
  Tiled house;
  house.done({"take-down", "N-1.12"});
  house.done({"pack", "N-1.12", "--into", "K-1"});
  const auto before = house.fingerprint(house.archive);
  const auto refused = [&](const std::vector<std::string>& arguments, const std::string& words) {
    INFO(arguments.front() << " " << arguments[1]);
    const auto ran = house.run(arguments);
    CHECK(ran.code != 0);
    CHECK_THAT(ran.err, Contains(words));
    CHECK(is_one_sentence(ran.err));
    CHECK(house.fingerprint(house.archive) == before);
  };
  refused({"take-down", "N-1.12"}, "is in container already, so it cannot be taken down (K-1");
  refused({"pack", "N-1.12", "--into", "K-1"}, "is in that container already");
  refused({"pack", "N-1.11", "--into", "K-1"}, "is in place; take it down first");
  refused({"pack", "N-1.11", "N-1.12", "--into", "K-2"}, "N-1.11");
  refused({"put-back", "N-1.11"}, "is in place already");
  refused({"account", "N-1.11", "--state", "discarded", "--by", "ME"}, "take it down first");
  refused({"account", "N-1.12", "--state", "discarded"}, "by somebody's authority");
  refused({"account", "N-1.12", "--state", "somewhere"}, "is not one of the words of piece-state");
  refused({"pack", "N-1.12", "--into", "N-2"}, "is no container");
  refused({"take-down", "N-1"}, "is no piece");
  refused({"say", "N-1.01", "position", "low", "--with", "field=N-1", "--with", "row=1", "--with", "column=1",
           "--source", "S-1", "--class", "physical", "--confidence", "certain"},
          "two pieces cannot sit in one cell");
  refused({"say", "N-1.12", "in-container", "K-2", "--with", "on=2026-05-03", "--source", "S-1", "--class",
           "physical", "--confidence", "certain"},
          "amend that statement");
}

TEST_CASE("what is kept as evidence is not taken down") {
  Tiled house;
  house.say(house.archive, "N-1.11", "retained-as-evidence", "the last one in its bed");
  const auto ran = house.run({"take-down", "N-1.11"});
  CHECK(ran.code == 6);
  CHECK_THAT(ran.err, Contains("is kept as evidence"));
  CHECK_THAT(house.done({"print", "takedown", "N-1"}), Contains("stays as evidence: N-1.11"));
}

TEST_CASE("what lies under evidence is refused in its own field, when proposed and when taken") {
  Tiled house;
  house.say(house.archive, "N-1.12", "retained-as-evidence", "the last one in its bed");
  const std::string beneath = "N-1.11 cannot come away while N-1.12 stays as evidence";
  CHECK_THAT(house.done({"print", "takedown", "N-1"}), Contains(beneath));
  const auto proposed = house.run({"print", "takedown", "N-1", "--setting", "propose=N-1.11"});
  CHECK(proposed.code == 6);
  CHECK_THAT(proposed.err, Contains(beneath) && Contains("stands on"));
  const auto taken = house.run({"take-down", "N-1.11"});
  CHECK(taken.code == 6);
  CHECK_THAT(taken.err, Contains(beneath) && Contains("nothing was entered"));
  const auto sampled = house.run({"account", "N-1.12", "--state", "used up as a sample"});
  CHECK(sampled.code == 6);
}

TEST_CASE("a piece set before what it stands on is warned of, and an older day is told as such") {
  Tiled house;
  house.done({"take-down", "N-1.12", "N-1.11"});
  const auto early = house.run({"put-back", "N-1.12"});
  REQUIRE(early.code == 0);
  CHECK_THAT(early.err, Contains("Danger: setting N-1.12 comes too early, for N-1.11 is not in place yet"));
  const auto next = house.run({"put-back", "N-1.11"});
  CHECK_THAT(next.err, !Contains("Danger"));
  const auto older = house.run({"account", "N-1.11", "--state", "on bench", "--on", "2026-05-02"});
  CHECK_THAT(older.out, Contains("on bench, on 2026-05-02") &&
                            Contains("N-1.11 stays in place, since 2026-05-03, which is later"));
}

TEST_CASE("a place in a container is one piece's, and what has left it is said to have left") {
  Tiled house;
  house.done({"take-down", "N-1.12", "N-1.11"});
  house.done({"pack", "N-1.12", "--into", "K-1", "--order", "3"});
  const auto taken = house.run({"pack", "N-1.11", "--into", "K-1", "--order", "3"});
  CHECK(taken.code != 0);
  CHECK_THAT(taken.err, Contains("place 3 in K-1") && Contains("is taken by N-1.12") &&
                            Contains("the next free one is 4"));
  CHECK_THAT(house.done({"show", "K-1"}), Contains("N-1.12") && !Contains("no longer"));
  house.now = "2026-06-01T10:00:00Z";
  house.done({"put-back", "N-1.12", "--on", "2026-06-01"});
  CHECK_THAT(house.done({"show", "K-1"}), Contains("[no longer: in place, since 2026-06-01]"));
}

TEST_CASE("books, map, lists, labels and work sheet of a field") {
  Tiled house;
  house.done({"account", "N-1.11", "--state", "lost by us"});
  CHECK_THAT(house.done({"print", "pieces", "N-1"}),
             Contains("3 laid = 2 whole + 0 broken + 1 missing") && Contains("has no cell in the map"));
  CHECK_THAT(house.done({"print", "pieces", "N-1", "--form", "map", "--setting", "side=back"}),
             Contains("from behind") && Contains("<svg"));
  CHECK_THAT(house.done({"print", "pieces", "N-1", "--form", "matching-sheet"}), Contains("Pieces to find"));
  CHECK_THAT(house.done({"print", "pieces", "N-1", "--form", "crate-list"}), Contains("Crate list"));
  CHECK_THAT(house.done({"print", "pieces", "--form", "labels"}), Contains("Never stick one on a tile"));
  CHECK_THAT(house.done({"print", "takedown", "201", "--form", "work-sheet"}),
             Contains("Take care") && Contains("Order of taking down"));
  CHECK_THAT(house.done({"print", "lifting", "--setting", "load=38", "--setting", "away=45", "--setting",
                         "height=20", "--setting", "grip=poor"}),
             Contains("8.7 kg"));
}

TEST_CASE("a setting with a slip in its name is refused") {
  Tiled house;
  for (const char* plugin : {"pieces", "takedown"}) {
    const auto ran = house.run({"print", plugin, "N-1", "--setting", "rejcts=20"});
    CHECK(ran.code == 4);
    CHECK_THAT(ran.err, Contains(std::string("plugin '") + plugin +
                                 "' has no setting \u201crejcts\u201d; its settings are"));
    CHECK(is_one_sentence(ran.err));
  }
}

// The counts are those of tests/pieces/quantities_test.cpp, with their sources.
TEST_CASE("quantities are reckoned without a record, and what is missing or wrong is named") {
  House house;
  house.begin();
  const auto asked = [&](std::vector<std::string> settings) {
    std::vector<std::string> arguments{"print", "pieces", "--form", "quantities"};
    for (auto& setting : settings) {
      arguments.emplace_back("--setting");
      arguments.push_back(std::move(setting));
    }
    return house.run(arguments);
  };
  CHECK_THAT(asked({"run=54 in", "rise=18 in", "length=6 in", "width=6 in", "joint=1/8 in"}).out,
             Contains("27 pieces: 9 (the last one cut)") && Contains("by area it would be 25.9"));
  CHECK_THAT(asked({"of=brick", "run=14 ft", "rise=8 ft", "length=8 in", "width=2 1/4 in", "joint=1/2 in",
                    "allowance=10", "waste=20"})
                 .out,
             Contains("690 bricks") && Contains("on top: 759") && Contains("of waste 10.7"));
  CHECK_THAT(asked({"of=brickwork", "run=3 ft", "rise=3 ft", "thickness=3 ft", "joint=3/8 in",
                    "opening=1 ft x 1 ft"})
                 .out,
             Contains("500 bricks by volume") && Contains("1 opening below 100 square feet not deducted"));
  const auto refused = [&](std::vector<std::string> settings, const std::string& words) {
    const auto ran = asked(std::move(settings));
    CHECK(ran.code == 4);
    CHECK_THAT(ran.err, Contains(words));
    CHECK(is_one_sentence(ran.err));
  };
  refused({"run=54 in"}, "setting 'rise' is missing");
  refused({"run=54"}, "is a length with its unit");
  refused({"of=slate"}, "setting 'of' is tile");
  refused({"colour=green"}, "has no setting “colour”; its settings are allowance");
  refused({"opening=3 ft"}, "width x height");
}
