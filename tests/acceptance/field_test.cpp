// A day in the field with the real program: work is stopped and goes on, a tile lands in another's cell, one
// breaks in the hands, a hearth that lies flat, codes in runs, everyday words.
#include <catch2/catch.hpp>

#include "tests/acceptance/house.hpp"

using namespace lathbook::test;
using Catch::Contains;

namespace {

// Two rows of three tiles of one element in room 201: N-3 is a hearth, N-2 a coat of plaster.
struct Hearth : House {
  explicit Hearth(const std::string& element = "N-3") {
    begin();
    take_in(archive, usual_sheets());
    std::string sheet =
        "code,piece-type,piece-of,position,piece-state,piece-condition,source,class,confidence\n";
    for (int row = 1; row <= 2; ++row)
      for (int column = 1; column <= 3; ++column)
        sheet += element + "." + std::to_string(row) + std::to_string(column) + ",tile," + element +
                 ",cell {field=" + element + "; row=" + std::to_string(row) +
                 "; column=" + std::to_string(column) +
                 "},in place {on=2026-05-01},sound {on=2026-05-01},S-1,physical,certain\n";
    take_in(archive, {{"pieces-hearth.csv", sheet}});
    say(archive, element, "piece-map", "field", {"--with", "rows=2", "--with", "columns=3"});
  }

  void refused(const std::vector<std::string>& arguments, const std::string& words) const {
    INFO(arguments.front());
    const auto before = fingerprint(archive);
    const auto ran = run(arguments);
    CHECK(ran.code != 0);
    CHECK_THAT(ran.err, Contains(words));
    CHECK(is_one_sentence(ran.err));
    CHECK(fingerprint(archive) == before);
  }
};

}  // namespace

TEST_CASE("a stop stands in every later command, holds up the work, and is lifted by somebody on a ground") {
  Hearth house;
  house.done({"take-down", "N-3.23"});
  house.done({"stop", "201", "asbestos", "--words", "grey board behind the hearth", "--by", "ME"});
  const std::string loud = "WORK STOPPED at 201";
  const auto first_line_of = [&](const std::vector<std::string>& arguments) {
    const auto out = house.done(arguments);
    return out.substr(0, out.find('\n'));
  };
  for (const auto& command : std::vector<std::vector<std::string>>{{"show", "201"},
                                                                   {"show", "N-3"},
                                                                   {"show", "N-3.11"},
                                                                   {"history", "201"},
                                                                   {"print", "takedown", "N-3"},
                                                                   {"print", "pieces", "N-3"}})
    CHECK_THAT(first_line_of(command), Contains(loud));
  for (const auto& [plugin, form] :
       std::vector<std::pair<std::string, std::string>>{{"takedown", "work-sheet"},
                                                        {"takedown", "order-followed"},
                                                        {"pieces", "map"},
                                                        {"pieces", "crate-list"},
                                                        {"pieces", "labels"},
                                                        {"pieces", "matching-sheet"}})
    CHECK_THAT(house.done({"print", plugin, "N-3", "--form", form}), Contains(loud));
  CHECK_THAT(house.done({"print", "takedown", "N-3", "--json"}), Contains("\"stopped\"") && Contains(loud));
  CHECK_THAT(house.done({"show", "N-3"}), Contains("asbestos: presumed"));

  house.refused({"take-down", "N-3.11"}, "WORK STOPPED at 201");
  house.refused({"put-back", "N-3.23"}, "--although-stopped");
  house.refused({"did", "cleaned", "N-3.11"}, "until whoever is licensed or qualified has cleared it");
  CHECK(house.run({"did", "photographed", "N-3.11"}).code == 0);
  CHECK(house.run({"take-down", "N-3.12", "--on", "2026-05-02"}).code == 0);
  const auto anyhow = house.run({"take-down", "N-3.11", "--although-stopped", "it fell by itself"});
  CHECK(anyhow.code == 0);
  CHECK_THAT(anyhow.err, Contains(loud));
  CHECK_THAT(house.done({"show", "V-5"}), Contains("although work was stopped (V-2): it fell by itself"));

  house.refused({"lift", "V-2"}, "say both with --by CODE and --words GROUND");
  house.refused({"lift", "V-2", "--by", "ME", "--words", "report", "--on", "2026-05-01"},
                "cannot have been lifted on 1 May 2026");
  house.refused({"lift", "V-1", "--by", "ME", "--words", "report"}, "is no stop of work");
  house.refused({"lift", "V-2", "--by", "ME", "--words", "report", "--hazard-is", "negative"},
                "did you mean tested clear?");
  CHECK_THAT(house.done({"lift", "201", "--by", "ME", "--words", "laboratory report 12: no fibres",
                         "--hazard-is", "tested clear"}),
             Contains("The stop V-2 at 201") && Contains("clears nothing itself"));
  CHECK_THAT(house.done({"show", "N-3"}), Contains("tested clear: asbestos") && !Contains("WORK STOPPED"));
  CHECK(house.run({"take-down", "N-3.13"}).code == 0);
  house.refused({"lift", "V-2", "--by", "ME", "--words", "again"}, "was lifted already");
  CHECK(house.run({"check"}).code == 0);
}

TEST_CASE("a stop that is lifted without a test leaves the danger presumed") {
  Hearth house;
  house.done({"stop", "N-3", "lead", "--by", "ME"});
  CHECK_THAT(house.done({"show", "201"}), Contains("WORK STOPPED at N-3"));
  CHECK_THAT(house.done({"show", "N-1"}), !Contains("WORK STOPPED"));
  house.done({"lift", "N-3", "--by", "ME", "--words", "work goes on elsewhere in the field"});
  CHECK_THAT(house.done({"show", "N-3"}), Contains("lead: presumed") && !Contains("WORK STOPPED"));
}

