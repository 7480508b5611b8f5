// One CSV file under way, and the columns that its description will name.
#pragma once

#include <ostream>
#include <string>
#include <string_view>
#include <vector>

namespace lathbook::tables {

/// A column as CSV on the Web describes it (W3C, 'Metadata Vocabulary for Tabular Data', 2015).
struct Column {
  std::string title;     ///< the header's cell
  std::string datatype;  ///< "string", "date", "integer", "anyURI" ...
  std::string format;    ///< a regular expression for strings; empty = any
  bool required = false;
  bool several = false;   ///< values parted by ' | '
  std::string refers_to;  ///< file whose column 'code' the values are of; empty = none
};

struct Sheet {
  std::string file;
  std::string about;  ///< one sentence
  std::string key;    ///< title of the key column
  std::vector<Column> columns;
};

/// Writes rows after RFC 4180: CR LF, every cell guarded against being computed.
class SheetWriter {
public:
  SheetWriter(std::ostream& out, const Sheet& sheet);
  void cell(std::string_view text);
  void end_row();

private:
  std::ostream& out_;
  std::size_t columns_;
  std::size_t filled_ = 0;
};

/// The name of a column for URIs: "(installed earliest)" is installed_earliest.
std::string column_name(std::string_view title);

}  // namespace lathbook::tables
