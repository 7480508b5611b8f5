// Writes CSV rows.
#include "plugins/tables/sheet.hpp"

#include "core/base/csv_cell.hpp"
#include "core/base/error.hpp"

namespace lathbook::tables {

SheetWriter::SheetWriter(std::ostream& out, const Sheet& sheet) : out_(out), columns_(sheet.columns.size()) {
  for (const Column& column : sheet.columns) cell(column.title);
  end_row();
}

void SheetWriter::cell(std::string_view text) {
  out_ << (filled_ == 0 ? "" : ",") << csv_cell(text);
  ++filled_;
}

void SheetWriter::end_row() {
  if (filled_ != columns_) fail(ErrorKind::invalid, "a row of a sheet has not as many cells as columns");
  filled_ = 0;
  out_ << "\r\n";
  if (!out_) fail(ErrorKind::io, "the sheet could not be written to its end; is the disk full?");
}

std::string column_name(std::string_view title) {
  std::string name;
  for (const char c : title) {
    const bool plain = (c >= 'a' && c <= 'z') || (c >= '0' && c <= '9');
    if (plain) {
      name += c;
    } else if (c == '{') {
      name += "detail_";
    } else if ((c == ' ' || c == '-') && !name.empty()) {
      name += '_';
    }
  }
  return name;
}

}  // namespace lathbook::tables
