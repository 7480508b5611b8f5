// Numbers of registers: which year, or which two.
#include <algorithm>
#include <set>

#include "core/base/text.hpp"
#include "plugins/marks/codes.hpp"
#include "plugins/marks/tables.hpp"

namespace lathbook::marks {

namespace {

constexpr std::int64_t kNear = 500;  // so close to the turn of a year that other lists may say the other

struct Numbers {
  std::int64_t least = 0;
  std::int64_t most = 0;
  bool known = false;
};

// The least and greatest number that the figures allow. Thousands set off by a comma tell how many are gone.
Numbers numbers_of(const CodeWord& word) {
  std::string text = word.text;
  bool known = !word.loose;
  const auto comma = text.rfind(',');
  if (comma != std::string::npos) {
    const std::size_t group = text.size() - comma - 1;
    const auto gone = text.find('#');
    if (word.loose && gone != std::string::npos && gone > comma) {
      text.resize(gone);
      while (text.size() - comma - 1 < 3) text += '#';
      known = true;
    } else if (group != 3) {
      known = false;
    }
  }
  text.erase(std::remove(text.begin(), text.end(), ','), text.end());
  if (!known || text.empty() || text.size() > 12) return {};
  Numbers numbers{0, 0, true};
  for (const char c : text) {
    numbers.least = numbers.least * 10 + (c == '#' ? 0 : c - '0');
    numbers.most = numbers.most * 10 + (c == '#' ? 9 : c - '0');
  }
  return numbers;
}

std::string with_commas(std::int64_t number) {
  std::string text = std::to_string(number);
  for (std::size_t i = text.size(); i > 3; i -= 3) text.insert(i - 3, ",");
  return text;
}

// Index of the year a number falls in; the table's first for smaller ones.
std::size_t row_of(const NumberTable& table, std::int64_t number) {
  std::size_t row = 0;
  while (row + 1 < table.rows.size() && table.rows[row + 1].first <= number) ++row;
  return row;
}

std::string between(const NumberTable& table, std::size_t row) {
  const auto& here = table.rows[row];
  std::string words = "from " + with_commas(here.first) + ", the first of " + std::to_string(here.year);
  if (row + 1 < table.rows.size()) {
    const auto& next = table.rows[row + 1];
    return words + ", and before " + with_commas(next.first) + ", the first of " + std::to_string(next.year);
  }
  return words + ", where the table ends";
}

// Rows of all years that some list, or the usual spread of lists, would give for this number.
std::set<std::size_t> possible_rows(const NumberTable& table, std::int64_t number, std::int64_t near) {
  const std::size_t row = row_of(table, number);
  std::set<std::size_t> rows = {row};
  const auto& here = table.rows[row];
  if (row > 0) {
    bool before = number - here.first < near;
    for (const std::int64_t other : here.elsewhere) before = before || number < other;
    if (before) rows.insert(row - 1);
  }
  if (row + 1 < table.rows.size()) {
    for (const std::int64_t other : table.rows[row + 1].elsewhere) {
      if (number >= other) rows.insert(row + 1);
    }
  }
  return rows;
}

void tell_years(DatedCode& code, const NumberTable& table, const Numbers& numbers, std::int64_t near) {
  std::set<std::size_t> rows = possible_rows(table, numbers.least, near);
  for (const std::size_t row : possible_rows(table, numbers.most, near)) rows.insert(row);
  for (std::size_t row = *rows.begin(); row <= *rows.rbegin(); ++row) rows.insert(row);
  for (const std::size_t row : rows) {
    const int year = table.rows[row].year;
    const bool gap = row + 1 < table.rows.size() && table.rows[row + 1].year != year + 1;
    const bool end = row + 1 == table.rows.size();
    CodeReading reading;
    reading.date = std::to_string(year);
    if (gap) reading.date += "/" + std::to_string(table.rows[row + 1].year - 1);
    if (end) reading.date += "/..";
    reading.words = between(table, row);
    code.readings.push_back(std::move(reading));
  }
  code.not_before = std::to_string(table.rows[*rows.begin()].year);
  if (rows.size() == 2 && numbers.least == numbers.most) {
    code.remarks.push_back("so close to the turn of the year that lists differ: " +
                           std::to_string(table.rows[*rows.rbegin()].year) + ", or the year before");
  } else if (rows.size() > 1) {
    code.remarks.push_back("figures are not read, so it may be any year of these");
  }
}

DatedCode begun(const char* kind, const NumberTable& table) {
  DatedCode code;
  code.kind = kind;
  code.table = table.words.name;
  code.source = table.words.source;
  code.weakness = table.words.weakness;
  return code;
}

}  // namespace

DatedCode read_rd_number(const CodeWord& number) {
  const NumberTable& table = rd_numbers();
  DatedCode code = begun("Rd number", table);
  const Numbers numbers = numbers_of(number);
  if (!numbers.known || numbers.most < 1) {
    code.remarks.push_back("how many figures are lost is not known, so the year cannot be told");
    return code;
  }
  tell_years(code, table, numbers, kNear);
  code.remarks.push_back(
      "read in the series that began at 1 in 1884; the same number in the registers before 1884 is another "
      "design, and "
      "was never marked on the piece");
  return code;
}

DatedCode read_us_patent(const CodeWord& number) {
  const NumberTable& table = us_patents();
  DatedCode code = begun("US patent", table);
  const Numbers numbers = numbers_of(number);
  if (!numbers.known || numbers.most < 1) {
    code.remarks.push_back("how many figures are lost is not known, so the year cannot be told");
    return code;
  }
  tell_years(code, table, numbers, 0);
  code.remarks.push_back(
      "if it is a patent of the United States: other countries count in series of their own");
  return code;
}

}  // namespace lathbook::marks
