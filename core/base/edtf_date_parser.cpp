// One EDTF date: year, month or season, day, time, qualifiers and digits left open; and its day bounds.
#include <algorithm>
#include <array>
#include <cstdlib>

#include "core/base/date_text.hpp"
#include "core/base/edtf_parser.hpp"

namespace lathbook {

namespace {

bool is_place(char c) {
  return is_digit(c) || c == 'X';
}

bool both(DateQualifier a, DateQualifier b) {
  return a != DateQualifier{} && b != DateQualifier{};
}

/// First month and length of each code 21 to 41, northern winters and southern summers running into
/// the next year. EDTF leaves the months open; these are the meteorological seasons.
struct Season {
  int first_month;
  int months;
  Precision precision;
};
Season season_of(int code) {
  static constexpr std::array<int, 4> northern{3, 6, 9, 12};
  static constexpr std::array<int, 4> southern{9, 12, 3, 6};
  if (code <= 28) return {northern[static_cast<std::size_t>((code - 21) % 4)], 3, Precision::season};
  if (code <= 32) return {southern[static_cast<std::size_t>(code - 29)], 3, Precision::season};
  if (code <= 36) return {(code - 33) * 3 + 1, 3, Precision::quarter};
  if (code <= 39) return {(code - 37) * 4 + 1, 4, Precision::four_months};
  return {(code - 40) * 6 + 1, 6, Precision::half_year};
}

Precision precision_of_open_digits(std::size_t count) {
  static constexpr std::array<Precision, 4> kinds{Precision::year, Precision::decade, Precision::century,
                                                  Precision::millennium};
  return count < kinds.size() ? kinds[count] : Precision::longer;
}

}  // namespace

bool EdtfDateParser::Places::fits(std::int64_t value) const {
  for (std::size_t i = text.size(); i-- > 0; value /= 10)
    if (text[i] != 'X' && text[i] - '0' != value % 10) return false;
  return true;
}

int EdtfDateParser::Places::value() const {
  int out = 0;
  for (const char c : text) out = out * 10 + (c - '0');
  return out;
}

void EdtfDateParser::bad(std::size_t at, const std::string& advice) const {
  bad_edtf(text_, at, advice);
}

bool EdtfDateParser::take(char c) {
  if (peek() != c) return false;
  ++at_;
  return true;
}

DateQualifier EdtfDateParser::take_qualifier() {
  DateQualifier q;
  const char c = peek();
  if (c != '?' && c != '~' && c != '%') return q;
  q.uncertain = c != '~';
  q.approximate = c != '?';
  ++at_;
  if (peek() == '?' || peek() == '~' || peek() == '%')
    bad(at_, "one mark is enough; write % for uncertain and approximate");
  return q;
}

void EdtfDateParser::left_qualifier(DateQualifier& component) {
  component = take_qualifier();
  if (component != DateQualifier{}) inner_qualifier_ = true;
}

// A mark right of a component holds for it and for all to its left.
void EdtfDateParser::right_qualifier(int components) {
  const std::size_t at = at_;
  const DateQualifier q = take_qualifier();
  if (q == DateQualifier{}) return;
  if (components == 1 && both(date_.year, q))
    bad(at, "the year has a mark on both sides; keep one, or write % for uncertain and approximate");
  (end() ? end_qualifier_ : inner_qualifier_) = true;
  const auto add = [q](DateQualifier& to) {
    to.uncertain = to.uncertain || q.uncertain;
    to.approximate = to.approximate || q.approximate;
  };
  add(date_.year);
  if (components > 1) add(date_.month);
  if (components > 2) add(date_.day);
}

EdtfDate EdtfDateParser::parse(bool time_allowed) {
  left_qualifier(date_.year);
  read_year();
  right_qualifier(1);
  if (!end()) {
    if (year_only_) bad(at_, "a year written this way stands alone, without month or day");
    if (peek() != '-') bad(at_, "after the year comes a hyphen and a month of two digits");
    read_month();
    right_qualifier(2);
  }
  if (!end()) {
    if (date_.season != 0) bad(at_, "a season or part of a year has no day");
    if (peek() != '-') bad(at_, "after the month comes a hyphen and a day of two digits");
    read_day();
    if (peek() == 'T') {
      if (!time_allowed) bad(at_, "intervals and sets hold dates without a time");
      read_time();
    } else {
      right_qualifier(3);
    }
  }
  if (!end())
    bad(at_, peek() == 't'   ? "write a capital T before the time"
             : peek() == ' ' ? "leave out the blank"
                             : "the date is complete here; leave out the rest");
  set_bounds();
  date_.text = text_.substr(from_);
  // A mark on a season goes beyond the profile, at its end too.
  if (inner_qualifier_ || (end_qualifier_ && date_.season != 0)) date_.level = 2;
  if (end_qualifier_) date_.level = std::max(date_.level, 1);
  return date_;
}

void EdtfDateParser::bad_year(std::size_t start) {
  std::size_t count = 0;
  while (start + count < text_.size() && is_place(text_[start + count])) ++count;
  const std::string places(text_.substr(start, count));
  const std::string sign = negative_ ? "-" : "";
  if (count == 0) {
    const char c = start < text_.size() ? text_[start] : '\0';
    if (c == '+') bad(start, "leave out the plus sign");
    if (c == '?' || c == '~' || c == '%') bad(start, "the mark goes before the minus sign");
    bad(start, "a date begins with a year of four digits, such as 1884 or 188X");
  }
  if (count == 2)
    bad(start + 2, "a year has four digits; write " + sign + places + "XX for the hundred years");
  if (count == 3) bad(start + 3, "a year has four digits; write " + sign + places + "X for the ten years");
  if (count == 8)
    bad(start + 4,
        "write " + sign + places.substr(0, 4) + "-" + places.substr(4, 2) + "-" + places.substr(6));
  if (count > 4) bad(start + 4, "write Y before a year of more than four digits");
  bad(start + count, "a year has four digits; write zeros before it");
}

void EdtfDateParser::read_year() {
  if (peek() == 'Y') return read_long_year();
  negative_ = take('-');
  const std::size_t start = at_;
  while (!end() && is_place(peek())) ++at_;
  if (at_ - start != 4) bad_year(start);
  year_ = {text_.substr(start, 4), start};
  date_.level = negative_ ? 1 : 0;
  if (year_.text == "0000" && negative_) bad(start, "the year 0 has no minus sign; write 0000");
  if (peek() == 'S') {
    if (year_.has_x()) bad(at_, "significant digits need a year with all its digits");
    read_significant_digits(year_.value(), year_.text);
    return;
  }
  if (year_.has_x()) {
    const std::string_view t = year_.text;
    const bool from_right = t.substr(t.find('X')).find_first_not_of('X') == std::string_view::npos;
    const std::size_t open = 4 - t.find('X');
    date_.precision = precision_of_open_digits(open);
    date_.continuous = from_right;
    date_.level = from_right && open != 3 ? 1 : 2;
  }
}

void EdtfDateParser::read_long_year() {
  ++at_;
  negative_ = take('-');
  year_only_ = true;
  const std::size_t start = at_;
  while (!end() && is_digit(peek())) ++at_;
  const std::string_view digits = text_.substr(start, at_ - start);
  if (digits.empty()) bad(at_, peek() == 'X' ? "a year after Y has no X" : "after Y comes a year in digits");
  if (digits.front() == '0') bad(start, "a year after Y has no leading zero");
  if (peek() == 'X') bad(at_, "a year after Y has no X");
  // Sixteen digits cannot overflow; anything longer is beyond the calendar anyway.
  std::int64_t value =
      digits.size() <= 16 ? std::strtoll(std::string(digits).c_str(), nullptr, 10) : last_year + 1;
  const bool exponent = take('E');
  if (exponent) {
    const std::size_t at = at_;
    while (!end() && is_digit(peek())) ++at_;
    if (at_ == at) bad(at, "after E comes a number of zeros");
    const std::string_view power = text_.substr(at, at_ - at);
    int zeros = power.size() <= 2 ? std::atoi(std::string(power).c_str()) : 99;
    while (zeros-- > 0 && value <= last_year) value *= 10;
  } else if (digits.size() < 5) {
    bad(start, "Y is for years of more than four digits; leave it out");
  }
  if (value > last_year)
    bad(start, "years beyond " + std::to_string(last_year) + " before or after year 0 are not reckoned with");
  date_.level = exponent ? 2 : 1;
  if (peek() == 'S') return read_significant_digits(value, std::to_string(value));
  set_year_range(negative_ ? -value : value, negative_ ? -value : value);
}

void EdtfDateParser::read_significant_digits(std::int64_t value, std::string_view written) {
  const std::size_t at = at_++;
  const std::size_t from = at_;
  while (!end() && is_digit(peek())) ++at_;
  const std::string_view count_text = text_.substr(from, at_ - from);
  const std::size_t zeros = std::min(written.find_first_not_of('0'), written.size() - 1);
  const auto digits = static_cast<int>(written.size() - zeros);
  const int count =
      count_text.empty() || count_text.size() > 2 ? 0 : std::atoi(std::string(count_text).c_str());
  if (count < 1 || count > digits)
    bad(at, "after S comes how many digits of the year are sure, here 1 to " + std::to_string(digits));
  std::int64_t unit = 1;
  for (int i = count; i < digits; ++i) unit *= 10;
  const std::int64_t low = value / unit * unit;
  const std::int64_t high = low + unit - 1;
  if (high > last_year)
    bad(at, "years beyond " + std::to_string(last_year) + " before or after year 0 are not reckoned with");
  year_only_ = true;
  date_.level = 2;
  date_.estimate = negative_ ? -value : value;
  set_year_range(negative_ ? -high : low, negative_ ? -low : high);
  date_.precision = precision_of_open_digits(static_cast<std::size_t>(digits - count));
}

void EdtfDateParser::set_year_range(std::int64_t first, std::int64_t last) {
  date_.earliest = days_from_civil(first, 1, 1);
  date_.latest = days_from_civil(last, 12, 31);
}

void EdtfDateParser::read_month() {
  ++at_;
  left_qualifier(date_.month);
  const std::size_t start = at_;
  while (!end() && is_place(peek())) ++at_;
  const std::size_t count = at_ - start;
  if (count == 4)
    bad(start, "write / between two dates, such as " + std::string(year_.text) + "/" +
                   std::string(text_.substr(start, 4)));
  if (peek() == 'W' && count == 0) bad(start, "weeks are not used; write month and day");
  if (count != 2) bad(start, "a month has two digits");
  month_ = {text_.substr(start, 2), start};
  date_.components = 2;
  if (!month_.has_x() && month_.value() >= 21 && month_.value() <= 41) {
    date_.season = month_.value();
    if (!year_.has_x()) date_.precision = season_of(date_.season).precision;
    date_.level = std::max(date_.level, date_.season <= 24 && !year_.has_x() && !inner_qualifier_ ? 1 : 2);
    return;
  }
  if (!month_.has_x() && (month_.value() < 1 || month_.value() > 12))
    bad(start, "there is no month or season " + std::string(month_.text));
  if (!month_.has_x() && !year_.has_x()) date_.precision = Precision::month;
  if (month_.has_x() && !month_.all_x()) date_.continuous = false;
  set_level_of_open_digits();
}

void EdtfDateParser::read_day() {
  ++at_;
  left_qualifier(date_.day);
  const std::size_t start = at_;
  while (!end() && is_place(peek())) ++at_;
  if (at_ - start != 2) bad(start, "a day has two digits");
  day_ = {text_.substr(start, 2), start};
  date_.components = 3;
  if (!day_.has_x() && date_.precision == Precision::month) date_.precision = Precision::day;
  set_level_of_open_digits();
}

// Digits are open from the right at level 1 when whole components are: 1985-XX-XX, 1985-04-XX, XXXX-XX-XX.
void EdtfDateParser::set_level_of_open_digits() {
  const Places& last = date_.components == 3 ? day_ : month_;
  if (!year_.has_x() && !month_.has_x() && !last.has_x()) return;
  const bool month_open = month_.all_x();
  const bool year_ok = !year_.has_x() || (year_.all_x() && month_open && last.all_x());
  const bool month_ok = !month_.has_x() || (month_open && last.all_x());
  const bool whole = year_ok && month_ok && (!last.has_x() || last.all_x());
  date_.level = whole ? std::max(date_.level, 1) : 2;
  const bool year_gaps = year_.has_x() && !month_open;
  const bool month_gaps = date_.components == 3 && month_.has_x() && !last.all_x();
  if (year_gaps || month_gaps || (last.has_x() && !last.all_x())) date_.continuous = false;
}

int EdtfDateParser::two_digits(const char* what, int highest) {
  const std::size_t start = at_;
  while (!end() && is_digit(peek())) ++at_;
  if (at_ - start != 2) bad(start, std::string("the ") + what + " has two digits");
  const int value = Places{text_.substr(start, 2), start}.value();
  if (value > highest)
    bad(start, std::string("the ") + what + " is at most " + std::to_string(highest) +
                   (what == std::string_view("hour") && value == 24 ? "; write 00 of the next day" : ""));
  return value;
}

void EdtfDateParser::read_time() {
  const std::size_t start = at_++;
  if (inner_qualifier_ || year_.has_x() || month_.has_x() || day_.has_x())
    bad(start, "a date with a time has no marks and no X");
  const auto colon = [this](const char* what) {
    if (!take(':')) bad(at_, std::string("a colon and the ") + what + " in two digits are missing");
  };
  int second = two_digits("hour", 23) * 3600;
  colon("minutes");
  second += two_digits("minutes", 59) * 60;
  colon("seconds");
  second += two_digits("seconds", 59);
  date_.second_of_day = second;
  date_.precision = Precision::second;
  if (peek() == '.' || peek() == ',') bad(at_, "parts of a second are not used");
  if (take('Z')) {
    date_.offset_minutes = 0;
  } else if (peek() == '+' || peek() == '-') {
    read_offset();
  }
}

void EdtfDateParser::read_offset() {
  const std::size_t start = at_;
  const bool behind = text_[at_++] == '-';
  if (text_.size() - at_ == 4 &&
      std::all_of(text_.begin() + static_cast<std::ptrdiff_t>(at_), text_.end(), is_digit))
    bad(at_ + 2, "write a colon between the hours and minutes of an offset");
  int minutes = two_digits("hours of an offset", 23) * 60;
  if (take(':')) minutes += two_digits("minutes of an offset", 59);
  if (behind && minutes == 0) bad(start, "an offset of zero has a plus sign; write Z");
  date_.offset_minutes = behind ? -minutes : minutes;
}

namespace {

// The number with one digit for every X.
std::int64_t filled(std::string_view places, char digit) {
  std::int64_t number = 0;
  for (const char place : places) number = 10 * number + ((place == 'X' ? digit : place) - '0');
  return number;
}

}  // namespace

// The first or last year (as `forward` says) whose digits fit and that `accept` takes.
template <class Accept>
std::optional<std::int64_t> EdtfDateParser::find_year(bool forward, Accept accept) const {
  const bool upward = forward != negative_;
  const std::int64_t least = filled(year_.text, '0'), greatest = filled(year_.text, '9');
  for (std::int64_t i = 0; i <= greatest - least; ++i) {
    const std::int64_t number = upward ? least + i : greatest - i;
    const std::int64_t year = negative_ ? -number : number;
    if (year_.fits(number) && accept(year)) return year;
  }
  return std::nullopt;
}

// The first or last day of this year that fits the digits of month and day.
std::optional<CivilDay> EdtfDateParser::day_in_year(std::int64_t year, bool first) const {
  for (int m = 1; m <= 12; ++m) {
    const int month = first ? m : 13 - m;
    if (!month_.text.empty() && !month_.fits(month)) continue;
    const int length = days_in_month(year, month);
    for (int d = 1; d <= length; ++d) {
      const int day = first ? d : length + 1 - d;
      if (day_.text.empty() || day_.fits(day)) return CivilDay{year, month, day};
    }
  }
  return std::nullopt;
}

void EdtfDateParser::set_bounds() {
  if (year_only_) return;
  if (date_.season != 0) {
    const Season season = season_of(date_.season);
    const auto any = [](std::int64_t) { return true; };
    const int last_month = season.first_month + season.months - 1;
    const std::int64_t last = *find_year(false, any) + (last_month > 12 ? 1 : 0);
    const int month = last_month > 12 ? last_month - 12 : last_month;
    date_.earliest = days_from_civil(*find_year(true, any), season.first_month, 1);
    date_.latest = days_from_civil(last, month, days_in_month(last, month));
    date_.continuous = date_.continuous && !year_.has_x();
    return;
  }
  // Years differ in their leap day only, so one of each kind answers for all.
  const bool in_leap = day_in_year(2000, true).has_value();
  const bool in_common = day_in_year(2001, true).has_value();
  const auto accept = [&](std::int64_t year) { return is_leap_year(year) ? in_leap : in_common; };
  const auto first = find_year(true, accept);
  const auto last = find_year(false, accept);
  if (!first || !last) bad_day();
  date_.earliest = days_from_civil(*day_in_year(*first, true));
  date_.latest = days_from_civil(*day_in_year(*last, false));
}

void EdtfDateParser::bad_day() const {
  if (date_.components == 2) bad(month_.at, "no month fits " + std::string(month_.text));
  if (year_.has_x() || month_.has_x() || day_.has_x())
    bad(day_.at, "no day of the calendar fits these digits");
  bad(day_.at,
      month_name(month_.value()) + " " + std::string(year_.text) + " has no day " + std::string(day_.text));
}

}  // namespace lathbook
