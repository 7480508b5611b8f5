// Reads the settings that the archive record holds, over our own figures.
#include "plugins/timeline/settings.hpp"

#include <algorithm>
#include <cmath>
#include <cstdlib>
#include <string>

#include "core/base/edtf.hpp"
#include "core/evidence/registry.hpp"
#include "core/view/record_view.hpp"

namespace lathbook::timeline {

namespace {

constexpr std::int64_t kEarliestYear = 1600;
constexpr double kMostYears = 10'000;

int rank(Confidence confidence) {
  switch (confidence) {
    case Confidence::probable:
      return 1;
    case Confidence::possible:
      return 2;
    case Confidence::conjecture:
      return 3;
    default:
      return 0;
  }
}

const Statement* best(const std::vector<Statement>& statements, std::string_view property) {
  const std::uint32_t wanted = Registry::standard().named(property).id;
  const Statement* found = nullptr;
  for (const Statement& statement : statements) {
    const Content& content = statement.content;
    if (content.property != wanted || content.confidence == Confidence::conjecture) continue;
    if (!found || rank(content.confidence) <= rank(found->content.confidence)) found = &statement;
  }
  return found;
}

void take(Figure& figure, const std::vector<Statement>& statements, std::string_view property) {
  const Statement* statement = best(statements, property);
  if (!statement) return;
  const double years = std::strtod(statement->content.value.c_str(), nullptr);
  if (!(years >= 0 && years <= kMostYears)) return;
  figure = {years, statement->id};
}

std::string origin(const std::optional<Digest>& statement) {
  return statement ? "set by a statement" : "our own figure";
}

}  // namespace

Day years_later(Day day, double years) {
  const double whole = std::trunc(years);
  CivilDay civil = civil_from_days(day);
  civil.year = std::clamp(civil.year + static_cast<std::int64_t>(whole), first_year, last_year);
  civil.day = std::min(civil.day, days_in_month(civil.year, civil.month));
  return days_from_civil(civil) + static_cast<Day>(std::llround((years - whole) * 365.2425));
}

std::string years_words(double years) {
  std::string number = std::to_string(years);
  number.erase(number.find_last_not_of('0') + 1);
  if (number.back() == '.') number.pop_back();
  return number + (years == 1 ? " year" : " years");
}

Settings::Settings(Day known_day, const std::vector<Statement>& statements)
    : known(known_day), earliest(days_from_civil(kEarliestYear, 1, 1)) {
  if (const Statement* statement = best(statements, "earliest-plausible-day")) {
    const auto date = Edtf::try_parse(edtf_of(statement->content));
    if (date && date->earliest()) {
      earliest = *date->earliest();
      earliest_statement = statement->id;
    }
  }
  take(year, statements, "widen-years");
  take(decade, statements, "widen-decade-years");
  take(month, statements, "widen-month-years");
  take(to_come, statements, "years-to-come");
  // A limit after the known day would leave no room for anything.
  earliest = std::min(earliest, known);
}

Day Settings::horizon() const {
  return years_later(known, to_come.years);
}

std::vector<ReasonStep> Settings::steps() const {
  std::vector<ReasonStep> steps;
  const auto add = [&](const std::optional<Digest>& statement, const std::string& words) {
    steps.push_back({statement.value_or(Digest{}), words + " (" + origin(statement) + ")"});
  };
  add(earliest_statement, "nothing is taken to begin before " + plain_day(earliest));
  steps.push_back({Digest{}, "nothing is taken to begin after " + plain_day(known) +
                                 ", the day up to which the archive is known"});
  add(to_come.statement,
      "what still stands is taken to end within " + years_words(to_come.years) + " after that day");
  add(year.statement, "'about' widens a date given to the year by " + years_words(year.years));
  add(decade.statement, "'about' widens a decade or century by " + years_words(decade.years));
  add(month.statement, "'about' widens a month or day by " + years_words(month.years));
  return steps;
}

}  // namespace lathbook::timeline
