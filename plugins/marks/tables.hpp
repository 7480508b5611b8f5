// The published tables behind dated codes, with their sources, weaknesses and self-checks.
#pragma once

#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

namespace lathbook::marks {

/// What a table's own remark lines say of it.
struct TableWords {
  std::string name;  ///< "schemas/marks-rd-numbers.tsv"
  std::string source;
  std::string weakness;
};

struct NumberRow {
  int year = 0;
  std::int64_t first = 0;
  std::vector<std::int64_t> elsewhere;  ///< first numbers that other lists print
};

struct NumberTable {
  TableWords words;
  std::vector<NumberRow> rows;  ///< years and numbers rising
};

struct DiamondYear {
  int type = 1;
  char letter = 0;
  int year = 0;
};

struct DiamondException {
  int type = 1;
  char year_letter = 0;
  char month_letter = 0;
  std::string first, last;  ///< days
  std::string remark;
};

struct DiamondMisprint {
  int type = 1;
  char letter = 0;
  std::string remark;
};

struct DiamondTable {
  TableWords words;
  std::vector<std::pair<std::string, std::string>> classes;
  std::vector<std::pair<char, int>> months;
  std::vector<DiamondYear> years;
  std::vector<DiamondException> exceptions;
  std::vector<DiamondMisprint> misprints;
  int month(char letter) const;           ///< 1 to 12; 0 for a letter that is none
  int year(int type, char letter) const;  ///< 0 for a letter that is none
};

struct OriginRow {
  std::vector<std::string> text;
  int from = 0;
  std::string words;
};

struct OriginTable {
  TableWords words;
  std::vector<OriginRow> rows;
};

/// Each parses its text and throws Error(corrupt), naming the table and the fault, unless: years and numbers
/// rise; the letters of months are twelve, of years 26 and 16, one to one; a year of type 2 is 26 after that
/// of its letter in type 1.
NumberTable read_number_table(std::string_view name, std::string_view text);
DiamondTable read_diamond_table(std::string_view text);
OriginTable read_origin_table(std::string_view text);

/// The tables built into the program.
const NumberTable& rd_numbers();
const NumberTable& us_patents();
const DiamondTable& diamonds();
const OriginTable& origins();

}  // namespace lathbook::marks
