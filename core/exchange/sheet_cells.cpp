#include "core/exchange/sheet_cells.hpp"

#include <algorithm>

#include "core/base/text.hpp"

namespace lathbook {

namespace {

// Length of `name=` at the start of a text, blanks before it included; 0 when there is none.
std::size_t name_length(std::string_view text) {
  std::size_t at = 0;
  while (at < text.size() && text[at] == ' ') ++at;
  const auto start = at;
  while (at < text.size() && ((text[at] >= 'a' && text[at] <= 'z') || text[at] == '-')) ++at;
  return at > start && at < text.size() && text[at] == '=' ? at + 1 : 0;
}

// Where ` {name=` begins; npos when it does not.
std::size_t find_brace(std::string_view text, std::size_t from = 0) {
  for (auto at = text.find(" {", from); at != std::string_view::npos; at = text.find(" {", at + 1)) {
    if (name_length(text.substr(at + 2)) > 0) return at;
  }
  return std::string_view::npos;
}

}  // namespace

std::vector<std::string> split_values(std::string_view cell) {
  std::vector<std::string> values;
  std::size_t start = 0;
  std::size_t from = 0;
  while (true) {
    const auto bar = cell.find(" | ", from);
    if (bar == std::string_view::npos) break;
    const auto brace = find_brace(cell, from);
    if (brace < bar) {
      const auto close = cell.find('}', brace);
      if (close == std::string_view::npos) break;
      from = close + 1;
      continue;
    }
    values.emplace_back(trim(cell.substr(start, bar - start)));
    start = from = bar + 3;
  }
  values.emplace_back(trim(cell.substr(start)));
  return values;
}

bool read_details(std::string_view text, Details& details) {
  while (true) {
    const auto length = name_length(text);
    if (length == 0) return false;
    const auto name = trim(text.substr(0, length - 1));
    text.remove_prefix(length);
    auto end = text.find(';');
    while (end != std::string_view::npos && name_length(text.substr(end + 1)) == 0)
      end = text.find(';', end + 1);
    auto value = trim(text.substr(0, end));
    if (end == std::string_view::npos && !value.empty() && value.back() == ';')
      value = trim(value.substr(0, value.size() - 1));
    details.emplace_back(name, value);
    if (end == std::string_view::npos) return true;
    text.remove_prefix(end + 1);
  }
}

CellValue split_details(std::string_view cell) {
  cell = trim(cell);
  CellValue out;
  const auto brace = !cell.empty() && cell.back() == '}' ? find_brace(cell) : std::string_view::npos;
  if (brace == std::string_view::npos) {
    out.value = cell;
    return out;
  }
  out.value = trim(cell.substr(0, brace));
  read_details(cell.substr(brace + 2, cell.size() - brace - 3), out.details);
  return out;
}

std::string header_key(std::string_view title) {
  auto key = fold(title);
  std::replace(key.begin(), key.end(), ' ', '-');
  std::replace(key.begin(), key.end(), '_', '-');
  return key;
}

}  // namespace lathbook
