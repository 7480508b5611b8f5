#include "core/base/table.hpp"

#include <algorithm>
#include <sstream>
#include <utility>

#include "core/base/error.hpp"
#include "core/base/text.hpp"

namespace lathbook {
namespace {

constexpr std::size_t gap = 2;

std::string cell_text(const std::string& cell) {
  std::string safe = safe_display(cell);
  std::replace(safe.begin(), safe.end(), '\n', ' ');
  return safe;
}

void make_safe(std::vector<std::string>& row) {
  for (std::string& cell : row) cell = cell_text(cell);
}

}  // namespace

Table::Table(std::vector<std::string> header) : header_(std::move(header)), columns_(header_.size()) {
  make_safe(header_);
}

Table::~Table() = default;

void Table::align(std::size_t column, Align align) {
  if (aligns_.size() <= column) aligns_.resize(column + 1, Align::left);
  aligns_[column] = align;
}

void Table::add(std::vector<std::string> row) {
  if (columns_ == 0) columns_ = row.size();
  if (row.size() > columns_) {
    fail(ErrorKind::invalid, "a table row has " + std::to_string(row.size()) + " cells, but the table has " +
                                 std::to_string(columns_) + " columns");
  }
  row.resize(columns_);
  make_safe(row);
  rows_.push_back(std::move(row));
}

void Table::print(std::ostream& out, std::size_t indent) const {
  std::vector<std::size_t> widths(columns_, 0);
  const auto measure = [&widths](const std::vector<std::string>& row) {
    for (std::size_t i = 0; i < row.size(); ++i) widths[i] = std::max(widths[i], display_width(row[i]));
  };
  measure(header_);
  for (const auto& row : rows_) measure(row);

  const auto print_row = [&](const std::vector<std::string>& row) {
    std::string line(indent, ' ');
    for (std::size_t i = 0; i < row.size(); ++i) {
      const std::string fill(widths[i] - display_width(row[i]), ' ');
      const bool right = i < aligns_.size() && aligns_[i] == Align::right;
      if (i > 0) line.append(gap, ' ');
      line += right ? fill + row[i] : row[i] + fill;
    }
    line.erase(line.find_last_not_of(' ') + 1);
    out << line << '\n';
  };
  if (!header_.empty()) print_row(header_);
  for (const auto& row : rows_) print_row(row);
}

std::string Table::text(std::size_t indent) const {
  std::ostringstream out;
  print(out, indent);
  return out.str();
}

}  // namespace lathbook
