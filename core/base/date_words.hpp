// The words of typed dates, and the cutting of typed text into pieces. Internal to core/base.
#pragma once

#include <cstddef>
#include <map>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

namespace lathbook {

/// A word (lower case, without the stop of an abbreviation), digits, or one sign.
struct DatePiece {
  enum class Kind { word, number, hyphen, long_dash, slash, comma, stop, question, tilde, other };
  Kind kind = Kind::other;
  std::string text;
  bool joined = false;  ///< no blank before it
};

/// Cuts typed text into pieces; throws Error(invalid) naming a character that has no place.
std::vector<DatePiece> date_pieces(std::string_view typed);

enum class DateWord {
  month,
  season,
  about,
  doubt,
  before,
  until,
  after,
  since,
  onward,
  backward,
  between,
  and_,
  to,
  or_,
  part,
  fraction,
  century,
  ordinal,
  ending,
  filler,
  event,
  refuse
};

/// The table of words and phrases, each with one or more kinds and their values.
class DateWords {
public:
  /// Reads a table (columns word, kind, value; a header line); throws Error(corrupt) naming a bad line.
  explicit DateWords(std::string_view table);
  /// The built-in English table, read once.
  static const DateWords& english();

  /// How many pieces from `at` on the longest phrase of this kind takes, 0 when none; sets `value`.
  std::size_t match(const std::vector<DatePiece>& pieces, std::size_t at, DateWord kind,
                    std::string& value) const;

private:
  std::map<std::pair<DateWord, std::string>, std::string> values_;
  std::size_t longest_ = 1;
};

}  // namespace lathbook
