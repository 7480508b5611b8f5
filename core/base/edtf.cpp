// What an EDTF value says: its ends, bounds, qualifiers and a plain sentence. Reading is edtf_parser.cpp.
#include "core/base/edtf.hpp"

#include <algorithm>
#include <cstdlib>

#include "core/base/error.hpp"

namespace lathbook {

namespace {

std::string two_digits(int value) {
  return (value < 10 ? "0" : "") + std::to_string(value);
}

std::string clock_text(int second_of_day) {
  return two_digits(second_of_day / 3600) + ":" + two_digits(second_of_day / 60 % 60) + ":" +
         two_digits(second_of_day % 60);
}

// ISO 8601 expanded form: a sign before a year of more than four digits.
std::string instant_text(Day day, int second_of_day) {
  std::string date = iso_day(day);
  if (date.front() == 'Y') date = (date[1] == '-' ? "" : "+") + date.substr(1);
  return date + "T" + clock_text(second_of_day);
}

std::string bound_text(const EdtfDate& date, bool first) {
  constexpr int day_length = 86'400;
  if (!date.second_of_day)
    return instant_text(first ? date.earliest : date.latest, first ? 0 : day_length - 1);
  if (!date.offset_minutes) return instant_text(date.earliest, *date.second_of_day);
  int second = *date.second_of_day - *date.offset_minutes * 60;
  Day day = date.earliest;
  if (second < 0) {
    second += day_length;
    --day;
  } else if (second >= day_length) {
    second -= day_length;
    ++day;
  }
  return instant_text(day, second) + "Z";
}

DateQualifier operator|(DateQualifier a, DateQualifier b) {
  return {a.uncertain || b.uncertain, a.approximate || b.approximate};
}

template <class Visit>
void each_date(const std::vector<EdtfSpan>& spans, Visit visit) {
  for (const EdtfSpan& span : spans) {
    if (span.start) visit(*span.start);
    if (span.end) visit(*span.end);
  }
}

std::string qualifier_words(DateQualifier q) {
  if (q.uncertain && q.approximate) return "uncertain and approximate";
  return q.uncertain ? "uncertain" : q.approximate ? "approximate" : "";
}

// ', approximate' when the whole date carries one mark, else ', the month uncertain'.
std::string date_qualifiers(const EdtfDate& date) {
  if ((date.components < 2 || date.month == date.year) && (date.components < 3 || date.day == date.year)) {
    const std::string words = qualifier_words(date.year);
    return words.empty() ? "" : ", " + words;
  }
  std::string out;
  const auto add = [&out](const char* name, DateQualifier q) {
    const std::string words = qualifier_words(q);
    if (!words.empty()) out += ", the " + std::string(name) + " " + words;
  };
  add("year", date.year);
  add(date.season != 0 ? "season" : "month", date.month);
  add("day", date.day);
  return out;
}

std::string offset_words(const EdtfDate& date) {
  if (!date.offset_minutes) return "";
  const int minutes = *date.offset_minutes;
  if (minutes == 0) return " UTC";
  const int size = std::abs(minutes);
  return std::string(" by a clock ") + two_digits(size / 60) + ":" + two_digits(size % 60) +
         (minutes > 0 ? " ahead of UTC" : " behind UTC");
}

std::string date_words(const EdtfDate& date) {
  std::string out = plain_day(date.earliest);
  if (date.second_of_day) return out + " at " + clock_text(*date.second_of_day) + offset_words(date);
  if (date.earliest != date.latest) out = "some time from " + out + " to " + plain_day(date.latest);
  if (date.estimate) out += ", estimated " + std::to_string(*date.estimate);
  if (!date.continuous) out += ", only on days that fit " + date.text;
  return out + date_qualifiers(date);
}

std::string span_words(const EdtfSpan& span) {
  const EndKind a = span.start_kind;
  const EndKind b = span.end_kind;
  if (a == EndKind::open && b == EndKind::open) return "any time at all";
  std::string out = "some time ";
  if (a == EndKind::open)
    out += b == EndKind::unknown ? "up to a day that is not known" : "up to " + plain_day(span.end->latest);
  else
    out += "from " + (a == EndKind::unknown ? "a day that is not known" : plain_day(span.start->earliest));
  if (b == EndKind::open)
    out += " on";
  else if (a != EndKind::open)
    out += " to " + (b == EndKind::unknown ? "a day that is not known" : plain_day(span.end->latest));

  const std::string start = span.start ? date_qualifiers(*span.start) : "";
  const std::string end = span.end ? date_qualifiers(*span.end) : "";
  if (start.empty() && end.empty()) return out;
  if (start == end || !span.start || !span.end) return out + (start.empty() ? end : start);
  if (!start.empty()) out += "; the start" + start.substr(1);
  if (!end.empty()) out += "; the end" + end.substr(1);
  return out;
}

bool is_single(const EdtfSpan& span) {
  return span.start && span.end && span.start->text == span.end->text;
}

}  // namespace

DateQualifier EdtfDate::qualifier() const {
  return year | month | day;
}

EndKind Edtf::start_kind() const {
  const auto open = [](const EdtfSpan& s) { return s.start_kind == EndKind::open; };
  if (std::any_of(spans_.begin(), spans_.end(), open)) return EndKind::open;
  return spans_.front().start_kind;
}

EndKind Edtf::end_kind() const {
  const auto open = [](const EdtfSpan& s) { return s.end_kind == EndKind::open; };
  if (std::any_of(spans_.begin(), spans_.end(), open)) return EndKind::open;
  return spans_.front().end_kind;
}

const EdtfDate* Edtf::first_date() const {
  if (start_kind() != EndKind::dated) return nullptr;
  const EdtfDate* best = nullptr;
  for (const EdtfSpan& span : spans_)
    if (best == nullptr || span.start->earliest < best->earliest) best = &*span.start;
  return best;
}

const EdtfDate* Edtf::last_date() const {
  if (end_kind() != EndKind::dated) return nullptr;
  const EdtfDate* best = nullptr;
  for (const EdtfSpan& span : spans_)
    if (best == nullptr || span.end->latest > best->latest) best = &*span.end;
  return best;
}

std::optional<Day> Edtf::earliest() const {
  const EdtfDate* date = first_date();
  return date == nullptr ? std::nullopt : std::optional<Day>(date->earliest);
}

std::optional<Day> Edtf::latest() const {
  const EdtfDate* date = last_date();
  return date == nullptr ? std::nullopt : std::optional<Day>(date->latest);
}

std::string Edtf::earliest_text() const {
  const EndKind kind = start_kind();
  if (kind != EndKind::dated) return kind == EndKind::open ? "-inf" : "";
  return bound_text(*first_date(), true);
}

std::string Edtf::latest_text() const {
  const EndKind kind = end_kind();
  if (kind != EndKind::dated) return kind == EndKind::open ? "+inf" : "";
  return bound_text(*last_date(), false);
}

bool Edtf::uncertain() const {
  bool found = false;
  each_date(spans_, [&found](const EdtfDate& d) { found = found || d.qualifier().uncertain; });
  return found;
}

bool Edtf::approximate() const {
  bool found = false;
  each_date(spans_, [&found](const EdtfDate& d) { found = found || d.qualifier().approximate; });
  return found;
}

Precision Edtf::precision() const {
  Precision coarsest = Precision::second;
  each_date(spans_, [&coarsest](const EdtfDate& d) { coarsest = std::max(coarsest, d.precision); });
  return coarsest;
}

std::optional<Edtf> Edtf::try_parse(std::string_view text, std::string* why) try {
  return parse(text);
} catch (const Error& error) {
  if (why != nullptr) *why = error.what();
  return std::nullopt;
}

std::optional<Day> earliest_day(std::string_view edtf) {
  const auto date = edtf.empty() ? std::nullopt : Edtf::try_parse(edtf);
  return date ? date->earliest() : std::nullopt;
}

std::optional<Day> latest_day(std::string_view edtf) {
  const auto date = edtf.empty() ? std::nullopt : Edtf::try_parse(edtf);
  return date ? date->latest() : std::nullopt;
}

std::string describe(const Edtf& date) {
  const auto words = [](const EdtfSpan& span) {
    return is_single(span) ? date_words(*span.start) : span_words(span);
  };
  if (date.shape() == EdtfShape::date) return date_words(*date.spans().front().start);
  if (date.shape() == EdtfShape::interval) return span_words(date.spans().front());
  std::string out = date.shape() == EdtfShape::one_of ? "one of these: " : "all of these: ";
  for (std::size_t i = 0; i < date.spans().size(); ++i) out += (i == 0 ? "" : "; ") + words(date.spans()[i]);
  return out;
}

}  // namespace lathbook
