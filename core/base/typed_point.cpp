// Reads one point in time of a typed date and cuts it into parts ('late 1920s').
#include "core/base/typed_point.hpp"

#include <algorithm>

#include "core/base/date_text.hpp"

namespace lathbook {

namespace {

std::string two(int value) {
  return (value < 10 ? "0" : "") + std::to_string(value);
}

TypedPoint single(const std::string& date, PointUnit unit) {
  return {date, date, unit, {}};
}

std::string written_day(Day day, PointUnit unit) {
  const std::string iso = iso_day(day);
  const std::size_t kept = unit == PointUnit::day                                  ? 0
                           : unit == PointUnit::month || unit == PointUnit::season ? 3
                                                                                   : 6;
  return iso.substr(0, iso.size() - kept);
}

}  // namespace

std::string neighbour(const TypedPoint& point, bool after) {
  if (point.unit == PointUnit::event) return after ? point.last : point.first;
  const Edtf edge = Edtf::parse(after ? point.last : point.first);
  return written_day(after ? *edge.latest() + 1 : *edge.earliest() - 1, point.unit);
}

void TypedPointReader::refuse(const std::string& advice) const {
  fail(ErrorKind::invalid, "the date " + shown(typed_) + " is not understood: " + advice);
}

void TypedPointReader::refuse_word() const {
  const auto is_unknown = [this](std::size_t i) {
    if (pieces_[i].kind != DatePiece::Kind::word) return false;
    std::string value;
    for (const DateWord kind :
         {DateWord::month, DateWord::season, DateWord::filler, DateWord::about, DateWord::ending})
      if (DateWords::english().match(pieces_, i, kind, value) > 0) return false;
    return true;
  };
  std::size_t at = at_;
  while (at < pieces_.size() && !is_unknown(at)) ++at;
  if (at < pieces_.size() && ordered_) {
    // The last word names the thing best: 'the 1926 building permit'.
    while (at + 1 < pieces_.size() && is_unknown(at + 1)) ++at;
    refuse(shown(pieces_[at].text) + " is a thing and not a date; record a relation to the " +
           pieces_[at].text + " itself instead, or write only the date, such as 'after 1926'");
  }
  const std::string advice = "write for example 'about 1890', 'spring 1911', 'by 1921' or '1924/1926'";
  const std::string start = "the date " + shown(typed_) + " is not understood: ";
  if (at < pieces_.size())
    throw NotWords(ErrorKind::invalid,
                   start + shown(pieces_[at].text) + " is not a word of dates; " + advice);
  if (end()) throw NotWords(ErrorKind::invalid, start + "a year is missing; " + advice);
  throw NotWords(ErrorKind::invalid,
                 start + shown(pieces_[at_].text) + " stands where a date should; " + advice);
}

bool TypedPointReader::at_word(DateWord kind) const {
  std::string value;
  return DateWords::english().match(pieces_, at_, kind, value) > 0;
}

bool TypedPointReader::take(DateWord kind) {
  std::string value;
  return take(kind, value);
}

bool TypedPointReader::take(DateWord kind, std::string& value) {
  const std::size_t count = DateWords::english().match(pieces_, at_, kind, value);
  at_ += count;
  return count > 0;
}

bool TypedPointReader::take_sign(DatePiece::Kind kind) {
  if (end() || pieces_[at_].kind != kind) return false;
  ++at_;
  return true;
}

DateQualifier TypedPointReader::take_marks() {
  DateQualifier q;
  for (;;) {
    if (take(DateWord::about) || take_sign(DatePiece::Kind::tilde))
      q.approximate = true;
    else if (take(DateWord::doubt) || take_sign(DatePiece::Kind::question))
      q.uncertain = true;
    else if (!take(DateWord::filler))
      return q;
  }
}

bool TypedPointReader::is_number(std::size_t at, std::size_t digits) const {
  return at < pieces_.size() && pieces_[at].kind == DatePiece::Kind::number &&
         pieces_[at].text.size() == digits;
}

TypedPoint TypedPointReader::read() {
  DateQualifier q = take_marks();
  const Fraction fraction = take_fraction();
  if (fraction.parts > 0) take_marks();
  TypedPoint point = read_unit();
  if (fraction.parts > 0) point = cut(point, fraction);
  const DateQualifier after = take_marks();
  point.qualifier = {q.uncertain || after.uncertain, q.approximate || after.approximate};
  return point;
}

// 'early', 'mid-', 'first half of', 'last quarter of the'.
TypedPointReader::Fraction TypedPointReader::take_fraction() {
  std::string value;
  if (take(DateWord::part, value)) {
    take_sign(DatePiece::Kind::hyphen);
    return {value[0] - '0', value[2] - '0'};
  }
  const std::size_t before = at_;
  std::string ordinal;
  if (take(DateWord::ordinal, ordinal) && take(DateWord::fraction, value)) {
    const int parts = std::stoi(value);
    const int part = ordinal == "last" ? parts : std::stoi(ordinal);
    if (part > parts) refuse("there is no such part; write the years meant");
    return {part, parts};
  }
  at_ = before;
  return {};
}

TypedPoint TypedPointReader::read_unit() {
  if (end()) refuse_word();
  std::string value;
  if (take(DateWord::event, value)) {
    const std::size_t slash = value.find('/');
    return {value.substr(0, slash), value.substr(slash + 1), PointUnit::event, {}};
  }
  if (take(DateWord::month, value)) return read_month(std::stoi(value));
  if (take(DateWord::season, value)) return read_season(value);
  if (const auto ordinal = take_ordinal()) return century(*ordinal);
  if (pieces_[at_].kind == DatePiece::Kind::number) return read_number();
  refuse_word();
}

std::string TypedPointReader::take_year() {
  take_marks();
  take_sign(DatePiece::Kind::comma);
  if (!is_number(at_, 4)) {
    if (!end() && pieces_[at_].kind == DatePiece::Kind::number)
      refuse("a year has four digits, such as 1924, and " + shown(pieces_[at_].text) + " has not");
    refuse_word();
  }
  return pieces_[at_++].text;
}

// 'June 1924', 'June 12, 1924', 'June to August 1924'.
TypedPoint TypedPointReader::read_month(int month) {
  std::string value;
  const bool dash = take_sign(DatePiece::Kind::hyphen) || take_sign(DatePiece::Kind::long_dash);
  if (dash || at_word(DateWord::to)) {
    if (!dash) take(DateWord::to);
    if (!take(DateWord::month, value))
      refuse("after 'to' comes another month, such as 'June to August 1924'");
    const std::string year = take_year();
    return {year + "-" + two(month), year + "-" + two(std::stoi(value)), PointUnit::month, {}};
  }
  if (is_number(at_, 1) || is_number(at_, 2)) {
    const int day = std::stoi(pieces_[at_++].text);
    take(DateWord::ending, value);
    return single(take_year() + "-" + two(month) + "-" + two(day), PointUnit::day);
  }
  return single(take_year() + "-" + two(month), PointUnit::month);
}

// A winter may name both its years: 'winter 1911-12'.
TypedPoint TypedPointReader::read_season(const std::string& code) {
  const std::string year = take_year();
  const std::size_t before = at_;
  if ((take_sign(DatePiece::Kind::hyphen) || take_sign(DatePiece::Kind::long_dash) ||
       take_sign(DatePiece::Kind::slash)) &&
      (is_number(at_, 2) || is_number(at_, 4))) {
    const int next = std::stoi(pieces_[at_].text) % 100;
    if (code != "24" || next != (std::stoi(year) + 1) % 100)
      refuse("only a winter has two years, one after the other, such as 'winter 1911-12'");
    ++at_;
  } else {
    at_ = before;
  }
  return single(year + "-" + code, PointUnit::season);
}

// '19th century', 'nineteenth century'; nothing is taken when no century follows.
std::optional<int> TypedPointReader::take_ordinal() {
  const std::size_t before = at_;
  std::string value;
  int ordinal = 0;
  if (take(DateWord::ordinal, value)) {
    ordinal = value == "last" ? 0 : std::stoi(value);
  } else if (is_number(at_, 1) || is_number(at_, 2)) {
    ordinal = std::stoi(pieces_[at_++].text);
    if (!take(DateWord::ending, value) || value != "ordinal") ordinal = 0;
  }
  take_sign(DatePiece::Kind::hyphen);
  if (ordinal > 0 && take(DateWord::century)) return ordinal;
  at_ = before;
  return std::nullopt;
}

TypedPoint TypedPointReader::century(int ordinal) const {
  return single(two(ordinal - 1) + "XX", PointUnit::century);
}

TypedPoint TypedPointReader::read_number() {
  if (is_number(at_, 1) || is_number(at_, 2)) return read_day_month_year();
  if (is_number(at_, 4)) return read_year_or_decade();
  throw NotWords(ErrorKind::invalid, "the date " + shown(typed_) +
                                         " is not understood: a year has four digits, and " +
                                         shown(pieces_[at_].text) + " has not");
}

TypedPoint TypedPointReader::read_day_month_year() {
  const std::string number = pieces_[at_++].text;
  std::string value;
  if (take(DateWord::ending, value) && value == "decade")
    refuse("say which hundred years, such as 18" + number + "s or 19" + number + "s");
  take_marks();
  if (!take(DateWord::month, value)) {
    if (!end() && pieces_[at_].kind == DatePiece::Kind::word) refuse_word();
    throw NotWords(ErrorKind::invalid,
                   "the date " + shown(typed_) +
                       " is not understood: a year has four digits, and a day is followed by the "
                       "name of its month, such as '12 June 1924'");
  }
  const int month = std::stoi(value);
  return single(take_year() + "-" + two(month) + "-" + two(std::stoi(number)), PointUnit::day);
}

// '1890', '1890s', '1924-06-12' and, where a hyphen cannot mean a later year, '1924-06'.
TypedPoint TypedPointReader::read_year_or_decade() {
  const std::string year = pieces_[at_++].text;
  std::string value;
  if (!end() && pieces_[at_].joined && take(DateWord::ending, value)) {
    if (value != "decade") refuse(shown(year) + " is a year and has no ending");
    if (year.ends_with("00")) return single(year.substr(0, 2) + "XX", PointUnit::hundreds);
    if (year.ends_with("0")) return single(year.substr(0, 3) + "X", PointUnit::decade);
    refuse("a decade begins with a year that ends in 0, such as " + year.substr(0, 3) + "0s");
  }
  const auto hyphen = [this](std::size_t at) {
    return at < pieces_.size() && pieces_[at].kind == DatePiece::Kind::hyphen;
  };
  if (!hyphen(at_) || !is_number(at_ + 1, 2)) return single(year, PointUnit::year);
  const std::string month = pieces_[at_ + 1].text;
  if (hyphen(at_ + 2) && is_number(at_ + 3, 2)) {
    at_ += 4;
    return single(year + "-" + month + "-" + pieces_[at_ - 1].text, PointUnit::day);
  }
  if (month > year.substr(2)) return single(year, PointUnit::year);
  at_ += 2;
  return single(year + "-" + month, PointUnit::month);
}

std::optional<TypedPoint> TypedPointReader::take_short_year(const TypedPoint& first) {
  if (!is_number(at_, 1) && !is_number(at_, 2)) return std::nullopt;
  const std::string digits = pieces_[at_].text;
  if (first.unit != PointUnit::year ||
      (at_ + 1 < pieces_.size() && pieces_[at_ + 1].kind == DatePiece::Kind::word))
    return std::nullopt;
  if (digits.size() == 1)
    refuse("a single digit after the year is ambiguous; write " + first.first + "-0" + digits +
           " for the month or " + first.first + "/" + first.first.substr(0, 3) + digits + " for the years");
  if (digits <= first.first.substr(2))
    refuse("the second year comes before the first; write both years in full, earlier first");
  ++at_;
  return single(first.first.substr(0, 2) + digits, PointUnit::year);
}

// Part k of n, its edges rounded outward to whole years (of a decade or century), months (of a year) or
// days (of a month), so that a part is never too narrow.
TypedPoint TypedPointReader::cut(const TypedPoint& whole, Fraction fraction) const {
  const auto first = [&](int length) { return length * (fraction.part - 1) / fraction.parts; };
  const auto last = [&](int length) {
    return (length * fraction.part + fraction.parts - 1) / fraction.parts - 1;
  };
  if (whole.first != whole.last) refuse("say the part of one year, decade, century or month only");
  const int begin = std::stoi(whole.first.substr(0, 2)) * 100;
  switch (whole.unit) {
    case PointUnit::hundreds:
      // 1900s may be ten years or a hundred; only the first third of the hundred holds both readings.
      if (begin >= 1900 && fraction.part > 1)
        refuse("that may mean ten years or a hundred; write for example '" + std::to_string(begin + 6) + "/" +
               std::to_string(begin + 9) + "' or 'late " + std::to_string(begin / 100 + 1) + "th century'");
      [[fallthrough]];
    case PointUnit::century:
      return {std::to_string(begin + first(100)), std::to_string(begin + last(100)), PointUnit::year, {}};
    case PointUnit::decade: {
      const int decade = begin + (whole.first[2] - '0') * 10;
      return {std::to_string(decade + first(10)), std::to_string(decade + last(10)), PointUnit::year, {}};
    }
    case PointUnit::year:
      return {whole.first + "-" + two(first(12) + 1),
              whole.first + "-" + two(last(12) + 1),
              PointUnit::month,
              {}};
    case PointUnit::month: {
      const Edtf month = Edtf::parse(whole.first);
      const int length = static_cast<int>(*month.latest() - *month.earliest()) + 1;
      return {whole.first + "-" + two(first(length) + 1),
              whole.first + "-" + two(last(length) + 1),
              PointUnit::day,
              {}};
    }
    default:
      refuse("write the months or days meant, such as '1911-03/1911-04'");
  }
}

}  // namespace lathbook
