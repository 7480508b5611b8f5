// Import of a surveyor's sheets: rows of CSV become cited statements, all of them or none.
// docs/sheets.md is the contract of file names and columns.
#pragma once

#include <cstdint>
#include <filesystem>
#include <map>
#include <set>
#include <string>
#include <utility>
#include <vector>

#include "core/base/api.hpp"
#include "core/evidence/ledger.hpp"

namespace lathbook {

/// Why a row was refused. `column` is the header's title, or "character n" where the CSV itself is broken.
struct RowFault {
  std::string file;  ///< as given
  std::uint64_t line = 0;
  std::string column;
  std::string value;
  std::string reason;
  bool operator==(const RowFault&) const = default;
  /// One line: file:line, column, value and reason.
  LATHBOOK_API std::string text() const;
};

/// Defaults are codes and words as a cell would hold them; empty = none.
struct SheetOptions {
  /// What a file is ("elements", "relations"), by its name as given, where its own name does not tell.
  std::map<std::string, std::string> sheet_of;
  bool take_good_rows = false;
  std::string source;
  std::string locator;
  std::string evidence;
  std::string confidence;
  std::string author;
  std::string recorder;
  /// Where the paths of media begin; empty = the folder of each sheet.
  std::filesystem::path media_folder;
  /// Rows (file, line) not to be taken: `SheetReport::refused` of an earlier try.
  std::set<std::pair<std::string, std::uint64_t>> refused;
};

struct SheetCount {
  std::string file;
  std::string sheet;  ///< "elements", "relations" ...
  std::uint64_t rows = 0;
  std::uint64_t refused = 0;
};

struct SheetReport {
  std::vector<SheetCount> sheets;
  std::uint64_t records = 0;     ///< made
  std::uint64_t statements = 0;  ///< added, those that make records not counted
  std::uint64_t media = 0;       ///< files copied
  std::vector<RowFault> faults;  ///< in order of sheet and line
  std::set<std::pair<std::string, std::uint64_t>> refused;
  /// True when what was added may be committed; false: the owner rolls back.
  bool applied = false;
  /// True when every row was sound by itself, but the archive refused some: with take_good_rows, roll
  /// back and call again with `refused` in the options.
  bool try_again = false;
};

/// Reads all sheets, checks every row, and only then adds: records first, then statements in order of
/// sheets, rows and columns (later where a statement leans on another). Without take_good_rows nothing is
/// added when any row is bad. Throws Error(not_found, invalid, io) for a sheet that cannot be read or
/// whose name tells nothing; everything inside the sheets is a RowFault.
LATHBOOK_API SheetReport import_sheets(const std::vector<std::filesystem::path>& files, EntrySink& sink,
                                       const SheetOptions& options);

}  // namespace lathbook
