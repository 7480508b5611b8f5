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
  std::vector<std::string> commands;
  const std::regex line("\n  ([a-z][a-z-]*)  +[a-z]");
  for (std::sregex_iterator at(help.out.begin(), help.out.end(), line), end; at != end; ++at)
    commands.push_back((*at)[1]);
  for (const char* needed :
       {"begin", "take-in", "mark", "link", "show", "history", "why", "export", "accept"})
    CHECK(std::find(commands.begin(), commands.end(), needed) != commands.end());
  for (const auto& command : commands) {
    INFO(command);
    const auto own = run({program(), command, "--help"});
    CHECK(own.code == 0);
    CHECK(own.err == "");
    CHECK_THAT(own.out, Contains("Usage: lathbook " + command));
    CHECK(run({program(), "help", command}).out == own.out);
  }
}

TEST_CASE("help alone lists the commands, and help on a wrong word says so") {
  CHECK(run({program(), "help"}).out == run({program(), "--help"}).out);
  const auto wrong = run({program(), "help", "frobnicate"});
  CHECK(wrong.code == 2);
  CHECK(wrong.err.find("there is no command") != std::string::npos);
  CHECK(is_one_sentence(wrong.err));
}

TEST_CASE("a command without what it needs, and a word that is no command, are told in one sentence") {
  const auto missing = run({program(), "pack", "--into", "K-1"});
  CHECK(missing.code == 2);
  CHECK_THAT(missing.err, Contains("is missing after 'lathbook pack'") && Contains("lathbook help pack"));
  CHECK(is_one_sentence(missing.err));
  const auto wrong = run({program(), "shwo", "N-1"});
  CHECK(wrong.code == 2);
  CHECK_THAT(wrong.err, Contains("there is no command “shwo”; did you mean show"));
  CHECK(is_one_sentence(wrong.err));
  const auto extra = run({program(), "show", "N-1", "N-2"});
  CHECK(extra.code == 2);
  CHECK_THAT(extra.err, Contains("'lathbook show'") && Contains("N-2"));
  CHECK(is_one_sentence(extra.err));
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
