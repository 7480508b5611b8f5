// Every command can be learnt from its own help.
#include <algorithm>
#include <catch2/catch.hpp>
#include <regex>

#include "tests/acceptance/house.hpp"

using namespace lathbook::test;
using Catch::Contains;

TEST_CASE("every command that the help lists explains itself") {
  const auto help = run({program(), "--help"});
  REQUIRE(help.code == 0);
  const std::vector<std::string> commands{"begin", "take-in",  "write-out", "restore", "merge",     "check",
                                          "tally", "new",      "say",       "amend",   "withdraw",  "expunge",
                                          "mark",  "link",     "work",      "show",    "find",      "history",
                                          "why",   "made-for", "export",    "plugins", "properties"};
  for (const auto& command : commands) {
    INFO(command);
    CHECK_THAT(help.out, Contains("\n  " + command + " "));
    const auto own = run({program(), command, "--help"});
    CHECK(own.code == 0);
    CHECK(own.err == "");
    CHECK_THAT(own.out, Contains("Usage: lathbook " + command));
  }
  // And no command is listed that is not in the list above.
  const std::regex line("\n  ([a-z-]+)  +[a-z]");
  for (std::sregex_iterator at(help.out.begin(), help.out.end(), line), end; at != end; ++at) {
    const std::string name = (*at)[1];
    INFO(name);
    CHECK((name.rfind("-", 0) == 0 || std::find(commands.begin(), commands.end(), name) != commands.end()));
  }
}

TEST_CASE("the version is told, and a wrong word is answered") {
  const auto version = run({program(), "--version"});
  CHECK(version.code == 0);
  CHECK(std::regex_match(version.out, std::regex("lathbook [0-9]+\\.[0-9]+\\.[0-9]+\n")));
  const auto wrong = run({program(), "frobnicate"});
  CHECK(wrong.code == 2);
  CHECK_THAT(wrong.err, Contains("frobnicate"));
  const auto none = run({program()});
  CHECK(none.code == 0);
  CHECK_THAT(none.out, Contains("A first day"));
}
