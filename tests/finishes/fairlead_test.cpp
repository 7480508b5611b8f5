// The invented house: what its author meant by the paint of the Dining Room, with the real program.
#include <catch2/catch.hpp>
#include <filesystem>
#include <regex>

#include "tests/support/support.hpp"

using namespace lathbook;
namespace fs = std::filesystem;

namespace {

const fs::path kSample = fs::path(LATHBOOK_SOURCE_DIR) / "archive-sample";

// Taken in once for all tests of this file.
class Fairlead {
public:
  Fairlead() {
    done({"begin", archive().string()});
    done({"take-in", (kSample / "sheets").string(), "--media", (kSample / "media").string()});
  }
  fs::path archive() const { return folder_ / "house"; }
  fs::path file(const std::string& name) const { return folder_ / name; }
  test::Ran run(std::vector<std::string> arguments) const {
    arguments.insert(arguments.begin(), {test::program(), "--archive", archive().string()});
    return test::run(arguments,
                     {"XDG_STATE_HOME=" + (folder_ / "state").string(), "LATHBOOK_NOW=2025-02-03T09:00:00Z",
                      "LATHBOOK_ARCHIVE=", "LATHBOOK_RECORDER=", "LATHBOOK_PLUGINS="});
  }
  std::string done(const std::vector<std::string>& arguments) const {
    const auto ran = run(arguments);
    if (ran.code != 0) throw std::runtime_error(ran.err + ran.out);
    return ran.out;
  }
  static const Fairlead& get() {
    static const Fairlead house;
    return house;
  }

private:
  test::TempFolder folder_;
};

// Words of a text with every run of white space one blank.
std::string flat(const std::string& text) {
  return std::regex_replace(text, std::regex("\\s+"), " ");
}

std::string key_of(const std::string& proposals, const std::string& words) {
  std::smatch found;
  const std::regex line("([0-9a-f]{8})  [^\n]*" + words);
  return std::regex_search(proposals, found, line) ? found[1].str() : std::string();
}

}  // namespace

TEST_CASE("Fairlead: eight coats of the dado, and what its neighbours lack") {
  const std::string told = flat(Fairlead::get().done({"layers", "105"}));
  INFO(told);
  CHECK_THAT(told, Catch::Contains("Hatch casing (E-105.03) begins with coat 4, dark sea green, 5G 3/4"));
  CHECK_THAT(told, Catch::Contains("It was put in after coat 3, oak graining, varnished, 7.5YR 4/4"));
  CHECK_THAT(told, Catch::Contains("Dado rail (E-105.02) begins as Dining Room dado (E-105.01) does"));
  CHECK_THAT(told, Catch::Contains("Door to the Hall (E-105.11) begins as Dining Room dado (E-105.01) does"));
  CHECK_THAT(told, Catch::Contains("Casing of window 1 (E-105.12) begins with coat 4"));
  CHECK_THAT(told, Catch::Contains("It was stripped once"));
  CHECK_THAT(told, Catch::Contains("It has whites only"));
  CHECK_THAT(told, Catch::Contains("It has a single coat to compare"));
  CHECK_THAT(told, Catch::Contains("Nobody has looked whether it was stripped"));
}

TEST_CASE("Fairlead: only what can be said is proposed, and no more surely than it was read") {
  const std::string offered = Fairlead::get().done({"proposals", "finishes", "105"});
  INFO(offered);
  CHECK_FALSE(key_of(offered, "Hatch casing .*put in after coat 3.*\\(probable\\)").empty());
  CHECK_FALSE(key_of(offered, "Hatch casing .*stood when coat 4.*\\(probable\\)").empty());
  CHECK_FALSE(key_of(offered, "Casing of window 1 .*put in after coat 3.*\\(possible\\)").empty());
  for (const char* silent :
       {"E-105.13", "E-105.14", "E-105.15", "E-105.16", "E-105.02\\) was", "E-105.11\\) was"})
    CHECK(key_of(offered, silent).empty());
  // The archive says already that the greens are one coat.
  CHECK(key_of(offered, "F-105.21").empty());
  CHECK(offered.find("certain") == std::string::npos);
}

TEST_CASE("Fairlead: one coat and no neighbour say nothing in the Chart Room") {
  const auto& house = Fairlead::get();
  CHECK_THAT(flat(house.done({"layers", "202"})), Catch::Contains("It has a single coat to compare"));
  CHECK_THAT(house.done({"proposals", "finishes", "202"}), Catch::Contains("nothing is proposed"));
}

TEST_CASE("Fairlead: an accepted proposal moves the date of the hatch casing, and can be asked why") {
  const auto& house = Fairlead::get();
  CHECK_THAT(house.done({"why", "E-105.03", "begins"}), Catch::Contains("nothing says how late"));
  const std::string offered = house.done({"proposals", "finishes", "E-105.03"});
  const std::string key = key_of(offered, "stood when coat 4");
  REQUIRE(key.size() == 8);
  house.done({"accept", "finishes", "E-105.03", key, "--by", "A-22", "--on", "2024-06-11"});
  const std::string why = house.done({"why", "E-105.03", "begins"});
  CHECK_THAT(why, Catch::Contains("not after 22 March 1926"));
  CHECK_THAT(why, Catch::Contains("was in place before"));
  CHECK_THAT(why, Catch::Contains("scrape 5C"));
  CHECK(key_of(house.done({"proposals", "finishes", "E-105.03"}), "stood when coat 4").empty());
}

TEST_CASE("Fairlead: the drawing is written, for paper and for a phone") {
  const auto& house = Fairlead::get();
  house.done({"layers", "105", "--svg", house.file("wide.svg").string()});
  house.done({"layers", "105", "--narrow", "--svg", house.file("narrow.svg").string()});
  CHECK_THAT(test::read_file(house.file("wide.svg")), Catch::Contains("viewBox=\"0 0 748.0"));
  CHECK_THAT(test::read_file(house.file("narrow.svg")), Catch::Contains("viewBox=\"0 0 388.0"));
  const auto wrong = house.run({"layers", "S-48"});
  CHECK(wrong.code == 4);
  CHECK_THAT(wrong.err, Catch::Contains("has no layers to compare"));
}
