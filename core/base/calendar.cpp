// Calendar arithmetic by counting leap days in whole years; see calendar.hpp for the contract.
#include "core/base/calendar.hpp"

#include <array>

#include "core/base/error.hpp"

namespace lathbook {

namespace {

constexpr std::int64_t days_in_400_years = 146'097;
// From 1 January of year 0 to 1 January 1970.
constexpr std::int64_t epoch_offset = 719'528;
constexpr std::array<int, 13> before_month{0, 31, 59, 90, 120, 151, 181, 212, 243, 273, 304, 334, 365};

std::int64_t floor_div(std::int64_t a, std::int64_t b) {
  const std::int64_t q = a / b;
  return a % b < 0 ? q - 1 : q;
}

// Days from 1 January of year 0 to 1 January of `year`: one leap day for each leap year passed.
std::int64_t days_before_year(std::int64_t year) {
  const std::int64_t past = year - 1;
  return 365 * year + floor_div(past, 4) - floor_div(past, 100) + floor_div(past, 400) + 1;
}

int days_before_month(std::int64_t year, int month) {
  return before_month[static_cast<std::size_t>(month - 1)] + (month > 2 && is_leap_year(year) ? 1 : 0);
}

std::string padded(std::int64_t value, std::size_t width) {
  std::string digits = std::to_string(value);
  return digits.size() < width ? std::string(width - digits.size(), '0') + digits : digits;
}

}  // namespace

bool is_leap_year(std::int64_t year) {
  return year % 4 == 0 && (year % 100 != 0 || year % 400 == 0);
}

int days_in_month(std::int64_t year, int month) {
  if (month < 1 || month > 12) fail(ErrorKind::invalid, "there is no month " + std::to_string(month));
  const auto m = static_cast<std::size_t>(month);
  return before_month[m] - before_month[m - 1] + (month == 2 && is_leap_year(year) ? 1 : 0);
}

bool is_civil_day(const CivilDay& civil) {
  return civil.year >= first_year && civil.year <= last_year && civil.month >= 1 && civil.month <= 12 &&
         civil.day >= 1 && civil.day <= days_in_month(civil.year, civil.month);
}

Day days_from_civil(const CivilDay& civil) {
  if (!is_civil_day(civil))
    fail(ErrorKind::invalid, "there is no day " + std::to_string(civil.day) + " of month " +
                                 std::to_string(civil.month) + " in year " + std::to_string(civil.year));
  return days_before_year(civil.year) + days_before_month(civil.year, civil.month) + civil.day - 1 -
         epoch_offset;
}

Day days_from_civil(std::int64_t year, int month, int day) {
  return days_from_civil(CivilDay{year, month, day});
}

CivilDay civil_from_days(Day day) {
  constexpr Day reach = 1'826'250'000'000;
  if (day < -reach || day > reach)
    fail(ErrorKind::invalid, "day number " + std::to_string(day) + " lies outside the calendar");
  const std::int64_t since_zero = day + epoch_offset;
  const std::int64_t cycle = floor_div(since_zero, days_in_400_years);
  const std::int64_t within = since_zero - cycle * days_in_400_years;
  // The mean length of a year gives the year or its neighbour; the exact count settles which.
  std::int64_t year = within * 400 / days_in_400_years;
  if (days_before_year(year + 1) <= within) ++year;
  if (days_before_year(year) > within) --year;
  const auto of_year = static_cast<int>(within - days_before_year(year));
  int month = 12;
  while (days_before_month(year, month) > of_year) --month;
  return {year + cycle * 400, month, of_year - days_before_month(year, month) + 1};
}

std::string edtf_year(std::int64_t year) {
  const bool negative = year < 0;
  const std::string digits = padded(negative ? -year : year, 4);
  return std::string(digits.size() > 4 ? "Y" : "") + (negative ? "-" : "") + digits;
}

std::string iso_day(Day day) {
  const CivilDay civil = civil_from_days(day);
  return edtf_year(civil.year) + "-" + padded(civil.month, 2) + "-" + padded(civil.day, 2);
}

std::string month_name(int month) {
  static constexpr std::array<const char*, 12> names{"January",   "February", "March",    "April",
                                                     "May",       "June",     "July",     "August",
                                                     "September", "October",  "November", "December"};
  if (month < 1 || month > 12) fail(ErrorKind::invalid, "there is no month " + std::to_string(month));
  return names[static_cast<std::size_t>(month - 1)];
}

std::string plain_day(Day day) {
  const CivilDay civil = civil_from_days(day);
  const std::string year =
      civil.year > 0 ? std::to_string(civil.year) : std::to_string(1 - civil.year) + " BC";
  return std::to_string(civil.day) + " " + month_name(civil.month) + " " + year;
}

}  // namespace lathbook
