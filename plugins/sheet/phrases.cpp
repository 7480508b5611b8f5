// English words of the sheet, and the rules that choose among them.
#include "plugins/sheet/phrases.hpp"

#include <algorithm>
#include <array>
#include <cctype>
#include <regex>

#include "core/base/text.hpp"
#include "core/view/plain_words.hpp"

namespace lathbook::sheet {

namespace {

// 'on 12 June 1924', 'in 1924', 'between 1888 and 1924'.
std::string days_words(Day first, Day last) {
  const Words& words = english();
  if (first == last) return fill(words.on, {{"0", plain_day(first)}});
  if (const std::string unit = unit_words(first, last); !unit.empty())
    return fill(words.in_unit, {{"0", unit}});
  // Within one year the year alone would name neither end.
  if (is_within_year(first, last))
    return fill(words.between, {{"0", plain_day(first)}, {"1", plain_day(last)}});
  return fill(words.between, {{"0", opening_day(first)}, {"1", closing_day(last)}});
}

// More stretches than these are told as one.
constexpr std::size_t kMostParts = 4;

std::string parts_words(const std::vector<DayRange>& parts) {
  std::string words;
  for (const DayRange& part : parts)
    words +=
        (words.empty() ? std::string() : std::string(english().or_else)) + days_words(part.first, part.last);
  return words;
}

Level weaker(const Span& span) {
  Level level = Level::certain;
  for (const Bound* bound : {&span.earliest, &span.latest})
    if (bound->known) level = std::max(level, bound->level);
  return level;
}

struct Verb {
  std::string_view element_class;
  std::string_view verb;
};

constexpr std::array<Verb, 19> verbs{{{"tile field", "laid"},
                                      {"floor", "laid"},
                                      {"wall", "built"},
                                      {"partition", "built"},
                                      {"hearth", "built"},
                                      {"stair", "built"},
                                      {"roof", "built"},
                                      {"ceiling", "built"},
                                      {"plaster", "put on"},
                                      {"paper", "hung"},
                                      {"finish scheme", "put on"},
                                      {"finish", "put on"},
                                      {"opening", "made"},
                                      {"cut", "made"},
                                      {"ghost", "left"},
                                      {"door", "hung"},
                                      {"stove", "set up"},
                                      {"pipe", "run"},
                                      {"wiring", "run"}}};

}  // namespace

std::string fill(std::string_view pattern,
                 std::initializer_list<std::pair<std::string_view, std::string_view>> slots) {
  std::string out;
  while (true) {
    const std::size_t open = pattern.find('{');
    const std::size_t close = open == std::string_view::npos ? open : pattern.find('}', open);
    out += pattern.substr(0, close == std::string_view::npos ? pattern.size() : open);
    if (close == std::string_view::npos) return out;
    const std::string_view name = pattern.substr(open + 1, close - open - 1);
    for (const auto& [slot, text] : slots)
      if (slot == name) out += text;
    pattern.remove_prefix(close + 1);
  }
}

std::string when(const Span& span, const std::string& about) {
  const Words& words = english();
  const Bound &earliest = span.earliest, &latest = span.latest;
  if (!earliest.known && !latest.known) return std::string(words.undated);
  if (!earliest.known) return fill(words.by, {{"0", closing_day(latest.day)}});
  if (!latest.known) return fill(words.not_before, {{"0", opening_day(earliest.day)}});
  std::string range;
  if (!span.parts.empty() && span.parts.size() <= kMostParts)
    range = parts_words(span.parts);
  else
    range = days_words(earliest.day, latest.day);
  return about.empty() ? range : fill(words.about, {{"0", about}, {"1", range}});
}

std::string_view doubt(const Span& span) {
  const Level level = weaker(span);
  return level == Level::certain ? std::string_view() : level_word(level);
}

std::string caveat(const Span& span) {
  const auto any = [&](bool Bound::*flag) {
    return (span.earliest.known && span.earliest.*flag) || (span.latest.known && span.latest.*flag);
  };
  std::vector<std::string> said;
  if (!doubt(span).empty()) said.emplace_back(doubt(span));
  if (any(&Bound::perhaps_wide)) said.emplace_back(english().wide);
  if (any(&Bound::leaned)) said.emplace_back(english().leaned);
  return said.empty() ? std::string() : " (" + join(said, "; ") + ")";
}

std::string when_words(const std::string& date) {
  static const std::regex day("\\d{1,2} [A-Z][a-z]+ \\d{1,4}"), unit("([A-Z][a-z]+ )?\\d{4}");
  if (std::regex_match(date, day)) return fill(english().on, {{"0", date}});
  return std::regex_match(date, unit) ? fill(english().in_unit, {{"0", date}}) : date;
}

std::string one_bound(const Bound& bound, bool earliest) {
  if (!bound.known) return earliest ? "Nothing says how early." : "Nothing says how late.";
  Span span;
  (earliest ? span.earliest : span.latest) = bound;
  return capital(when(span)) + caveat(span);
}

std::string was(std::string_view name) {
  return is_plural(name) ? "were" : "was";
}

std::string came_in(std::string_view element_class, std::string_view name) {
  const auto found = std::find_if(verbs.begin(), verbs.end(),
                                  [&](const Verb& verb) { return verb.element_class == element_class; });
  return was(name) + " " + std::string(found == verbs.end() ? std::string_view("put in") : found->verb);
}

std::string_view level_word(Level level) {
  const Words& words = english();
  return level == Level::certain ? words.certain : level == Level::probable ? words.probable : words.possible;
}

std::string trusted_words(Level level) {
  switch (level) {
    case Level::certain:
      return "Only evidence held to be certain was used.";
    case Level::probable:
      return "Evidence held to be certain or probable was used.";
    case Level::possible:
      break;
  }
  return "Evidence held to be certain, probable or possible was used; conjecture dates nothing.";
}

std::string basis_words(EvidenceClass evidence, Confidence confidence) {
  std::vector<std::string> said;
  if (evidence != EvidenceClass::none) said.push_back(std::string(word(evidence)) + " evidence");
  if (confidence != Confidence::none) said.emplace_back(word(confidence));
  return join(said, ", ");
}

}  // namespace lathbook::sheet
