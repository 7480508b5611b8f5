// Rows of a comma- or semicolon-separated sheet (RFC 4180), strict about quotation marks.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "core/base/api.hpp"

namespace lathbook {

/// A cell and where its first character stands: line and column from 1, the column in characters.
struct CsvCell {
  std::string text;
  std::uint64_t line = 1;
  std::uint64_t column = 1;
};

struct CsvRow {
  std::uint64_t line = 1;  ///< where the row begins
  std::vector<CsvCell> cells;
  /// True when no cell holds anything but blanks.
  bool blank() const;
};

/// Why the reading of a sheet ended early.
struct CsvFault {
  std::uint64_t line = 1;
  std::uint64_t column = 1;
  std::string value;   ///< what the cell held so far
  std::string reason;  ///< one sentence
};

/// Reads a sheet held in memory, which must outlive the reader. A byte order mark is dropped; bytes that
/// are not UTF-8, a bare quotation mark, words after a closing one, a cell of over 1 MiB or a quotation that
/// never ends stop the reading with a fault: where the next row begins can then not be told. Source: Y.
/// Shafranovich, 'Common Format and MIME Type for Comma-Separated Values (CSV) Files', RFC 4180, 2005,
/// section 2; more lenient in that LF alone ends a row too and the separator may be a semicolon.
class LATHBOOK_API CsvReader {
public:
  explicit CsvReader(std::string_view bytes);

  /// False at the end and after a fault.
  bool next(CsvRow& row);
  const std::optional<CsvFault>& fault() const { return fault_; }
  /// ',' or ';': whichever stands more often outside quotation marks in the first row; ',' when level.
  char separator() const { return separator_; }

private:
  bool read_cell(CsvCell& cell);
  bool read_quoted(CsvCell& cell);
  bool read_plain(CsvCell& cell);
  void refuse(const CsvCell& cell, const std::string& reason);
  void step();
  bool at_end() const { return at_ == bytes_.size(); }
  bool at_row_end() const;
  void take_row_end();

  std::string_view bytes_;
  std::size_t at_ = 0;
  std::uint64_t line_ = 1;
  std::uint64_t column_ = 1;
  char separator_ = ',';
  std::optional<CsvFault> fault_;
};

}  // namespace lathbook
