// Extended Date/Time Format (EDTF), levels 0, 1 and 2: the form in which every date is kept.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "core/base/api.hpp"
#include "core/base/calendar.hpp"

namespace lathbook {

/// What an end of a date says: a day, 'no limit' ('..'), or 'there is one, but it is not known' (empty).
enum class EndKind { dated, open, unknown };

/// How finely a date is told, finest first; of several dates in one expression the coarsest counts.
/// `season`, `quarter`, `four_months` and `half_year` are the codes 21-32, 33-36, 37-39 and 40-41.
/// A digit left open (X) makes it as coarse as that digit: 1X84 is a `millennium`.
enum class Precision {
  second,
  day,
  month,
  season,
  quarter,
  four_months,
  half_year,
  year,
  decade,
  century,
  millennium,
  longer
};

/// The marks '?' (uncertain), '~' (approximate) and '%' (both).
struct DateQualifier {
  bool uncertain = false;
  bool approximate = false;
  bool operator==(const DateQualifier&) const = default;
};

/// One date of an expression. Bounds are the first and last day that any reading of it allows; they are
/// never widened by a qualifier. `year`, `month` and `day` carry the qualifiers of the components; a
/// qualifier on the whole date is on every component it has.
struct LATHBOOK_API EdtfDate {
  std::string text;
  int level = 0;
  int components = 1;  ///< 1: a year; 2: with a month or season; 3: with a day
  int season = 0;      ///< a code 21 to 41 in the month's place, else 0
  Day earliest = 0;
  Day latest = 0;
  Precision precision = Precision::year;
  DateQualifier year, month, day;
  /// False when digits left open allow days that do not lie together (1884-XX-03).
  bool continuous = true;
  /// The estimate of a year with significant digits: 1950 of 1950S2.
  std::optional<std::int64_t> estimate;
  /// Of a date with a time: second of the day as written, and minutes that its clock is ahead of UTC.
  std::optional<int> second_of_day;
  std::optional<int> offset_minutes;

  DateQualifier qualifier() const;  ///< of any component
};

/// A stretch of an expression; a single date is its own start and end. `start` and `end` are present
/// exactly when their kind is `dated`.
struct EdtfSpan {
  EndKind start_kind = EndKind::dated;
  EndKind end_kind = EndKind::dated;
  std::optional<EdtfDate> start, end;
};

enum class EdtfShape { date, interval, one_of, all_of };

/// A value as written. Equal when the text is equal.
/// Source: Library of Congress, 'Extended Date/Time Format (EDTF) Specification', 4 February 2019, the
/// profile of ISO 8601-2:2019; the choices where implementations differ are in docs/dates.md.
class LATHBOOK_API Edtf {
public:
  /// Throws Error(invalid): one sentence with the character's position (from 1) and what to write.
  static Edtf parse(std::string_view text);
  /// As parse, but empty on bad input, whose sentence goes to `why` unless that is null.
  static std::optional<Edtf> try_parse(std::string_view text, std::string* why = nullptr);

  /// As written, blanks of a set left out.
  const std::string& text() const { return text_; }
  /// 0, 1 or 2: the lowest level that has the form; forms beyond the profile (docs/dates.md) count as 2.
  int level() const { return level_; }
  EdtfShape shape() const { return shape_; }
  /// One for a date or an interval, one or more for a set, in the order written.
  const std::vector<EdtfSpan>& spans() const { return spans_; }

  EndKind start_kind() const;
  EndKind end_kind() const;
  /// First and last day; empty when that end is open or unknown. The day of a date with a time is the
  /// day as written, whatever its offset from UTC.
  std::optional<Day> earliest() const;
  std::optional<Day> latest() const;
  /// The date that fixes that end, with its own precision and qualifiers; null when the end is not dated.
  const EdtfDate* first_date() const;
  const EdtfDate* last_date() const;

  /// To the second, in ISO 8601: '1884-01-01T00:00:00' and '1884-12-31T23:59:59'; a time with an offset
  /// is given in UTC with 'Z'; years over four digits have a sign. '-inf' and '+inf' when open, '' when
  /// unknown.
  std::string earliest_text() const;
  std::string latest_text() const;

  bool uncertain() const;    ///< any component of any date
  bool approximate() const;  ///< any component of any date
  Precision precision() const;

  bool operator==(const Edtf& other) const { return text_ == other.text_; }

private:
  friend class EdtfParser;
  Edtf() = default;

  std::string text_;
  int level_ = 0;
  EdtfShape shape_ = EdtfShape::date;
  std::vector<EdtfSpan> spans_;
};

/// First and last day of a date given as EDTF text; empty when the text is no date or that end is not dated.
LATHBOOK_API std::optional<Day> earliest_day(std::string_view edtf);
LATHBOOK_API std::optional<Day> latest_day(std::string_view edtf);

/// A plain sentence without a full stop: 'some time from 1 January 1905 to 31 December 1910, approximate'.
LATHBOOK_API std::string describe(const Edtf& date);

}  // namespace lathbook
