// Aligned columns of plain words for a terminal.
#pragma once

#include <cstddef>
#include <ostream>
#include <string>
#include <vector>

#include "core/base/api.hpp"

namespace lathbook {

/// Gathers rows and prints them with two spaces between columns, measured in terminal columns. Cells go
/// through safe_display, with line feeds shown as spaces; a short row is filled with empty cells, a
/// longer one than the header throws Error(invalid). No white space at the ends of lines.
class LATHBOOK_API Table {
public:
  enum class Align { left, right };

  /// An empty header prints no header line; the first row then fixes the number of columns.
  explicit Table(std::vector<std::string> header = {});
  ~Table();
  void align(std::size_t column, Align align);
  void add(std::vector<std::string> row);
  bool empty() const { return rows_.empty(); }
  std::size_t size() const { return rows_.size(); }
  /// `indent` spaces before each line.
  void print(std::ostream& out, std::size_t indent = 0) const;
  std::string text(std::size_t indent = 0) const;

private:
  std::vector<std::string> header_;
  std::vector<std::vector<std::string>> rows_;
  std::vector<Align> aligns_;
  std::size_t columns_ = 0;
};

}  // namespace lathbook
