// The walk of docs/pieces.md, command by command on the sample house, against the output printed there.
#include <algorithm>
#include <catch2/catch.hpp>
#include <fstream>
#include <regex>
#include <sstream>

#include "tests/acceptance/house.hpp"

using namespace lathbook::test;
namespace fs = std::filesystem;

namespace {

struct Shown {
  std::vector<std::string> words;     // of the command, without the program's name
  bool tells = false;                 // its output is printed
  std::vector<std::string> expected;  // lines; "..." stands for any number of them
};

// Words parted by blanks outside quotation marks.
std::vector<std::string> words_of(const std::string& line) {
  std::vector<std::string> words(1);
  bool quoted = false;
  for (const char c : line) {
    if (c == '"')
      quoted = !quoted;
    else if (c == ' ' && !quoted)
      words.emplace_back();
    else
      words.back() += c;
  }
  return words;
}

std::vector<Shown> walk_in(const fs::path& page) {
  std::vector<Shown> shown;
  std::ifstream in(page);
  const std::regex command("    (\\$ )?lathbook (.*)");
  bool printing = false;
  for (std::string line; std::getline(in, line);) {
    std::smatch found;
    if (std::regex_match(line, found, command)) {
      shown.push_back({words_of(found[2]), found[1].matched, {}});
      printing = true;
    } else if (printing && line.rfind("    ", 0) == 0) {
      shown.back().expected.push_back(line.substr(4));
    } else {
      printing = false;
    }
  }
  return shown;
}

// Numbers of events and handles of proposals are those of this making.
std::string plain(const std::string& line) {
  static const std::regex event("event V-[0-9]+"), handle("^[0-9a-f]{8}  ");
  std::string text = std::regex_replace(std::regex_replace(line, event, "event"), handle, "handle  ");
  text.erase(text.find_last_not_of(' ') + 1);
  return text;
}

// A line that ends in "..." is cut there.
bool fits(const std::string& line, const std::string& wanted) {
  const std::string text = plain(line), pattern = plain(wanted);
  if (pattern.size() < 3 || pattern.substr(pattern.size() - 3) != "...") return text == pattern;
  return text.compare(0, pattern.size() - 3, pattern, 0, pattern.size() - 3) == 0;
}

// The first expected line that is not where it should be; empty when all are.
std::string missing_in(const std::string& told, const std::vector<std::string>& expected) {
  std::istringstream lines(told);
  bool skips = false;
  for (const std::string& wanted : expected) {
    if (wanted.find_first_not_of(' ') != std::string::npos &&
        wanted.substr(wanted.find_first_not_of(' ')) == "...") {
      skips = true;
      continue;
    }
    bool found = false;
    for (std::string line; !found && std::getline(lines, line);) {
      found = fits(line, wanted);
      if (!found && !skips) break;
    }
    if (!found) return wanted;
    skips = false;
  }
  return {};
}

}  // namespace

TEST_CASE("the walk of the guide is true from start to end") {
  House house;
  house.now = "2025-02-03T09:00:00Z";
  const fs::path root = fs::path(LATHBOOK_SOURCE_DIR);
  const fs::path sample = root / "archive-sample";
  house.begin();
  house.done({"take-in", (sample / "sheets").string(), "--media", (sample / "media").string()});
  const auto walk = walk_in(root / "docs" / "pieces.md");
  REQUIRE(walk.size() > 20);
  for (Shown step : walk) {
    if (std::find(step.words.begin(), step.words.end(), "HANDLE") != step.words.end()) continue;
    for (std::size_t i = 1; i < step.words.size(); ++i)
      if (step.words[i - 1] == "--to") step.words[i] = (house.folder / step.words[i]).string();
    std::string command;
    for (const auto& word : step.words) command += word + " ";
    INFO(command);
    const auto ran = house.run(step.words);
    INFO(ran.err << ran.out);
    if (!step.tells) CHECK(ran.code == 0);
    CHECK(missing_in(ran.err + ran.out, step.expected) == "");
  }
}
