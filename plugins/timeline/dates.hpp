// A date of a statement as dating takes it: first and last day, widened where it is only about right.
#pragma once

#include <optional>
#include <string>
#include <string_view>

#include "core/base/calendar.hpp"
#include "core/evidence/statement.hpp"
#include "plugins/timeline/settings.hpp"

namespace lathbook::timeline {

struct DateRange {
  std::optional<Day> first;  ///< nothing when that end is open or unknown: it gives no constraint
  std::optional<Day> last;
  bool unsure = false;  ///< '?' without '~': the statement counts one step less sure
  std::string words;    ///< 'about 1911, taken as 1906 to 1916 (...)'
  std::string
      when;  ///< 'in 1911', 'on 12 June 1924', 'between June 1924 and 1926', 'about 1911, taken as ...'
};

/// Nothing when the text is no EDTF.
std::optional<DateRange> read_range(const Content& content, const Settings& settings);

/// The same of a date that stands in a detail (EDTF).
std::optional<DateRange> detail_range(std::string_view edtf, const Settings& settings);

/// The date as a reader likes it: 'about 1911', 'June 1924', '1888 to 1890', or what was typed.
std::string date_words(const Content& content);

/// '1906 to 1916' when the days are whole years, else both days; one day alone when they are equal.
std::string range_words(Day first, Day last);

}  // namespace lathbook::timeline
