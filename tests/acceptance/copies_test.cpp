// Copies added to apart and merged: the same set in any order, forks and clashes told, nothing lost.
#include <catch2/catch.hpp>

#include "tests/acceptance/house.hpp"

using namespace lathbook::test;
using Catch::Contains;
namespace fs = std::filesystem;

namespace {

struct Begun : House {
  Begun() {
    begin();
    take_in(archive, usual_sheets());
  }
};

// Reading commands that must go on working whatever a merge has brought together.
void check_all_work(const House& house, const std::string& code) {
  for (const auto& arguments : std::vector<std::vector<std::string>>{{"show", code},
                                                                     {"show", code, "--json"},
                                                                     {"show", code, "--all"},
                                                                     {"find", "tile"},
                                                                     {"tally"},
                                                                     {"write-out", "-"},
                                                                     {"write-out", "-", "--with-private"},
                                                                     {"made-for", "201"},
                                                                     {"check"}}) {
    INFO(arguments[0] << " " << (arguments.size() > 1 ? arguments[1] : ""));
    const auto ran = house.run(arguments);
    CHECK(ran.err == "");
    CHECK(ran.code == 0);
  }
  for (const auto& arguments : std::vector<std::vector<std::string>>{
           {"history", "201"}, {"history", "201", "--json"}, {"why", "N-2"}}) {
    const auto ran = house.run(arguments);
    INFO(arguments[0] << ": " << ran.err);
    CHECK(ran.code == 0);
  }
}

}  // namespace

TEST_CASE("two copies added to apart merge in either order to the same set") {
  Begun house;
  const auto other = house.copy("other");
  house.say(house.archive, "N-1", "note", "seen here");
  house.say(other, "N-1", "note", "seen there");
  house.take_in(other, {{"elements.csv",
                         "code,element-type,source,class,confidence\nN-9,skirting,S-1,physical,certain\n"}});
  write_file(house.folder / "photo.png", "the back of tile 14");
  house.say(other, "S-1", "media", (house.folder / "photo.png").string());
  const auto here_first = house.copy("here-first");
  const auto there_first = house.folder / "there-first";
  fs::copy(other, there_first, fs::copy_options::recursive);
  CHECK(house.fingerprint(house.archive) != house.fingerprint(other));

  house.done_in(here_first, {"merge", other.string()});
  house.done_in(there_first, {"merge", house.archive.string()});
  CHECK(house.fingerprint(here_first) == house.fingerprint(there_first));
  const auto all = house.everything(here_first);
  CHECK(all == house.everything(there_first));
  CHECK(folder_holds(here_first / "media", "the back of tile 14"));

  for (const auto& again : {other, there_first, house.archive}) {
    const auto ran = house.done_in(here_first, {"merge", again.string(), "--json"});
    CHECK(member(ran, "added") == "0");
    CHECK(house.everything(here_first) == all);
  }
  CHECK(house.in(here_first, {"check"}).code == 0);
  CHECK(house.in(there_first, {"check"}).code == 0);
}

TEST_CASE("a folder copied and added to on one machine begins a chain of its own") {
  Begun house;
  const auto other = house.copy("other");
  const auto here = house.say(house.archive, "N-1", "note", "seen here");
  const auto there = house.say(other, "N-1", "note", "seen there");
  CHECK(here != there);
  CHECK(here.substr(0, 8) != there.substr(0, 8));
  house.done({"merge", other.string()});
  CHECK_THAT(house.done({"show", "N-1"}), Contains("seen here") && Contains("seen there"));
  const auto check = house.run({"check"});
  CHECK(check.code == 0);
  CHECK_THAT(check.out, !Contains("chain.fork"));
}

