// A folder that is all there or not at all.
#include <catch2/catch.hpp>
#include <fstream>
#include <sstream>

#include "core/base/atomic_folder.hpp"
#include "core/base/error.hpp"
#include "tests/support/support.hpp"

using namespace lathbook;
namespace fs = std::filesystem;

namespace {

std::string text_of(const fs::path& file) {
  std::ifstream in(file);
  std::ostringstream text;
  text << in.rdbuf();
  return text.str();
}

std::size_t entries(const fs::path& folder) {
  return static_cast<std::size_t>(std::distance(fs::directory_iterator(folder), fs::directory_iterator()));
}

}  // namespace

TEST_CASE("a folder appears with all its files when it is committed, and not before") {
  test::TempFolder place;
  {
    AtomicFolder folder(place / "out/");
    folder.file("index.json") << "{}";
    folder.file("a/b/N-203 %.json") << "[1]";
    CHECK_FALSE(fs::exists(place / "out"));
    folder.commit();
  }
  CHECK(text_of(place / "out" / "index.json") == "{}");
  CHECK(text_of(place / "out" / "a" / "b" / "N-203 %.json") == "[1]");
  CHECK(entries(place.path()) == 1);
}

TEST_CASE("a folder that is not committed leaves nothing behind") {
  test::TempFolder place;
  { AtomicFolder(place / "out").file("index.json") << "{}"; }
  CHECK(entries(place.path()) == 0);
}

TEST_CASE("a folder refuses a name in use, a path that leads out, and a file written twice") {
  test::TempFolder place;
  fs::create_directories(place / "full" / "x");
  fs::create_directory(place / "empty");
  CHECK_THROWS_WITH(AtomicFolder(place / "full"), Catch::Contains("name a folder that is new or empty"));
  CHECK_THROWS_AS(AtomicFolder(place / "nowhere" / "out"), Error);
  AtomicFolder folder(place / "empty");
  CHECK_THROWS_WITH(folder.file("../x"), Catch::Contains("could lead out"));
  CHECK_THROWS_WITH(folder.file("/etc/x"), Catch::Contains("must be relative"));
  folder.file("x") << "1";
  CHECK_THROWS_WITH(folder.file("x"), Catch::Contains("written twice"));
  folder.commit();
  CHECK(text_of(place / "empty" / "x") == "1");
}
