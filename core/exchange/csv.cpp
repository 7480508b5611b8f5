#include "core/exchange/csv.hpp"

#include <algorithm>

#include "core/base/text.hpp"

namespace lathbook {

namespace {

constexpr std::size_t kMostCell = std::size_t{1} << 20U;
constexpr std::string_view kByteOrderMark = "\xEF\xBB\xBF";

char find_separator(std::string_view bytes) {
  std::size_t commas = 0;
  std::size_t semicolons = 0;
  bool quoted = false;
  for (const char c : bytes) {
    if (c == '"') quoted = !quoted;
    if (quoted) continue;
    if (c == '\n' || c == '\r') break;
    if (c == ',') ++commas;
    if (c == ';') ++semicolons;
  }
  return semicolons > commas ? ';' : ',';
}

// Continuation bytes of UTF-8 do not begin a character.
bool begins_character(char c) {
  return (static_cast<unsigned char>(c) & 0xC0U) != 0x80U;
}

std::string encoding_fault(std::string_view bytes, std::size_t at) {
  if (bytes.substr(0, 2) == "\xFF\xFE" || bytes.substr(0, 2) == "\xFE\xFF") {
    return "the sheet is saved as UTF-16; save it as CSV UTF-8";
  }
  constexpr std::string_view digits = "0123456789ABCDEF";
  const auto byte = static_cast<unsigned char>(bytes[at]);
  return std::string("byte ") + digits[byte >> 4U] + digits[byte & 15U] + " at offset " + std::to_string(at) +
         " is not UTF-8; save the sheet as CSV UTF-8";
}

}  // namespace

bool CsvRow::blank() const {
  return std::all_of(cells.begin(), cells.end(), [](const CsvCell& cell) { return trim(cell.text).empty(); });
}

CsvReader::CsvReader(std::string_view bytes) : bytes_(bytes) {
  auto bad = first_invalid_utf8(bytes);
  const auto nul = bytes.find('\0');
  if (nul != std::string_view::npos && (!bad || nul < *bad)) bad = nul;
  if (bad) {
    const auto before = bytes.substr(0, *bad);
    const auto line_start = before.rfind('\n') == std::string_view::npos ? 0 : before.rfind('\n') + 1;
    CsvFault fault;
    fault.line = 1 + static_cast<std::uint64_t>(std::count(before.begin(), before.end(), '\n'));
    const auto line = before.substr(line_start);
    fault.column = 1 + static_cast<std::uint64_t>(std::count_if(line.begin(), line.end(), begins_character));
    fault.reason = encoding_fault(bytes, *bad);
    fault_ = fault;
    return;
  }
  if (bytes_.substr(0, kByteOrderMark.size()) == kByteOrderMark) bytes_.remove_prefix(kByteOrderMark.size());
  separator_ = find_separator(bytes_);
}

void CsvReader::step() {
  const char c = bytes_[at_++];
  if (c == '\n') {
    ++line_;
    column_ = 1;
  } else if (at_ == bytes_.size() || begins_character(bytes_[at_])) {
    ++column_;
  }
}

bool CsvReader::at_row_end() const {
  return at_end() || bytes_[at_] == '\n' || (bytes_[at_] == '\r' && bytes_.substr(at_, 2) == "\r\n");
}

void CsvReader::take_row_end() {
  if (at_end()) return;
  if (bytes_[at_] == '\r') step();
  step();
}

void CsvReader::refuse(const CsvCell& cell, const std::string& reason) {
  fault_ = CsvFault{line_, column_, cell.text.substr(0, 200), reason};
}

bool CsvReader::read_quoted(CsvCell& cell) {
  step();
  while (!at_end()) {
    if (cell.text.size() > kMostCell) {
      refuse(cell, "a cell holds more than 1 MiB; is a closing quotation mark missing?");
      return false;
    }
    if (bytes_[at_] != '"') {
      cell.text += bytes_[at_];
      step();
      continue;
    }
    step();
    if (at_row_end() || bytes_[at_] == separator_) return true;
    if (bytes_[at_] != '"') {
      refuse(cell, "words follow a closing quotation mark; a mark inside a quoted cell is written twice");
      return false;
    }
    cell.text += '"';
    step();
  }
  fault_ = CsvFault{cell.line, cell.column, cell.text.substr(0, 200),
                    "the quotation mark that opens here is never closed"};
  return false;
}

bool CsvReader::read_plain(CsvCell& cell) {
  while (!at_row_end() && bytes_[at_] != separator_) {
    if (bytes_[at_] == '"') {
      refuse(cell,
             "a quotation mark stands inside an unquoted cell; put the cell in quotation marks and write it "
             "twice");
      return false;
    }
    if (bytes_[at_] == '\r') {
      refuse(cell, "a carriage return stands alone; rows end with CR LF or LF");
      return false;
    }
    cell.text += bytes_[at_];
    if (cell.text.size() > kMostCell) {
      refuse(cell, "a cell holds more than 1 MiB");
      return false;
    }
    step();
  }
  return true;
}

bool CsvReader::read_cell(CsvCell& cell) {
  cell.line = line_;
  cell.column = column_;
  return !at_end() && bytes_[at_] == '"' ? read_quoted(cell) : read_plain(cell);
}

bool CsvReader::next(CsvRow& row) {
  row.cells.clear();
  row.line = line_;
  if (fault_ || at_end()) return false;
  while (true) {
    CsvCell cell;
    if (!read_cell(cell)) return false;
    row.cells.push_back(std::move(cell));
    if (at_row_end()) break;
    step();  // the separator
  }
  take_row_end();
  return true;
}

}  // namespace lathbook
