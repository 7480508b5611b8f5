#include "plugins/marks/tables.hpp"

#include <set>

#include "core/base/embedded.hpp"
#include "core/base/error.hpp"
#include "core/base/number.hpp"
#include "core/base/text.hpp"

namespace lathbook::marks {

namespace {

class Rows {
public:
  Rows(std::string_view name, std::string_view text) {
    words_.name = "schemas/" + std::string(name) + ".tsv";
    std::string* saying = nullptr;
    for (const auto& line : split(text, '\n')) {
      if (line.empty()) continue;
      if (line.front() != '#') {
        rows_.push_back(split(line, '\t'));
        continue;
      }
      std::string_view remark = trim(std::string_view(line).substr(1));
      for (const auto& [start, into] :
           {std::pair<std::string_view, std::string*>{"source: ", &words_.source},
            std::pair<std::string_view, std::string*>{"weakness: ", &words_.weakness}}) {
        if (remark.substr(0, start.size()) != start) continue;
        saying = into;
        remark.remove_prefix(start.size());
      }
      if (saying != nullptr) *saying += (saying->empty() ? "" : " ") + std::string(remark);
    }
    if (words_.source.empty() || words_.weakness.empty()) broken("does not tell its source and weakness");
  }

  const std::vector<std::vector<std::string>>& all() const { return rows_; }
  const TableWords& words() const { return words_; }

  [[noreturn]] void broken(const std::string& how) const {
    fail(ErrorKind::corrupt,
         "the table " + words_.name + " " + how + "; the program was built from a spoilt copy");
  }
  std::int64_t number(const std::string& text) const {
    const auto value = number_in<std::int64_t>(text);
    if (!value) broken("has " + quote(text) + " for a number");
    return *value;
  }
  char letter(const std::string& text) const {
    if (text.size() != 1 || text[0] < 'A' || text[0] > 'Z') broken("has " + quote(text) + " for a letter");
    return text[0];
  }
  void need(const std::vector<std::string>& row, std::size_t cells) const {
    if (row.size() != cells)
      broken("has a row of " + std::to_string(row.size()) + " cells at " + quote(row[0]));
  }

private:
  TableWords words_;
  std::vector<std::vector<std::string>> rows_;
};

void check_diamonds(const Rows& rows, const DiamondTable& table) {
  std::set<char> letters;
  std::set<int> months;
  for (const auto& [letter, month] : table.months) {
    letters.insert(letter);
    months.insert(month);
  }
  if (table.months.size() != 12 || letters.size() != 12 || months.size() != 12 || *months.begin() != 1 ||
      *months.rbegin() != 12) {
    rows.broken("does not give twelve months twelve letters");
  }
  for (const int type : {1, 2}) {
    std::set<char> year_letters;
    std::set<int> years;
    for (const auto& year : table.years) {
      if (year.type != type) continue;
      if (!year_letters.insert(year.letter).second)
        rows.broken(std::string("has the year letter ") + year.letter + " twice");
      if (!years.insert(year.year).second)
        rows.broken("has the year " + std::to_string(year.year) + " twice");
      if (type == 2 && year.year != table.year(1, year.letter) + 26) {
        rows.broken(std::string("has for the letter ") + year.letter + " years that are not 26 apart");
      }
    }
    const std::size_t wanted = type == 1 ? 26 : 16;
    const int first = type == 1 ? 1842 : 1868;
    if (years.size() != wanted || *years.begin() != first ||
        *years.rbegin() != first + static_cast<int>(wanted) - 1) {
      rows.broken("does not have every year of type " + std::to_string(type));
    }
  }
}

}  // namespace

int DiamondTable::month(char letter) const {
  for (const auto& [one, number] : months) {
    if (one == letter) return number;
  }
  return 0;
}

int DiamondTable::year(int type, char letter) const {
  for (const auto& one : years) {
    if (one.type == type && one.letter == letter) return one.year;
  }
  return 0;
}

NumberTable read_number_table(std::string_view name, std::string_view text) {
  const Rows rows(name, text);
  NumberTable table{rows.words(), {}};
  for (const auto& row : rows.all()) {
    rows.need(row, 3);
    NumberRow made;
    made.year = static_cast<int>(rows.number(row[0]));
    made.first = rows.number(row[1]);
    if (row[2] != "-") {
      for (const auto& other : split(row[2], ',')) made.elsewhere.push_back(rows.number(other));
    }
    if (!table.rows.empty() && made.year <= table.rows.back().year)
      rows.broken("has years that do not rise at " + row[0]);
    if (!table.rows.empty() && made.first <= table.rows.back().first) {
      rows.broken("has numbers that do not rise at " + row[0]);
    }
    table.rows.push_back(std::move(made));
  }
  if (table.rows.empty()) rows.broken("is empty");
  return table;
}

DiamondTable read_diamond_table(std::string_view text) {
  const Rows rows("marks-diamonds", text);
  DiamondTable table;
  table.words = rows.words();
  for (const auto& row : rows.all()) {
    if (row[0] == "class") {
      rows.need(row, 3);
      table.classes.emplace_back(row[1], row[2]);
    } else if (row[0] == "month") {
      rows.need(row, 3);
      table.months.emplace_back(rows.letter(row[1]), static_cast<int>(rows.number(row[2])));
    } else if (row[0] == "year") {
      rows.need(row, 4);
      table.years.push_back({static_cast<int>(rows.number(row[1])), rows.letter(row[2]),
                             static_cast<int>(rows.number(row[3]))});
    } else if (row[0] == "exception") {
      rows.need(row, 7);
      table.exceptions.push_back({static_cast<int>(rows.number(row[1])), rows.letter(row[2]),
                                  rows.letter(row[3]), row[4], row[5], row[6]});
    } else if (row[0] == "misprint") {
      rows.need(row, 5);
      table.misprints.push_back({static_cast<int>(rows.number(row[1])), rows.letter(row[2]), row[4]});
    } else {
      rows.broken("has a row of an unknown kind, " + quote(row[0]));
    }
  }
  check_diamonds(rows, table);
  return table;
}

OriginTable read_origin_table(std::string_view text) {
  const Rows rows("marks-origin", text);
  OriginTable table{rows.words(), {}};
  for (const auto& row : rows.all()) {
    rows.need(row, 3);
    table.rows.push_back({split(row[0], ' '), static_cast<int>(rows.number(row[1])), row[2]});
  }
  return table;
}

const NumberTable& rd_numbers() {
  static const NumberTable table = read_number_table("marks-rd-numbers", embedded_table("marks-rd-numbers"));
  return table;
}

const NumberTable& us_patents() {
  static const NumberTable table = read_number_table("marks-us-patents", embedded_table("marks-us-patents"));
  return table;
}

const DiamondTable& diamonds() {
  static const DiamondTable table = read_diamond_table(embedded_table("marks-diamonds"));
  return table;
}

const OriginTable& origins() {
  static const OriginTable table = read_origin_table(embedded_table("marks-origin"));
  return table;
}

}  // namespace lathbook::marks
