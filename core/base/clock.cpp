#include "core/base/clock.hpp"

#include <array>
#include <chrono>
#include <cstdio>
#include <cstdlib>
#include <ctime>

#include "core/base/error.hpp"
#include "core/base/text.hpp"

namespace lathbook {
namespace {

constexpr std::int64_t day_seconds = 86400;

std::int64_t floor_div(std::int64_t a, std::int64_t b) {
  return a / b - (a % b < 0 ? 1 : 0);
}

// Reads exactly `count` digits at `at`; -1 when one of them is none.
int digits(std::string_view text, std::size_t at, std::size_t count) {
  int value = 0;
  for (std::size_t i = at; i < at + count; ++i) {
    if (text[i] < '0' || text[i] > '9') return -1;
    value = value * 10 + (text[i] - '0');
  }
  return value;
}

// "Z" or "+hh:mm"; "-00:00" is refused, since RFC 3339 gives it a meaning (offset unknown) not kept here.
std::optional<int> offset_of(std::string_view text) {
  if (text == "Z") return 0;
  if (text.size() != 6 || (text[0] != '+' && text[0] != '-') || text[3] != ':') return std::nullopt;
  const int hours = digits(text, 1, 2);
  const int minutes = digits(text, 4, 2);
  if (hours < 0 || hours > 23 || minutes < 0 || minutes > 59) return std::nullopt;
  const int total = hours * 60 + minutes;
  if (text[0] == '-' && total == 0) return std::nullopt;
  return text[0] == '-' ? -total : total;
}

}  // namespace

std::int64_t Moment::local_day() const {
  return floor_div(seconds + offset_minutes * 60, day_seconds);
}

std::string Moment::text() const {
  using namespace std::chrono;
  // The days of the years 0 to 9999; checked before the calendar is asked, whose years are narrow.
  constexpr std::int64_t first = -719528;
  constexpr std::int64_t last = 2932896;
  const std::int64_t day = local_day();
  if (day < first || day > last || offset_minutes <= -1440 || offset_minutes >= 1440) {
    fail(ErrorKind::invalid, "the moment " + std::to_string(seconds) + " s from 1970, offset " +
                                 std::to_string(offset_minutes) + " min, lies outside the years 0 to 9999");
  }
  const year_month_day date{sys_days{days{static_cast<int>(day)}}};
  const int second = static_cast<int>(seconds + offset_minutes * 60 - day * day_seconds);
  std::array<char, 48> line{};
  std::snprintf(line.data(), line.size(), "%04d-%02u-%02uT%02d:%02d:%02d", static_cast<int>(date.year()),
                static_cast<unsigned>(date.month()), static_cast<unsigned>(date.day()), second / 3600,
                second / 60 % 60, second % 60);
  std::string text = line.data();
  if (offset_minutes == 0) return text + "Z";
  const int offset = std::abs(static_cast<int>(offset_minutes));
  std::snprintf(line.data(), line.size(), "%c%02d:%02d", offset_minutes < 0 ? '-' : '+', offset / 60,
                offset % 60);
  return text + line.data();
}

std::optional<Moment> Moment::parse(std::string_view text) {
  using namespace std::chrono;
  if (text.size() < 20) return std::nullopt;
  if (text[4] != '-' || text[7] != '-' || text[10] != 'T' || text[13] != ':' || text[16] != ':') {
    return std::nullopt;
  }
  const int years = digits(text, 0, 4);
  const int months = digits(text, 5, 2);
  const int day_of_month = digits(text, 8, 2);
  const int hour = digits(text, 11, 2);
  const int minute = digits(text, 14, 2);
  const int second = digits(text, 17, 2);
  if (years < 0 || months < 1 || day_of_month < 1 || hour < 0 || hour > 23 || minute < 0 || minute > 59 ||
      second < 0 || second > 59) {
    return std::nullopt;
  }
  const year_month_day date{year{years}, month{static_cast<unsigned>(months)},
                            day{static_cast<unsigned>(day_of_month)}};
  const std::optional<int> offset = offset_of(text.substr(19));
  if (!date.ok() || !offset) return std::nullopt;
  const std::int64_t days_passed = sys_days{date}.time_since_epoch().count();
  return Moment{days_passed * day_seconds + hour * 3600 + minute * 60 + second - *offset * 60,
                static_cast<std::int16_t>(*offset)};
}

Clock::~Clock() = default;
SystemClock::~SystemClock() = default;
FixedClock::~FixedClock() = default;

Moment SystemClock::now() const {
  if (const char* const set = std::getenv("LATHBOOK_NOW"); set != nullptr && *set != '\0') {
    const std::optional<Moment> moment = Moment::parse(set);
    if (!moment) {
      fail(ErrorKind::invalid, "the environment variable LATHBOOK_NOW holds " + quote(set) +
                                   ", which is no moment; write it like 2026-05-03T10:15:00+02:00");
    }
    return *moment;
  }
  const std::time_t now = std::time(nullptr);
  std::tm local{};
  localtime_r(&now, &local);
  return Moment{now, static_cast<std::int16_t>(local.tm_gmtoff / 60)};
}

}  // namespace lathbook