TEST_CASE("an old backup put over the live archive and added to loses nothing and gives no number twice") {
  Begun house;
  const auto backup = house.copy("backup");
  const auto live = house.say(house.archive, "N-1", "note", "said before the loss");
  const auto saved = house.copy("saved");
  SECTION("the database file copied over") {
    fs::copy_file(backup / "archive.sqlite", house.archive / "archive.sqlite",
                  fs::copy_options::overwrite_existing);
  }
  SECTION("the folder replaced") {
    fs::remove_all(house.archive);
    fs::copy(backup, house.archive, fs::copy_options::recursive);
  }
  const auto after = house.say(house.archive, "N-1", "note", "said after the loss");
  CHECK(after != live);
  house.done({"merge", saved.string()});
  CHECK_THAT(house.done({"show", "N-1"}),
             Contains("said before the loss") && Contains("said after the loss"));
  const auto check = house.run({"check"});
  CHECK(check.code == 0);
  CHECK_THAT(check.out, !Contains("chain.fork"));
  CHECK(query_sql(house.archive / "archive.sqlite",
                  "SELECT CAST(count(*) AS TEXT) FROM (SELECT 1 FROM statement GROUP BY chain, n HAVING "
                  "count(*) > 1)") == "0");
}

TEST_CASE("a machine that forgot where it stood forks nothing") {
  Begun house;
  house.say(house.archive, "N-1", "note", "before");
  fs::remove_all(house.folder / "state");
  house.say(house.archive, "N-1", "note", "after");
  const auto check = house.run({"check"});
  CHECK(check.code == 0);
  CHECK_THAT(check.out, !Contains("chain.fork"));
}

TEST_CASE("a chain written on in two places is kept and reported") {
  // What a disk image does: the same file, remembered by the same state folder, goes on twice.
  Begun house;
  const auto database = house.archive / "archive.sqlite";
  const auto before = read_file(database);
  fs::copy(house.folder / "state", house.folder / "state-then", fs::copy_options::recursive);
  const auto once = house.say(house.archive, "N-1", "note", "the first time");
  const auto kept = house.copy("kept");
  write_file(database, before);
  fs::remove_all(house.folder / "state");
  fs::copy(house.folder / "state-then", house.folder / "state", fs::copy_options::recursive);
  const auto twice = house.say(house.archive, "N-1", "note", "the second time");
  REQUIRE(once == twice);
  CHECK_THAT(house.done({"merge", kept.string()}), Contains("chain.fork"));
  const auto check = house.run({"check"});
  CHECK(check.code == 0);
  CHECK_THAT(check.out, Contains("written in two places"));
  CHECK_THAT(house.done({"show", "N-1"}), Contains("the first time") && Contains("the second time"));
}

TEST_CASE("codes that clash after a merge are told and everything goes on") {
  Begun house;
  const auto other = house.copy("other");
  const std::string sheet =
      "code,element-type,stands-in,source,class,confidence\nN-7,dado,201 {face=north wall; role=shows "
      "in},S-1,physical,certain\n";
  house.take_in(house.archive, {{"elements.csv", sheet}});
  house.take_in(other, {{"elements.csv", sheet}});
  CHECK_THAT(house.done({"merge", other.string()}), Contains("rule.code") && Contains("N-7"));
  CHECK_THAT(house.done({"check"}), Contains("rule.code"));
  const auto asked = house.run({"show", "N-7"});
  CHECK(asked.code == 4);
  CHECK(is_one_sentence(asked.err));
  CHECK_THAT(asked.err, Contains("N-7~") && Contains("2 records"));
  const auto suffixed = asked.err.substr(asked.err.find("N-7~"), 8);
  check_all_work(house, suffixed);
  CHECK(house
            .run({"say", suffixed, "note", "the one by the window", "--source", "S-1", "--class", "physical",
                  "--confidence", "certain"})
            .code == 0);
}

TEST_CASE("two crates for one piece, by a merge, are a finding") {
  Begun house;
  const auto other = house.copy("other");
  const auto here = house.say(house.archive, "N-1.01", "in-container", "K-1");
  const auto there = house.say(other, "N-1.01", "in-container", "K-2");
  CHECK_THAT(house.done({"merge", other.string()}), Contains("rule.place"));
  CHECK_THAT(house.done({"check"}), Contains("rule.place") && Contains(here) && Contains(there));
  check_all_work(house, "N-1.01");
}

TEST_CASE("a circle of part-of, by a merge, is a finding") {
  Begun house;
  const auto other = house.copy("other");
  const auto here = house.say(house.archive, "N-2", "part-of", "N-3");
  const auto there = house.say(other, "N-3", "part-of", "N-2");
  CHECK_THAT(house.done({"merge", other.string()}), Contains("rule.circle"));
  CHECK_THAT(house.done({"check"}), Contains("rule.circle") && Contains(here) && Contains(there));
  check_all_work(house, "N-2");
}
