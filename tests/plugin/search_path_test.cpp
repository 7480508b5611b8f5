// Where plugins are looked for.
#include "core/plugin/search_path.hpp"

#include <catch2/catch.hpp>

#include "tests/plugin/plugin_bench.hpp"

using namespace lathbook;
using namespace lathbook::test;

namespace fs = std::filesystem;

TEST_CASE("the folder given, then the list, else the program's own") {
  {
    const Variable unset("LATHBOOK_PLUGINS", nullptr);
    CHECK(plugin_folders({}) == std::vector<fs::path>{LATHBOOK_PLUGINS_BUILT});
    CHECK(plugin_folders(fs::path("/srv/mine")) == std::vector<fs::path>{"/srv/mine"});
    CHECK(plugin_folders(fs::path("mine")) == std::vector<fs::path>{fs::current_path() / "mine"});
  }
  const Variable list("LATHBOOK_PLUGINS", "/srv/a:/srv/b/../c");
  CHECK(plugin_folders({}) == std::vector<fs::path>{"/srv/a", "/srv/c"});
  CHECK(plugin_folders(fs::path("/srv/mine")) == std::vector<fs::path>{"/srv/mine", "/srv/a", "/srv/c"});
}

TEST_CASE("the current folder is never looked in by way of the environment") {
  const char* const value = GENERATE(":", "/srv/a:", ":/srv/a", ".", "plugins:/srv/a");
  const Variable list("LATHBOOK_PLUGINS", value);
  const Thrown thrown = thrown_by([] { plugin_folders({}); });
  CHECK(thrown.kind == ErrorKind::invalid);
  CHECK(thrown.text.find("which is not the full path of a folder; write paths that begin with '/'") !=
        std::string::npos);
}

TEST_CASE("an empty list is no list") {
  const Variable list("LATHBOOK_PLUGINS", "");
  CHECK(plugin_folders({}) == std::vector<fs::path>{LATHBOOK_PLUGINS_BUILT});
}
