// The figures dating works with: the limits of the inquiry and how far 'about' widens a date.
#pragma once

#include <optional>
#include <vector>

#include "core/analysis/timeline.hpp"
#include "core/base/calendar.hpp"
#include "core/base/digest.hpp"
#include "core/evidence/statement.hpp"

namespace lathbook::timeline {

/// A figure in years, and the statement that sets it; without one it is our own.
struct Figure {
  double years = 0;
  std::optional<Digest> statement;
};

struct Settings {
  Day known = 0;  ///< day up to which the archive is known
  Day earliest = 0;
  std::optional<Digest> earliest_statement;
  Figure year{5, {}};       ///< a date given to the year
  Figure decade{10, {}};    ///< to the decade, century or longer
  Figure month{1, {}};      ///< to the season, month, day or finer
  Figure to_come{100, {}};  ///< after `known`, for things that still stand

  Settings() = default;
  /// From the statements about the archive record (dating rule 'setting'), in exchange order: the best
  /// founded of each counts, of equals the later.
  Settings(Day known_day, const std::vector<Statement>& statements);

  /// The last day on which a thing may end.
  Day horizon() const;
  /// What was used, for the head of a report.
  std::vector<ReasonStep> steps() const;
};

/// The day so many years later (earlier when negative); 29 February goes to the 28th, parts of a year
/// count 365.2425 days each.
Day years_later(Day day, double years);

/// '5 years', '1 year', '2.5 years'.
std::string years_words(double years);

}  // namespace lathbook::timeline
