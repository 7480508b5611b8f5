// Expunged words are gone from every byte of the folder and do not come back from an old copy.
#include <catch2/catch.hpp>

#include "tests/acceptance/house.hpp"

using namespace lathbook::test;
using Catch::Contains;
namespace fs = std::filesystem;

namespace {

const std::vector<std::string> kWords{"Quillfeather", "quillfeather", "smokehouse nine",
                                      "PICTURE-OF-A-PERSON", "lettersgone"};

struct Secretive : House {
  Secretive() {
    begin();
    take_in(archive, usual_sheets());
    // Many statements around it, so that words spread over pages of the search index.
    std::string rows = "code,element-type,description,source,class,confidence\n";
    for (int i = 1; i <= 60; ++i) {
      rows += "X-" + std::to_string(i) + ",plank,\"plank " + std::to_string(i) +
              " of the floor, quartered oak\",S-1,physical,certain\n";
    }
    take_in(archive, {{"elements.csv", rows}});
    write_file(folder / "person.png", "PICTURE-OF-A-PERSON and more bytes");
    targets.push_back(
        say(archive, "N-1", "note", "Miss Quillfeather lived here", {"--quote", "smokehouse nine"}));
    targets.push_back(say(archive, "S-1", "media", (folder / "person.png").string()));
    done({"new", "mark", "M-1"});
    targets.push_back(say(archive, "M-1", "transcription", "[---]LETTERSGONE / AB"));
    say(archive, "N-1", "note", "hollow when tapped");
    old = copy("old");
    for (const auto& word : kWords) {
      if (word != "lettersgone") REQUIRE((folder_holds(archive, word) || word == "quillfeather"));
    }
  }
  void expunge() const {
    std::vector<std::string> arguments{"expunge"};
    arguments.insert(arguments.end(), targets.begin(), targets.end());
    for (const char* more : {"--why", "asked for by the family", "--i-am-sure"}) arguments.emplace_back(more);
    done(arguments);
  }
  void check_gone(const fs::path& where) const {
    for (const auto& word : kWords) {
      INFO(word << " in " << where.filename());
      CHECK_FALSE(folder_holds(where, word));
    }
    CHECK_FALSE(folder_holds(where, "LETTERSGONE"));
    CHECK(in(where, {"check"}).code == 0);
    CHECK_THAT(done_in(where, {"find", "Quillfeather", "--with-private"}), Contains("nothing holds"));
    CHECK_THAT(done_in(where, {"show", "N-1", "--all", "--with-private"}),
               Contains("hollow") && !Contains("lived here"));
    CHECK(member(done_in(where, {"tally", "--json"}), "expunged") == std::to_string(targets.size()));
  }
  std::vector<std::string> targets;
  fs::path old;
};

}  // namespace

TEST_CASE("expunged words cannot be found in any byte of the folder") {
  Secretive house;
  house.expunge();
  house.check_gone(house.archive);
}

TEST_CASE("expunged words do not come back from an old copy merged in") {
  Secretive house;
  house.expunge();
  house.say(house.old, "N-2", "note", "an entry of the old copy");
  house.done({"merge", house.old.string()});
  house.check_gone(house.archive);
  CHECK_THAT(house.done({"show", "N-2"}), Contains("an entry of the old copy"));
}

TEST_CASE("an old copy that merges the expunging loses the words too") {
  Secretive house;
  house.expunge();
  house.done_in(house.old, {"merge", house.archive.string()});
  house.check_gone(house.old);
  CHECK(house.everything(house.old) == house.everything(house.archive));
}

TEST_CASE("expunged words do not come back by way of an exchange document") {
  Secretive house;
  const auto before = house.folder / "before.xml";
  house.done({"write-out", before.string(), "--with-private"});
  house.expunge();
  const auto restored = house.folder / "restored";
  house.done({"restore", before.string(), restored.string()});
  REQUIRE(folder_holds(restored, "Quillfeather"));
  SECTION("merged into the archive") {
    house.done({"merge", restored.string()});
    house.check_gone(house.archive);
  }
  SECTION("the archive merged into it") {
    house.done_in(restored, {"merge", house.archive.string()});
    house.check_gone(restored);
  }
}

TEST_CASE("a file that another statement still cites stays") {
  Secretive house;
  house.take_in(house.archive,
                {{"sources.csv",
                  "code,source-type,title,class,confidence\nS-2,photograph,Again,documentary,certain\n"}});
  const auto second = house.say(house.archive, "S-2", "media", (house.folder / "person.png").string());
  house.expunge();
  CHECK(folder_holds(house.archive / "media", "PICTURE-OF-A-PERSON"));
  house.done({"expunge", second, "--why", "asked for", "--i-am-sure"});
  CHECK_FALSE(folder_holds(house.archive, "PICTURE-OF-A-PERSON"));
}

TEST_CASE("expunging asks first") {
  Secretive house;
  const auto before = house.everything(house.archive);
  const auto ran = house.run({"expunge", house.targets[0], "--why", "asked for"});
  CHECK(ran.code == 6);
  CHECK(is_one_sentence(ran.err));
  CHECK(house.everything(house.archive) == before);
}
