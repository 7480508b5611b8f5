// Days, numbers and names as English sentences have them; dates and spots are in core/view/plain_words.hpp.
#pragma once

#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

#include "core/base/api.hpp"
#include "core/base/calendar.hpp"

namespace lathbook {

/// A day as the beginning of a stretch: the year alone for 1 January, the month for the first of a month.
LATHBOOK_API std::string opening_day(Day day);
/// A day as the end of a stretch: the year alone for 31 December, the month for the last of a month.
LATHBOOK_API std::string closing_day(Day day);
/// The stretch from one day to another told as a single unit, "1924" or "June 1924"; empty when it is none.
LATHBOOK_API std::string unit_words(Day first, Day last);
/// Both days are of one year, and one of them would be told as the year.
LATHBOOK_API bool is_within_year(Day first, Day last);

/// "9 years and 11 months (3,622 days)".
LATHBOOK_API std::string duration_words(std::int64_t days);
/// "1,234".
LATHBOOK_API std::string grouped(std::uint64_t number);

/// The name as it stands inside a sentence: first letter small when it is the only capital of the name and
/// the first word tells no owner.
LATHBOOK_API std::string inside(std::string_view name);
/// "a, b and c", or with another word before the last.
LATHBOOK_API std::string listed(const std::vector<std::string>& words, std::string_view last = "and");

}  // namespace lathbook
