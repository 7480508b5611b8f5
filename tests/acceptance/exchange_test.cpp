// Writing out, restoring and writing out again gives the same bytes; older states read back as they were.
#include <catch2/catch.hpp>

#include "tests/acceptance/house.hpp"

using namespace lathbook::test;
namespace fs = std::filesystem;

namespace {

void check_round_trip(const House& house, const std::vector<std::string>& how) {
  const auto first = house.folder / "first.xml";
  const auto second = house.folder / "second.xml";
  const auto write = [&](const fs::path& archive, const fs::path& file) {
    std::vector<std::string> arguments{"write-out", file.string()};
    arguments.insert(arguments.end(), how.begin(), how.end());
    house.done_in(archive, arguments);
  };
  write(house.archive, first);
  const auto copy = house.folder / "restored";
  house.done({"restore", first.string(), copy.string()});
  write(copy, second);
  CHECK(read_file(first).size() > 2000);
  CHECK(read_file(first) == read_file(second));
  CHECK(house.fingerprint(copy) == house.fingerprint(house.archive));
  CHECK(house.in(copy, {"check"}).code == 0);
  std::size_t files = 0;
  for (const auto& entry : fs::recursive_directory_iterator(first.string() + ".media")) {
    if (!entry.is_regular_file()) continue;
    ++files;
    const auto twin =
        fs::path(second.string() + ".media") / fs::relative(entry.path(), first.string() + ".media");
    CHECK(read_file(entry.path()) == read_file(twin));
  }
  CHECK(files > 0);
}

}  // namespace

TEST_CASE("the sample is the same after writing out, restoring and writing out", "[slow]") {
  House house;
  house.begin();
  const fs::path sample = fs::path(LATHBOOK_SOURCE_DIR) / "archive-sample";
  house.done({"take-in", (sample / "sheets").string(), "--media", (sample / "media").string()});
  SECTION("whole") {
    check_round_trip(house, {"--with-private"});
  }
  SECTION("as a public copy") {
    check_round_trip(house, {});
  }
}

TEST_CASE("corrections, private and expunged statements survive the way out and back") {
  House house;
  house.begin();
  house.take_in(house.archive, usual_sheets());
  const auto type = house.say(house.archive, "N-1", "description", "tiles, sea gren");
  house.done({"amend", type, "tiles, sea green", "--why", "slip of the pen"});
  const auto wrong = house.say(house.archive, "N-2", "note", "two coats");
  house.done({"withdraw", wrong, "--why", "it was one"});
  house.say(house.archive, "N-1.01", "whereabouts", "barn, second shelf");
  house.say(house.archive, "N-1", "note", "the key is under the slate", {"--private", "safety"});
  write_file(house.folder / "photo.png", "the back of tile 14");
  house.say(house.archive, "S-1", "media", (house.folder / "photo.png").string());
  const auto gone = house.say(house.archive, "N-3", "note", "words that go");
  house.done({"expunge", gone, "--why", "asked for", "--i-am-sure"});
  house.say(house.archive, "N-3", "note", "brackets <>&\"' and \xE2\x80\x9Cquotes\xE2\x80\x9D");
  SECTION("whole") {
    check_round_trip(house, {"--with-private"});
  }
  SECTION("as a public copy") {
    check_round_trip(house, {});
  }
}

TEST_CASE("an older state reads back byte for byte, by day and by fingerprint") {
  House house;
  house.begin();
  house.take_in(house.archive, usual_sheets());
  const auto first = house.say(house.archive, "N-1", "description", "a field of green tiles");
  house.say(house.archive, "N-1", "note", "the key is under the slate", {"--private", "safety"});
  struct Then {
    std::string show, show_private, document, fingerprint;
  };
  const auto read = [&](const std::vector<std::string>& when) {
    const auto with = [&](std::vector<std::string> arguments) {
      arguments.insert(arguments.end(), when.begin(), when.end());
      return house.done(arguments);
    };
    return Then{with({"show", "N-1", "--json"}), with({"show", "N-1", "--json", "--with-private"}),
                with({"write-out", "-", "--with-private"}), ""};
  };
  Then then = read({});
  then.fingerprint = house.fingerprint(house.archive);

  house.now = "2026-05-20T10:00:00Z";
  house.done({"amend", first, "a field of sea-green tiles", "--why", "better reading"});
  house.say(house.archive, "N-1", "note", "rattles when tapped");
  CHECK(house.run({"show", "N-1", "--json"}).out != then.show);
  for (const auto& when : std::vector<std::vector<std::string>>{
           {"--known-on", "2026-05-03"}, {"--known-on", "19 May 2026"}, {"--state", then.fingerprint}}) {
    INFO(when[0] << " " << when[1]);
    const auto back = read(when);
    CHECK(back.show == then.show);
    CHECK(back.show_private == then.show_private);
    CHECK(back.document == then.document);
  }
  const auto never = house.run({"show", "N-1", "--state", std::string(64, 'a')});
  CHECK(never.code == 3);
  CHECK(is_one_sentence(never.err));
}
