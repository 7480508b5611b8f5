// English of dates, numbers and names.
#include "core/view/english.hpp"

#include <algorithm>

#include "core/base/text.hpp"

namespace lathbook {

namespace {

bool first_of_month(Day day) {
  return civil_from_days(day).day == 1;
}

bool last_of_month(Day day) {
  return first_of_month(day + 1);
}

std::string year_words(std::int64_t year) {
  return year > 0 ? std::to_string(year) : std::to_string(1 - year) + " BC";
}

std::string month_words(const CivilDay& civil) {
  return month_name(civil.month) + " " + year_words(civil.year);
}

}  // namespace

std::string unit_words(Day first, Day last) {
  const CivilDay from = civil_from_days(first);
  const CivilDay to = civil_from_days(last);
  if (!first_of_month(first) || !last_of_month(last) || from.year != to.year) return {};
  if (from.month == 1 && to.month == 12) return year_words(from.year);
  return from.month == to.month ? month_words(from) : std::string();
}

bool is_within_year(Day first, Day last) {
  const CivilDay from = civil_from_days(first);
  const CivilDay to = civil_from_days(last);
  return from.year == to.year && ((from.month == 1 && from.day == 1) || (to.month == 12 && to.day == 31));
}

std::string opening_day(Day day) {
  const CivilDay civil = civil_from_days(day);
  if (civil.day != 1) return plain_day(day);
  return civil.month == 1 ? year_words(civil.year) : month_words(civil);
}

std::string closing_day(Day day) {
  const CivilDay civil = civil_from_days(day);
  if (!last_of_month(day)) return plain_day(day);
  return civil.month == 12 ? year_words(civil.year) : month_words(civil);
}

std::string duration_words(std::int64_t days) {
  const auto count = [](std::int64_t number, const std::string& unit) {
    return grouped(static_cast<std::uint64_t>(number)) + " " + unit + (number == 1 ? "" : "s");
  };
  days = std::max<std::int64_t>(days, 0);
  if (days == 0) return "less than a day";
  // A mean Gregorian month is 146,097 days / 4,800 months; to the nearest.
  const std::int64_t months = (days * 4800 + 146097 / 2) / 146097;
  const std::string exact = count(days, "day");
  if (months == 0 || days < 30) return exact;
  if (months < 12) return "about " + count(months, "month") + " (" + exact + ")";
  std::string words = "about " + count(months / 12, "year");
  if (months % 12 != 0) words += " and " + count(months % 12, "month");
  return words + " (" + exact + ")";
}

std::string grouped(std::uint64_t number) {
  std::string digits = std::to_string(number);
  for (std::size_t at = digits.size(); at > 3; at -= 3) digits.insert(at - 3, ",");
  return digits;
}

std::string inside(std::string_view name) {
  std::string text(name);
  const auto is_capital = [](char c) { return c >= 'A' && c <= 'Z'; };
  const std::string_view first = name.substr(0, name.find(' '));
  if (text.size() < 2 || !is_capital(text[0]) || text[1] < 'a' || text[1] > 'z') return text;
  if (first.find('\'') != std::string_view::npos || first.find("’") != std::string_view::npos) return text;
  if (std::any_of(text.begin() + 1, text.end(), is_capital)) return text;
  text[0] = static_cast<char>(text[0] - 'A' + 'a');
  return text;
}

std::string listed(const std::vector<std::string>& words, std::string_view last) {
  if (words.size() < 2) return words.empty() ? std::string() : words.front();
  return join({words.begin(), words.end() - 1}, ", ") + " " + std::string(last) + " " + words.back();
}

}  // namespace lathbook
