// What has been changed, lost or cut off is found and named.
#include <catch2/catch.hpp>

#include "tests/acceptance/house.hpp"

using namespace lathbook::test;
using Catch::Contains;
namespace fs = std::filesystem;

namespace {

struct Tampered : House {
  Tampered() {
    begin();
    take_in(archive, usual_sheets());
    note = say(archive, "N-1", "note", "rattles when tapped");
    last = say(archive, "N-1", "note", "hollow at its left side");
    mark = fingerprint(archive);
    REQUIRE(run({"check", "--fingerprint", mark}).code == 0);
  }
  fs::path database() const { return archive / "archive.sqlite"; }
  static std::string number(const std::string& name) { return name.substr(name.rfind('-') + 1); }
  std::string note, last, mark;
};

const std::string kForget = "PRAGMA foreign_keys=OFF;";

}  // namespace

TEST_CASE("one byte changed in a stored statement is found and named") {
  Tampered house;
  const std::string where = " FROM statement WHERE n = " + Tampered::number(house.note);
  const auto size = std::stoul(query_sql(house.database(), "SELECT CAST(length(content) AS TEXT)" + where));
  REQUIRE(size > 40);
  for (const auto at : {std::size_t{0}, size / 2, size - 1}) {
    INFO("byte " << at << " of " << size);
    const auto hex = query_sql(house.database(), "SELECT hex(content)" + where);
    std::string other = hex;
    other[2 * at] = hex[2 * at] == '0' ? '1' : '0';
    execute_sql(house.database(),
                "UPDATE statement SET content = x'" + other + "' WHERE n = " + Tampered::number(house.note));
    const auto ran = house.run({"check"});
    CHECK(ran.code == 1);
    CHECK_THAT(ran.out, Contains(house.note) && Contains("changed"));
    execute_sql(house.database(),
                "UPDATE statement SET content = x'" + hex + "' WHERE n = " + Tampered::number(house.note));
    CHECK(house.run({"check"}).code == 0);
  }
}

TEST_CASE("a statement missing from the middle is found and named") {
  Tampered house;
  execute_sql(house.database(),
              kForget + "DELETE FROM citation WHERE statement = (SELECT id FROM statement WHERE n = " +
                  Tampered::number(house.note) +
                  "); DELETE FROM statement WHERE n = " + Tampered::number(house.note));
  const auto ran = house.run({"check"});
  CHECK(ran.code == 1);
  CHECK_THAT(ran.out, Contains("statement " + house.note + " is missing"));
}

TEST_CASE("a lost tail shows against a known fingerprint, and only there") {
  Tampered house;
  const std::string lost = Tampered::number(house.last);
  execute_sql(house.database(),
              kForget + "DELETE FROM head; INSERT INTO head SELECT digest FROM statement WHERE n = " + lost +
                  " - 1;"
                  "DELETE FROM citation WHERE statement = (SELECT id FROM statement WHERE n = " +
                  lost +
                  ");"
                  "DELETE FROM statement WHERE n = " +
                  lost + ";");
  CHECK(house.run({"check"}).code == 0);
  const auto ran = house.run({"check", "--fingerprint", house.mark});
  CHECK(ran.code == 1);
  CHECK_THAT(ran.out, Contains(house.mark) && Contains("lost"));
}

TEST_CASE("a changed file is found and named") {
  Tampered house;
  write_file(house.folder / "photo.png", "the back of tile 14");
  house.say(house.archive, "S-1", "media", (house.folder / "photo.png").string());
  CHECK(house.run({"check"}).code == 0);
  for (const auto& entry : fs::recursive_directory_iterator(house.archive / "media")) {
    if (entry.is_regular_file()) write_file(entry.path(), "the back of tile 15");
  }
  const auto ran = house.run({"check"});
  CHECK(ran.code == 1);
  CHECK_THAT(ran.out, Contains("media.changed"));
  CHECK(house.run({"check", "--no-media"}).code == 0);
}

TEST_CASE("a tampered copy is refused by name and nothing is merged") {
  Tampered house;
  const auto copy = house.copy("copy");
  const auto theirs = house.say(copy, "N-2", "note", "seen elsewhere");
  const auto before = house.everything(house.archive);
  const fs::path database = copy / "archive.sqlite";
  std::string named;
  SECTION("the content of a statement that is here too") {
    const auto hex =
        query_sql(database, "SELECT hex(content) FROM statement WHERE n = " + Tampered::number(house.note));
    execute_sql(database, "UPDATE statement SET content = x'" + hex.substr(0, hex.size() - 2) +
                              (hex.substr(hex.size() - 2) == "00" ? "01" : "00") +
                              "' WHERE n = " + Tampered::number(house.note));
    named = house.note;
  }
  SECTION("the header of a statement") {
    const auto hex =
        query_sql(database, "SELECT hex(header) FROM statement WHERE n = " + Tampered::number(house.note));
    std::string other = hex;
    other[hex.size() - 1] = hex.back() == '0' ? '1' : '0';
    execute_sql(database,
                "UPDATE statement SET header = x'" + other + "' WHERE n = " + Tampered::number(house.note));
    named = house.note;
  }
  SECTION("a statement taken out of its own chain") {
    const auto after = house.say(copy, "N-2", "note", "and again");
    execute_sql(
        database,
        kForget +
            "DELETE FROM citation WHERE statement IN (SELECT s.id FROM statement s JOIN chain c ON c.id = "
            "s.chain "
            "WHERE lower(hex(c.name)) LIKE '" +
            theirs.substr(0, 8) + "%' AND s.n = " + Tampered::number(theirs) +
            ");"
            "DELETE FROM statement WHERE id IN (SELECT s.id FROM statement s JOIN chain c ON c.id = s.chain "
            "WHERE lower(hex(c.name)) LIKE '" +
            theirs.substr(0, 8) + "%' AND s.n = " + Tampered::number(theirs) + ");");
    named = theirs;
  }
  const auto ran = house.run({"merge", copy.string()});
  CHECK(ran.code == 5);
  CHECK(is_one_sentence(ran.err));
  CHECK_THAT(ran.err, Contains(named));
  CHECK(house.everything(house.archive) == before);
  CHECK(house.run({"check"}).code == 0);
}
