// One point in time inside a typed date: a year, decade, century, month, day, season or named event.
// Internal to core/base.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "core/base/date_words.hpp"
#include "core/base/edtf.hpp"
#include "core/base/error.hpp"

namespace lathbook {

/// The typed text has no words this reader knows: if it looks like EDTF, EDTF's own advice is better.
class NotWords : public Error {
public:
  using Error::Error;
};

enum class PointUnit { year, decade, century, hundreds, month, day, season, event };

/// First and last EDTF date, the same text when one date says it, and the marks of this point alone.
struct TypedPoint {
  std::string first;
  std::string last;
  PointUnit unit = PointUnit::year;
  DateQualifier qualifier;
};

/// The EDTF date next before the point's first day or next after its last, as fine as the point: the
/// year before '1921', the month before '1924-06'. For an event, its own first or last month.
std::string neighbour(const TypedPoint& point, bool after);

/// Walks over the pieces of a typed date. Refers to the text and pieces, which must outlive it.
class TypedPointReader {
public:
  TypedPointReader(std::string_view typed, const std::vector<DatePiece>& pieces)
      : typed_(typed), pieces_(pieces) {}

  bool end() const { return at_ >= pieces_.size(); }
  std::size_t at() const { return at_; }
  bool at_word(DateWord kind) const;
  bool take(DateWord kind);
  bool take(DateWord kind, std::string& value);
  bool take_sign(DatePiece::Kind kind);
  /// Passes fillers and gathers 'about', 'probably', '~' and '?'.
  DateQualifier take_marks();
  /// Marks, then a point, or an error.
  TypedPoint read();
  /// One or two digits that end a span of years begun by `first`: 26 after 1924.
  std::optional<TypedPoint> take_short_year(const TypedPoint& first);
  /// Whether a word like 'before' came first: an unknown word is then a thing, not a date.
  void set_ordered(bool ordered) { ordered_ = ordered; }

  [[noreturn]] void refuse(const std::string& advice) const;
  /// Says that the next word does not belong to a date.
  [[noreturn]] void refuse_word() const;

private:
  struct Fraction {
    int part = 0;
    int parts = 0;
  };

  bool is_number(std::size_t at, std::size_t digits) const;
  Fraction take_fraction();
  TypedPoint read_unit();
  TypedPoint read_month(int month);
  TypedPoint read_season(const std::string& code);
  TypedPoint read_number();
  TypedPoint read_day_month_year();
  TypedPoint read_year_or_decade();
  std::optional<int> take_ordinal();
  std::string take_year();
  TypedPoint century(int ordinal) const;
  TypedPoint cut(const TypedPoint& whole, Fraction fraction) const;

  std::string_view typed_;
  const std::vector<DatePiece>& pieces_;
  std::size_t at_ = 0;
  bool ordered_ = false;
};

}  // namespace lathbook
