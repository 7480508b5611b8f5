// A small archive worked on with the real program, in a temporary folder with a state folder of its own.
#pragma once

#include <filesystem>
#include <string>
#include <vector>

#include "tests/support/support.hpp"

namespace lathbook::test {

class House {
public:
  House();

  /// Runs the program on an archive; `input` is its standard input.
  Ran in(const std::filesystem::path& where, std::vector<std::string> arguments,
         const std::string& input = {}) const;
  Ran run(const std::vector<std::string>& arguments) const { return in(archive, arguments); }
  /// The same, but throws what was said when the exit code is not 0. Gives standard output.
  std::string done(const std::vector<std::string>& arguments) const { return done_in(archive, arguments); }
  std::string done_in(const std::filesystem::path& where, const std::vector<std::string>& arguments) const;

  void begin() const { done({"begin", archive.string()}); }
  /// Takes in sheets: pairs of file name and text.
  void take_in(const std::filesystem::path& where,
               const std::vector<std::pair<std::string, std::string>>& sheets);
  /// Enters a cited statement; gives its short name.
  std::string say(const std::filesystem::path& where, const std::string& subject, const std::string& property,
                  const std::string& value, const std::vector<std::string>& more = {}) const;
  std::string fingerprint(const std::filesystem::path& where) const;
  /// The whole archive, private parts too, as one document.
  std::string everything(const std::filesystem::path& where) const;
  /// The archive's folder copied as a user would.
  std::filesystem::path copy(const std::string& name) const;

  TempFolder folder;
  std::filesystem::path archive;
  std::string now = "2026-05-03T10:00:00Z";
  std::string recorder;  ///< LATHBOOK_RECORDER; empty = nobody

private:
  int batches_ = 0;
};

/// Value of the first member of this name in a JSON text, without its quotation marks.
std::string member(const std::string& json, const std::string& name);
/// True when any file in the folder holds these bytes, in UTF-8 or as they are.
bool folder_holds(const std::filesystem::path& folder, const std::string& bytes);
/// Runs SQL on a database file, for tests that damage it.
void execute_sql(const std::filesystem::path& database, const std::string& sql);
/// First column of the first row, as text or bytes.
std::string query_sql(const std::filesystem::path& database, const std::string& sql);
/// True for exactly one line of words, ended by a line feed, that names the program.
bool is_one_sentence(const std::string& error);

/// Rooms, elements, pieces, crates, a source and a person to work with.
std::vector<std::pair<std::string, std::string>> usual_sheets();

}  // namespace lathbook::test
