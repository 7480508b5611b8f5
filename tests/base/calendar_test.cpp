// Day numbers against published calendar tables, and their round trip.
#include "core/base/calendar.hpp"

#include <catch2/catch.hpp>
#include <random>

#include "core/base/error.hpp"

using namespace lathbook;

namespace {
// Day 1 of the 'rata die' count is 1 January of year 1 (Reingold and Dershowitz).
constexpr Day rata_die_epoch = -719'163;
}  // namespace

TEST_CASE("day numbers agree with published tables") {
  // E. M. Reingold and N. Dershowitz, 'Calendrical Calculations', appendix of sample data: the fixed
  // day number and the Gregorian date.
  struct Row {
    Day fixed;
    CivilDay civil;
  };
  const std::vector<Row> rows{
      {-214193, {-586, 7, 24}}, {-61387, {-168, 12, 5}}, {25469, {70, 9, 24}},    {49217, {135, 10, 2}},
      {171307, {470, 1, 8}},    {210155, {576, 5, 20}},  {253427, {694, 11, 10}}, {369740, {1013, 4, 25}},
      {400085, {1096, 5, 24}},  {434355, {1190, 3, 23}}, {452605, {1240, 3, 10}}, {470160, {1288, 4, 2}},
      {473837, {1298, 4, 27}},  {507850, {1391, 6, 12}}, {524156, {1436, 2, 3}},  {544676, {1492, 4, 9}},
      {567118, {1553, 9, 19}},  {569477, {1560, 3, 5}},  {601716, {1648, 6, 10}}, {613424, {1680, 6, 30}},
      {626596, {1716, 7, 24}},  {645554, {1768, 6, 19}}, {664224, {1819, 8, 2}},  {671401, {1839, 3, 27}},
      {694799, {1903, 4, 19}},  {704424, {1929, 8, 25}}, {708842, {1941, 9, 29}}, {709409, {1943, 4, 19}},
      {709580, {1943, 10, 7}},  {727274, {1992, 3, 17}}, {728714, {1996, 2, 25}}, {744313, {2038, 11, 10}},
      {764652, {2094, 7, 18}}};
  for (const Row& row : rows) {
    CAPTURE(row.fixed);
    CHECK(days_from_civil(row.civil) == row.fixed + rata_die_epoch);
    CHECK(civil_from_days(row.fixed + rata_die_epoch) == row.civil);
  }
  // POSIX.1-2017, 4.16 'Seconds Since the Epoch': the epoch is 1 January 1970.
  CHECK(days_from_civil(1970, 1, 1) == 0);
  // Modified Julian day 0 is 17 November 1858 and J2000 is day 51544 (IAU usage).
  CHECK(days_from_civil(1858, 11, 17) == -40587);
  CHECK(days_from_civil(2000, 1, 1) == 51544 - 40587);
}

TEST_CASE("leap years follow the Gregorian rule") {
  // ISO 8601-1:2019, 3.1.1.21 (leap year), and Inter gravissimas, 1582.
  CHECK(is_leap_year(2000));
  CHECK(is_leap_year(1884));
  CHECK(is_leap_year(0));
  CHECK(is_leap_year(-4));
  CHECK_FALSE(is_leap_year(1900));
  CHECK_FALSE(is_leap_year(-100));
  CHECK_FALSE(is_leap_year(1886));
  CHECK(days_in_month(1900, 2) == 28);
  CHECK(days_in_month(2000, 2) == 29);
  CHECK(days_in_month(2001, 12) == 31);
  CHECK_THROWS_AS(days_in_month(1900, 13), Error);
}

TEST_CASE("every day over 20,000 years goes to a date and back, in order") {
  const Day first = days_from_civil(-10'000, 1, 1);
  const Day last = days_from_civil(10'000, 12, 31);
  CivilDay expected{-10'000, 1, 1};
  bool same = true;
  for (Day day = first; day <= last && same; ++day) {
    const CivilDay civil = civil_from_days(day);
    same = civil == expected && days_from_civil(civil) == day;
    if (++expected.day > days_in_month(expected.year, expected.month)) {
      expected.day = 1;
      if (++expected.month > 12) {
        expected.month = 1;
        ++expected.year;
      }
    }
  }
  CHECK(same);
  CHECK(expected == CivilDay{10'001, 1, 1});
}

TEST_CASE("the far ends of the calendar are exact and what lies beyond is refused") {
  std::mt19937_64 random(20'251'125);
  std::uniform_int_distribution<std::int64_t> years(first_year, last_year);
  for (int i = 0; i < 10'000; ++i) {
    const std::int64_t year = years(random);
    const int month = 1 + static_cast<int>(random() % 12);
    const CivilDay civil{year, month, days_in_month(year, month)};
    CHECK(civil_from_days(days_from_civil(civil)) == civil);
  }
  for (const std::int64_t year : {first_year, last_year})
    CHECK(civil_from_days(days_from_civil(year, 12, 31)) == CivilDay{year, 12, 31});
  // Every tick of the clock (2^22 a day) must fit 64 bits.
  CHECK(days_from_civil(last_year, 12, 31) < (std::int64_t{1} << 41));
  CHECK(days_from_civil(first_year, 1, 1) > -(std::int64_t{1} << 41));
  CHECK_THROWS_AS(days_from_civil(last_year + 1, 1, 1), Error);
  CHECK_THROWS_AS(days_from_civil(1900, 2, 29), Error);
  CHECK_THROWS_AS(days_from_civil(1900, 0, 1), Error);
  CHECK_THROWS_AS(civil_from_days(std::int64_t{1} << 62), Error);
}

TEST_CASE("days are written for machines and for people") {
  CHECK(iso_day(days_from_civil(1924, 6, 12)) == "1924-06-12");
  CHECK(iso_day(days_from_civil(-586, 7, 24)) == "-0586-07-24");
  CHECK(iso_day(days_from_civil(0, 1, 1)) == "0000-01-01");
  CHECK(iso_day(days_from_civil(170'002, 1, 1)) == "Y170002-01-01");
  CHECK(iso_day(days_from_civil(-17'000, 12, 3)) == "Y-17000-12-03");
  CHECK(plain_day(days_from_civil(1924, 6, 12)) == "12 June 1924");
  CHECK(plain_day(days_from_civil(-586, 7, 24)) == "24 July 587 BC");
  CHECK(plain_day(days_from_civil(0, 12, 31)) == "31 December 1 BC");
}
