// The table of words, and the rules that choose among them.
#include "plugins/report/phrases.hpp"

#include <algorithm>
#include <map>

#include "core/base/embedded.hpp"
#include "core/base/error.hpp"
#include "core/base/text.hpp"
#include "core/view/english.hpp"
#include "core/view/plain_words.hpp"

namespace lathbook::report {

namespace {

// Marks inside words: 0x01, a letter for what is asserted, the words, 0x02; or 0x03, an anchor, 0x04, the
// words that point to it, 0x02. No text of the archive holds them: foreign() writes control characters out.
constexpr char kOpen = '\x01';
constexpr char kClose = '\x02';
constexpr char kLink = '\x03';
constexpr char kLinked = '\x04';

using Patterns = std::map<std::string, std::string, std::less<>>;

const Patterns& patterns() {
  static const Patterns table = [] {
    Patterns rows;
    for (const std::string& line : split(embedded_table("report-en"), '\n')) {
      const auto tab = line.find('\t');
      if (line.empty() || line.front() == '#' || tab == std::string::npos) continue;
      rows[line.substr(0, tab)] = line.substr(tab + 1);
    }
    return rows;
  }();
  return table;
}

std::vector<Run> runs_of(const std::string& words) {
  struct Mark {
    std::uint8_t tells = kNothing;
    std::string link;
  };
  std::vector<Run> runs;
  std::vector<Mark> open{{}};
  std::string text;
  const auto flush = [&] {
    if (!text.empty()) runs.push_back({std::move(text), open.back().tells, false, false, open.back().link});
    text.clear();
  };
  for (std::size_t at = 0; at < words.size(); ++at) {
    if (words[at] == kOpen && at + 1 < words.size()) {
      flush();
      Mark mark = open.back();
      mark.tells = static_cast<std::uint8_t>(mark.tells | (words[++at] - 'a'));
      open.push_back(std::move(mark));
    } else if (words[at] == kLink) {
      flush();
      Mark mark = open.back();
      const std::size_t end = words.find(kLinked, at);
      mark.link = words.substr(at + 1, end - at - 1);
      open.push_back(std::move(mark));
      at = end;
    } else if (words[at] == kClose) {
      flush();
      if (open.size() > 1) open.pop_back();
    } else {
      text += words[at];
    }
  }
  flush();
  return runs;
}

Sentence made_of(const std::string& words, const std::vector<int>& notes) {
  Sentence one;
  one.runs = runs_of(words);
  add_notes(one.notes, notes);
  return one;
}

void capital_first(Sentence& one) {
  for (Run& run : one.runs) {
    if (run.text.empty()) continue;
    run.text = capital(std::move(run.text));
    return;
  }
}

/// More stretches than these are told as one.
constexpr std::size_t kMostParts = 4;

/// "on 12 June 1924", "in 1924", "between 1888 and 1924".
std::string stretch(Day first, Day last) {
  if (first == last) return phrase("when.on", {{"day", plain_day(first)}});
  if (const std::string unit = unit_words(first, last); !unit.empty())
    return phrase("when.in", {{"day", unit}});
  // Within one year the year alone would name neither end.
  const bool within = is_within_year(first, last);
  return phrase("when.between", {{"from", within ? plain_day(first) : opening_day(first)},
                                 {"to", within ? plain_day(last) : closing_day(last)}});
}

}  // namespace

std::string foreign(std::string_view text) {
  std::string line = safe_display(text);
  std::replace(line.begin(), line.end(), '\n', ' ');
  return std::string(trim(line));
}

std::string Sentence::words() const {
  std::string all;
  for (const Run& run : runs) all += run.text;
  return all;
}

std::uint8_t Sentence::tells() const {
  std::uint8_t all = kNothing;
  for (const Run& run : runs) all = static_cast<std::uint8_t>(all | run.tells);
  return all;
}

std::string telling(Tells tells, const std::string& words) {
  if (words.empty()) return words;
  return std::string(1, kOpen) + static_cast<char>('a' + tells) + words + kClose;
}

std::string pointing(const std::string& anchor, const std::string& words) {
  return kLink + anchor + kLinked + words + kClose;
}

std::string without_marks(std::string_view words) {
  std::string plain;
  for (std::size_t at = 0; at < words.size(); ++at) {
    if (words[at] == kOpen)
      ++at;
    else if (words[at] == kLink)
      at = words.find(kLinked, at);
    else if (words[at] != kClose)
      plain += words[at];
  }
  return plain;
}

std::string choice(std::string_view word) {
  std::string letters;
  for (const char c : to_lower_ascii(word))
    if (c >= 'a' && c <= 'z') letters += c;
  return letters.empty() ? "other" : letters;
}

std::string phrase(std::string_view key, const MessageValues& values) {
  const auto found = patterns().find(key);
  if (found == patterns().end())
    fail(ErrorKind::corrupt, "the table report-en.tsv has no line for " + std::string(key));
  return message("en", found->second, values);
}

Sentence sentence(std::string_view key, const MessageValues& values, const std::vector<int>& notes) {
  return as_sentence(phrase(key, values), notes);
}

Sentence remark(std::string_view key, const MessageValues& values) {
  Sentence one = sentence(key, values);
  one.of_report = true;
  return one;
}

Sentence as_sentence(const std::string& words, const std::vector<int>& notes) {
  std::string text = words;
  const std::string plain = without_marks(text);
  if (!plain.empty() && !plain.ends_with('.') && !plain.ends_with('?') && !plain.ends_with('!') &&
      !plain.ends_with(":") && !plain.ends_with(".”"))
    text += '.';
  // A name that ends with a full stop of its own ("Bath & Boiler Co.") ends the sentence, too.
  if (plain.ends_with("..") && !plain.ends_with("...") && text.back() == '.') text.pop_back();
  Sentence one = made_of(text, notes);
  capital_first(one);
  return one;
}

Sentence as_words(const std::string& words, const std::vector<int>& notes) {
  return made_of(words, notes);
}

Sentence as_label(const std::string& words, const std::vector<int>& notes) {
  Sentence one = made_of(std::string(trim(words)), notes);
  capital_first(one);
  return one;
}

std::string period_words(const Statement& said) {
  const std::string from(said.content.qualifier("from")), to(said.content.qualifier("to"));
  if (from.empty() && to.empty()) return {};
  return telling(kDate, phrase(to.empty()     ? "period.from"
                               : from.empty() ? "period.until"
                               : from == to   ? "period.in"
                                              : "period.both",
                               {{"from", foreign(date_in_words(from))}, {"to", foreign(date_in_words(to))}}));
}

void add_once(std::vector<std::string>& names, const std::string& name) {
  if (std::find(names.begin(), names.end(), name) == names.end()) names.push_back(name);
}

void add_notes(std::vector<int>& notes, const std::vector<int>& more) {
  notes.insert(notes.end(), more.begin(), more.end());
  std::sort(notes.begin(), notes.end());
  notes.erase(std::unique(notes.begin(), notes.end()), notes.end());
}

std::string listing(const std::vector<std::string>& words) {
  return listed(words);
}

Paragraph paragraph(std::vector<Sentence> sentences) {
  return {std::move(sentences)};
}

std::string when(const Span& span, const std::string& about) {
  return when(span, about, phrase("contested"));
}

std::string when(const Span& span, const std::string& about, const std::string& contested) {
  const Bound &earliest = span.earliest, &latest = span.latest;
  if (!is_dated(span)) return {};
  std::string words;
  if (!earliest.known) {
    words = phrase("when.by", {{"day", closing_day(latest.day)}});
  } else if (!latest.known) {
    const std::string day = opening_day(earliest.day);
    const bool whole = std::count(day.begin(), day.end(), ' ') < 2;
    words = phrase(whole ? "when.in-or-after" : "when.on-or-after", {{"day", day}});
  } else if (!span.parts.empty() && span.parts.size() <= kMostParts) {
    std::vector<std::string> parts;
    for (const DayRange& part : span.parts) parts.push_back(stretch(part.first, part.last));
    words = join(parts, phrase("when.or"));
  } else {
    words = stretch(earliest.day, latest.day);
    const bool one = earliest.day == latest.day || !unit_words(earliest.day, latest.day).empty();
    if (!about.empty() && !one) words = phrase("when.about", {{"about", about}, {"range", words}});
  }
  if (is_contested(span)) words += contested;
  return " " + telling(kDate, words);
}

Level weaker(const Span& span) {
  Level level = Level::certain;
  for (const Bound* bound : {&span.earliest, &span.latest})
    if (bound->known) level = std::max(level, bound->level);
  return level;
}

std::string surely(const Span& span) {
  const Level level = weaker(span);
  return level == Level::certain ? std::string()
                                 : phrase(level == Level::probable ? "probably" : "possibly") + " ";
}

bool is_dated(const Span& span) {
  return span.earliest.known || span.latest.known;
}

bool is_contested(const Span& span) {
  return (span.earliest.known && span.earliest.leaned) || (span.latest.known && span.latest.leaned);
}

}  // namespace lathbook::report
