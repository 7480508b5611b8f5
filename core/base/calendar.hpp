// Days of the proleptic Gregorian calendar as plain numbers, and how a day is written.
#pragma once

#include <cstdint>
#include <string>

#include "core/base/api.hpp"

namespace lathbook {

/// Days since 1 January 1970, proleptic Gregorian; negative before it. Year 0 is 1 BC.
using Day = std::int64_t;

/// The years this program reckons with. Every day within them, times 2^22 ticks, fits 64 bits.
inline constexpr std::int64_t first_year = -5'000'000'000;
inline constexpr std::int64_t last_year = 5'000'000'000;

/// A day taken apart: astronomical year (0 is 1 BC, -1 is 2 BC), month 1 to 12, day 1 to 31.
struct CivilDay {
  std::int64_t year = 1970;
  int month = 1;
  int day = 1;
  auto operator<=>(const CivilDay&) const = default;
};

LATHBOOK_API bool is_leap_year(std::int64_t year);

/// 28 to 31; the month must be 1 to 12.
LATHBOOK_API int days_in_month(std::int64_t year, int month);

/// True when the year is within first_year and last_year and the month and day exist.
LATHBOOK_API bool is_civil_day(const CivilDay& civil);

/// The number of a day; throws Error(invalid) when `is_civil_day` is false.
LATHBOOK_API Day days_from_civil(const CivilDay& civil);
LATHBOOK_API Day days_from_civil(std::int64_t year, int month, int day);

/// The day of a number; exact for every Day of the years first_year - 2 to last_year + 2, which covers
/// every bound of a date; throws Error(invalid) outside them.
LATHBOOK_API CivilDay civil_from_days(Day day);

/// '1924-06-12', '-0586-07-24', and with a leading Y when the year has more than four digits.
LATHBOOK_API std::string iso_day(Day day);

/// '12 June 1924'; years before 1 are written as BC ('24 July 587 BC').
LATHBOOK_API std::string plain_day(Day day);

/// The year as EDTF writes it: '1924', '-0586', 'Y12345'.
LATHBOOK_API std::string edtf_year(std::int64_t year);

/// English name of a month, 1 to 12.
LATHBOOK_API std::string month_name(int month);

}  // namespace lathbook