TEST_CASE("a tile laid in another's cell is recorded there, and no second one is laid on it") {
  Hearth house;
  house.done({"take-down", "N-3.11", "N-3.12", "N-3.13"});
  house.refused({"put-back", "N-3.11", "--cell", "2,1"}, "two pieces cannot sit in one cell");
  house.refused({"put-back", "N-3.11", "--cell", "3,1"}, "has 2 rows and 3 columns");
  house.refused({"put-back", "N-3.11", "--cell", "second"}, "a cell is written ROW,COLUMN");
  house.refused({"put-back", "N-3.11", "N-3.12", "--cell", "1,1"}, "name one piece only");
  const auto laid = house.run({"put-back", "N-3.11", "--cell", "1,2"});
  REQUIRE(laid.code == 0);
  CHECK_THAT(laid.err, Contains("came from row 1, column 1 and is laid in row 1, column 2"));
  CHECK_THAT(laid.out, Contains("in place, row 1, column 2"));
  house.refused({"put-back", "N-3.12"}, "N-3.11 sits in row 1, column 2; two pieces cannot sit in one cell");
  CHECK_THAT(house.done({"print", "pieces", "N-3"}), Contains("N-3.11 is laid in row 1, column 2"));
  CHECK_THAT(house.done({"show", "N-3.11"}), Contains("row: 1; column: 1"));
  CHECK_THAT(house.done({"print", "pieces", "N-3", "--form", "map"}), Contains(">empty<"));
  house.done({"take-down", "N-3.11"});
  house.done({"put-back", "N-3.11"});
  house.done({"put-back", "N-3.12"});
  CHECK_THAT(house.done({"print", "pieces", "N-3"}), !Contains("is laid in"));
}

TEST_CASE("what breaks in the hands is counted as broken") {
  Hearth house;
  house.refused({"did", "damaged", "N-3.11", "--outcome", "broke in two"},
                "with --condition: sound, cracked");
  house.refused({"did", "damaged", "N-3.11", "--condition", "smashed"}, "did you mean broken");
  house.done({"did", "damaged", "N-3.11", "--outcome", "broke in two", "--condition", "broken"});
  CHECK_THAT(house.done({"print", "pieces", "N-3"}), Contains("6 laid = 5 whole + 1 broken + 0 missing"));
  house.done({"take-down", "N-3.12", "--condition", "fragments only"});
  CHECK_THAT(house.done({"print", "pieces", "N-3"}), Contains("4 whole + 2 broken"));
}

TEST_CASE("codes are taken in the runs in which they are printed") {
  Hearth house;
  CHECK_THAT(house.done({"take-down", "N-3.11", "to", "N-3.13,", "N-3.22"}),
             Contains("N-3.11, N-3.12, N-3.13, N-3.22: on bench"));
  CHECK_THAT(house.done({"pack", "N-3.13..N-3.11", "--into", "K-1"}), Contains("N-3.13, N-3.12, N-3.11"));
  CHECK_THAT(house.done({"pack", "N-3.22", "--into", "K-1"}), Contains("in container"));
  CHECK_THAT(house.done({"show", "N-3.22"}), Contains("order: 4"));
  house.refused({"put-back", "N-3.11 to N-3.99"}, "N-3.99");
  house.refused({"put-back", "N-3.11", "to"}, "a run of pieces has two ends");
  house.refused({"put-back", "N-3.11..N-1.01"}, "are not pieces of one element");
}

TEST_CASE("tiles of a hearth do not stand on one another, those of a wall do") {
  Hearth flat;
  const auto order = flat.done({"print", "takedown", "N-3"});
  CHECK_THAT(order, Contains("What lies flat") && !Contains("top down"));
  CHECK(flat.run({"take-down", "N-3.11"}).err.find("Danger") == std::string::npos);
  Hearth wall("N-2");
  CHECK_THAT(wall.done({"print", "takedown", "N-2"}), Contains("top down") && !Contains("What lies flat"));
  CHECK_THAT(wall.run({"take-down", "N-2.11"}).err, Contains("would leave N-2.21 without support"));
}

TEST_CASE("the dangers are told whole once a day for a field, then in one line") {
  Hearth house;
  CHECK_THAT(house.run({"take-down", "N-3.11"}).err, Contains("not tested, presume present: lead"));
  CHECK_THAT(house.run({"take-down", "N-3.12"}).err,
             Contains("Hazards as told for V-1: none found; what was not tested counts as present") &&
                 !Contains("presume present: lead"));
}

TEST_CASE("an everyday word is answered with the words of the list") {
  Hearth house;
  house.refused({"account", "N-3.11", "--state", "missing"}, "did you mean missing at survey, or lost by us");
  house.refused({"account", "N-3.11", "--state", "found"}, "did you mean on bench");
  house.refused({"did", "photo", "N-3.11"}, "did you mean photographed?");
}

TEST_CASE("labels carry the house, the field, the cell and the dangers") {
  Hearth house;
  house.say(house.archive, "201", "hazard", "lead", {"--with", "status=found"});
  house.done({"take-down", "N-3.11"});
  house.done({"pack", "N-3.11", "--into", "K-1"});
  const auto labels = house.done({"print", "pieces", "N-3", "--form", "labels"});
  CHECK_THAT(labels, Contains("row 1, column 1") && Contains("place 1") && Contains("lead: found"));
  CHECK_THAT(labels, Contains("in K-1"));
}
