// Widens dates for constraints and puts them into words.
#include "plugins/timeline/dates.hpp"

#include "core/base/edtf.hpp"
#include "core/view/plain_words.hpp"
#include "core/view/record_view.hpp"

namespace lathbook::timeline {

namespace {

const Figure& figure_for(Precision precision, const Settings& settings) {
  switch (precision) {
    case Precision::year:
      return settings.year;
    case Precision::decade:
    case Precision::century:
    case Precision::millennium:
    case Precision::longer:
      return settings.decade;
    default:
      return settings.month;
  }
}

const char* unit_of(Precision precision) {
  switch (precision) {
    case Precision::year:
      return "a year";
    case Precision::decade:
      return "a decade";
    case Precision::century:
    case Precision::millennium:
    case Precision::longer:
      return "a century";
    default:
      return "a month or day";
  }
}

// A date after a verb.
std::string edtf_when(const Edtf& date) {
  const EdtfDate* first = date.first_date();
  const EdtfDate* last = date.last_date();
  if (date.shape() == EdtfShape::interval && first && last)
    return "between " + date_in_words(*first) + " and " + date_in_words(*last);
  if (date.shape() != EdtfShape::date || !first) return date_in_words(date.text());
  const DateQualifier mark = first->qualifier();
  if (mark.approximate || mark.uncertain) return date_in_words(*first);
  if (first->precision == Precision::day) return "on " + date_in_words(*first);
  if (first->precision == Precision::year || first->precision == Precision::month ||
      first->precision == Precision::decade)
    return "in " + date_in_words(*first);
  return "between " + plain_day(first->earliest) + " and " + plain_day(first->latest);
}

}  // namespace

std::string range_words(Day first, Day last) {
  const CivilDay from = civil_from_days(first);
  const CivilDay to = civil_from_days(last);
  if (first == last) return plain_day(first);
  if (from.month == 1 && from.day == 1 && to.month == 12 && to.day == 31)
    return from.year == to.year ? edtf_year(from.year) : edtf_year(from.year) + " to " + edtf_year(to.year);
  return plain_day(first) + " to " + plain_day(last);
}

std::string date_words(const Content& content) {
  if (!content.edtf.empty() && content.edtf != content.value) return content.value;
  return date_in_words(content.value);
}

std::optional<DateRange> read_range(const Content& content, const Settings& settings) {
  const auto date = Edtf::try_parse(edtf_of(content));
  if (!date) return std::nullopt;
  DateRange range;
  range.first = date->earliest();
  range.last = date->latest();
  range.unsure = date->uncertain() && !date->approximate();
  range.words = date_words(content);
  // What was typed in words stands as it was typed.
  const bool is_typed = !content.edtf.empty() && content.edtf != content.value;
  range.when = is_typed ? "“" + content.value + "”" : edtf_when(*date);
  const Figure* used = nullptr;
  const char* unit = "";
  const auto widen = [&](std::optional<Day>& day, const EdtfDate* end, double sign) {
    if (!day || !end || !end->qualifier().approximate) return;
    used = &figure_for(end->precision, settings);
    unit = unit_of(end->precision);
    day = years_later(*day, sign * used->years);
  };
  widen(range.first, date->first_date(), -1);
  widen(range.last, date->last_date(), +1);
  if (!used) return range;
  std::string taken = ", taken as ";
  if (range.first && range.last)
    taken += range_words(*range.first, *range.last);
  else
    taken += range.first ? plain_day(*range.first) + " or later" : plain_day(*range.last) + " or earlier";
  taken += std::string(" ('about' widens ") + unit + " by " + years_words(used->years) + ", " +
           (used->statement ? "as set for this archive" : "our own figure") + ")";
  range.words += taken;
  range.when += taken;
  return range;
}

std::optional<DateRange> detail_range(std::string_view edtf, const Settings& settings) {
  Content content;
  content.value = std::string(edtf);
  return edtf.empty() ? std::nullopt : read_range(content, settings);
}

}  // namespace lathbook::timeline
