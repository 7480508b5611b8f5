// Words for sentences, made from what was typed or read.
#include "core/view/plain_words.hpp"

#include "core/base/calendar.hpp"
#include "core/base/edtf.hpp"
#include "core/base/text.hpp"

namespace lathbook {

namespace {

bool is_first_of_month(Day day) {
  return civil_from_days(day).day == 1;
}

std::string month_words(const CivilDay& civil) {
  return month_name(civil.month) + " " + edtf_year(civil.year);
}

// The first day of a stretch, or the last, as roughly as it can be told.
std::string end_words(Day day, bool first) {
  const CivilDay civil = civil_from_days(day);
  if (first ? civil.day != 1 : !is_first_of_month(day + 1)) return plain_day(day);
  return civil.month == (first ? 1 : 12) ? edtf_year(civil.year) : month_words(civil);
}

std::string stretch_words(const EdtfDate& date) {
  const CivilDay first = civil_from_days(date.earliest);
  switch (date.precision) {
    case Precision::day:
    case Precision::second:
      return plain_day(date.earliest);
    case Precision::month:
      return month_words(first);
    case Precision::decade:
      return "the " + edtf_year(first.year) + "s";
    default:
      break;
  }
  const std::string from = end_words(date.earliest, true), to = end_words(date.latest, false);
  return from == to ? from : from + " to " + to;
}

}  // namespace

std::string date_in_words(const EdtfDate& date) {
  std::string words = stretch_words(date);
  const DateQualifier mark = date.qualifier();
  if (mark.approximate) words = "about " + words;
  return mark.uncertain ? "perhaps " + words : words;
}

std::string date_in_words(std::string_view edtf) {
  const auto date = Edtf::try_parse(edtf);
  if (!date) return std::string(edtf);
  const EdtfDate* first = date->first_date();
  const EdtfDate* last = date->last_date();
  if (date->shape() == EdtfShape::date && first) return date_in_words(*first);
  if (date->shape() == EdtfShape::interval) {
    if (first && last) return date_in_words(*first) + " to " + date_in_words(*last);
    if (first) return date_in_words(*first) + " or later";
    if (last) return date_in_words(*last) + " or earlier";
  }
  return describe(*date);
}

std::string spot_in_words(std::string_view spot) {
  std::string words;
  bool has_region = false;
  for (const std::string& part : split(spot, ';')) {
    const std::string_view said = trim(part);
    if (said.starts_with("xywh=")) {
      has_region = true;
      continue;
    }
    if (!words.empty() && !said.empty()) words += "; ";
    words += said;
  }
  return words.empty() && has_region ? "a part of the picture" : words;
}

bool is_plural(std::string_view name) {
  for (const std::string_view stop :
       {",", ";", " (", " of ", " over ", " in ", " on ", " at ", " by ", " behind ", " for ", " under ",
        " above ", " from ", " to ", " with ", " between ", " across "})
    name = name.substr(0, name.find(stop));
  const std::string word = to_lower_ascii(name.substr(name.find_last_of(" -") + 1));
  const auto ends = [&](std::string_view tail) { return std::string_view(word).ends_with(tail); };
  return word.size() > 3 && ends("s") && !ends("ss") && !ends("us") && !ends("is") && !ends("canvas");
}

std::string with_full_stop(std::string words) {
  if (words.empty() || words.ends_with('.') || words.ends_with(".”")) return words;
  return words + ".";
}

std::string without_full_stop(std::string words) {
  if (words.ends_with('.')) words.pop_back();
  return words;
}

}  // namespace lathbook
