// Guards and quotes cells.
#include "core/base/csv_cell.hpp"

#include <algorithm>

namespace lathbook {

namespace {

bool is_digit(char c) {
  return c >= '0' && c <= '9';
}

bool starts_formula(char c) {
  return c == '=' || c == '+' || c == '-' || c == '@' || c == '\t' || c == '\r';
}

bool is_plain_number(std::string_view text) {
  if (!text.empty() && (text[0] == '-' || text[0] == '+')) text.remove_prefix(1);
  const auto point = text.find('.');
  const auto whole = text.substr(0, point);
  const auto part = point == std::string_view::npos ? std::string_view("0") : text.substr(point + 1);
  return !whole.empty() && !part.empty() && std::all_of(whole.begin(), whole.end(), is_digit) &&
         std::all_of(part.begin(), part.end(), is_digit);
}

bool needs_guard(char first) {
  return starts_formula(first) || first == '\'' || first == ' ' || first == '\n';
}

}  // namespace

std::string guard_cell(std::string_view text) {
  if (text.empty() || !needs_guard(text[0]) || is_plain_number(text)) return std::string(text);
  return "'" + std::string(text);
}

std::string_view unguard_cell(std::string_view cell) {
  if (cell.size() > 1 && cell[0] == '\'' && needs_guard(cell[1])) cell.remove_prefix(1);
  return cell;
}

std::string csv_cell(std::string_view text) {
  const std::string guarded = guard_cell(text);
  const bool plain = guarded.find_first_of(",;\"\r\n") == std::string::npos &&
                     (guarded.empty() || (guarded.front() != ' ' && guarded.back() != ' '));
  if (plain) return guarded;
  std::string quoted = "\"";
  for (const char c : guarded) {
    if (c == '"') quoted += '"';
    quoted += c;
  }
  return quoted + '"';
}

}  // namespace lathbook
