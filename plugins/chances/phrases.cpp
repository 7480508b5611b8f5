// English.
#include "plugins/chances/phrases.hpp"

#include <array>
#include <cmath>

#include "core/base/calendar.hpp"
#include "core/base/number.hpp"
#include "core/base/text.hpp"
#include "core/view/record_view.hpp"

namespace lathbook::chances {

const char* const kPriorWords =
    "Every set of dates that satisfies all statements kept counts alike (an even, or uniform, prior over all "
    "dates "
    "drawn together). That is an assumption, not evidence: it favours long spans, and other things that are "
    "dated together move the figures.";

namespace {

// "87.5", "0.2", "100": hundredths with one decimal where it tells something.
std::string hundredths(double share) {
  const double value = share * 100;
  return with_places(value, std::abs(value - std::round(value)) < 0.05 ? 0 : 1);
}

std::string bounds_words(const ChanceDate& date) {
  return plain_day(*date.not_before) + " to " + plain_day(*date.not_after);
}

// No finer than the draws can tell: years of a stretch of years, months of one of months.
std::string told(Day day, Day stretch) {
  const CivilDay civil = civil_from_days(day);
  if (stretch > 4 * 365) return std::to_string(civil.year);
  if (stretch <= 120) return plain_day(day);
  const std::string words = plain_day(days_from_civil(civil.year, civil.month, 1));
  return words.substr(words.find(' ') + 1);
}

std::string missing_words(const ChanceDate& date) {
  if (!date.not_before && !date.not_after)
    return "nothing says that it was there by some day, nor that it was not yet there";
  if (!date.not_before) return "nothing says from when on it can have been there";
  return "nothing says by when it was there";
}

std::string name(const RecordInfo& record, int placement, const std::vector<ChanceDate>& dates) {
  for (const ChanceDate& date : dates)
    if (date.record.id == record.id && date.placement == placement)
      return thing_words(record, placement, date.placements);
  return display(record);
}

// Where draws never showed something that the evidence does not rule out: three in so many at most.
std::string never_words(double share, double draws) {
  if (share > 0) return hundredths(share) + " in 100";
  return "in none of the draws (fewer than " + hundredths(3 / draws) + " in 100)";
}

}  // namespace

std::string method_words(const Plan& plan) {
  std::string words = std::to_string(plan.chains) + " chains of " + std::to_string(plan.draws) +
                      " draws each, begun at opposite corners, the first " +
                      std::to_string(plan.thrown_away) + " thrown away; ";
  words +=
      plan.forests
          ? "forests of dates drawn together, then every date by itself (Gibbs sampling), as single draws "
            "alone did not mix"
          : "every date by itself in turn (Gibbs sampling)";
  return words +
         ". A figure is given only when split R-hat is at most 1.01 and at least 400 draws count as "
         "independent.";
}

std::string thing_words(const RecordInfo& record, int placement, int placements) {
  return display(record) + (placements > 1 ? " (setting " + std::to_string(placement) + ")" : "");
}

std::string date_words(const ChanceDate& date) {
  const std::string thing = thing_words(date.record, date.placement, date.placements);
  switch (date.state) {
    case ChanceState::certain:
      return thing + ": " + plain_day(*date.not_before) + ", by the evidence alone.";
    case ChanceState::unbounded: {
      std::string words = thing + ": no figure, as " + missing_words(date);
      if (date.not_before) words += "; not before " + plain_day(*date.not_before);
      if (date.not_after) words += "; not after " + plain_day(*date.not_after);
      return words + ".";
    }
    case ChanceState::not_mixed:
      return thing + ": no figure, as the draws did not agree among themselves; the evidence allows " +
             bounds_words(date) + ".";
    case ChanceState::drawn:
      break;
  }
  const Day stretch = date.likely_last - date.likely_first;
  return thing + ": 95 in 100 between " + told(date.likely_first, stretch) + " and " +
         told(date.likely_last, stretch) + ", half by " + told(date.middle, stretch) +
         "; the evidence allows " + bounds_words(date) + ".";
}

std::string order_words(const ChanceOrder& order, const std::vector<ChanceDate>& dates,
                        const KnownOrder& known) {
  const std::string first = name(order.first, order.first_placement, dates);
  const std::string second = name(order.second, order.second_placement, dates);
  if (order.state == ChanceState::certain) {
    if (order.before == 1) return "Certain: " + first + " was there before " + second + ".";
    if (order.after == 1) return "Certain: " + second + " was there before " + first + ".";
    return "Certain: " + first + " and " + second + " came at one moment.";
  }
  std::string words;
  if (known.first_not_after) words = "Certain: " + first + " came no later than " + second + ". ";
  if (known.first_not_before) words = "Certain: " + second + " came no later than " + first + ". ";
  if (order.state == ChanceState::not_mixed)
    return words +
           "How likely the one is before the other cannot be told: the draws did not agree among themselves.";
  if (order.state == ChanceState::unbounded) {
    words += "No figure from dates:";
    std::string missing;
    for (const ChanceDate& date : dates)
      if (date.state == ChanceState::unbounded)
        missing += (missing.empty() ? " of " : "; of ") +
                   thing_words(date.record, date.placement, date.placements) + ", " + missing_words(date);
    words += missing + ".";
    if (order.orders) {
      words += " Counting orders alone: the relations among " + std::to_string(known.things) +
               " things allow " + std::to_string(*order.orders) + " orders, and in " +
               std::to_string(*order.orders_before) + " of them (" +
               hundredths(static_cast<double>(*order.orders_before) / static_cast<double>(*order.orders)) +
               " in 100) " + first + " comes first.";
    }
    return words;
  }
  words += first + " before " + second + ": " + never_words(order.before, order.draws);
  words += "; in the same year: " + never_words(order.same_year, order.draws);
  words += "; after it: " + never_words(order.after, order.draws) + ".";
  return words + " The drawing itself is uncertain by " + with_places(order.error * 100, 2) +
         " in 100 (one standard error).";
}

std::string aside_words(std::size_t number) {
  return capital(number == 1 ? "one statement is" : std::to_string(number) + " statements are") +
         " set aside because of contradictions; the figures are as if " + (number == 1 ? "it" : "they") +
         " had not been made.";
}

std::string choices_words(std::size_t number) {
  return capital(number == 1 ? "one either-or statement is"
                             : std::to_string(number) + " either-or statements are") +
         " not settled and left out of the drawing.";
}

std::string left_out_words(std::size_t number) {
  return capital(number == 1 ? "one moment" : std::to_string(number) + " moments") +
         " that the evidence leaves open on a side, or that only help to say something, are not drawn; what "
         "they say "
         "of the others is kept.";
}

}  // namespace lathbook::chances
