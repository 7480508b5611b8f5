// The outer forms of EDTF: intervals, sets, and what may stand in them. Dates are edtf_date_parser.cpp.
#include "core/base/edtf_parser.hpp"

#include <algorithm>

#include "core/base/date_text.hpp"
#include "core/base/error.hpp"

namespace lathbook {

Edtf Edtf::parse(std::string_view text) {
  return EdtfParser(text).parse();
}

void bad_edtf(std::string_view text, std::size_t at, const std::string& advice) {
  fail(ErrorKind::invalid,
       "the date " + shown(text) + " cannot be read at character " + std::to_string(at + 1) + ": " + advice);
}

void EdtfParser::bad(std::size_t at, const std::string& advice) const {
  bad_edtf(text_, at, advice);
}

// What is wrong wherever it stands, so that the advice can be exact.
void EdtfParser::check_characters() const {
  if (text_.empty()) fail(ErrorKind::invalid, "the date is empty; leave it out when there is none");
  if (text_.size() > longest_edtf)
    fail(ErrorKind::invalid,
         "the date " + shown(text_) + " is longer than " + std::to_string(longest_edtf) + " bytes");
  const bool set = text_.front() == '[' || text_.front() == '{';
  for (std::size_t i = 0; i < text_.size(); ++i) {
    const Character c = character_at(text_, i);
    if (!c.valid || c.code >= 0x7F || c.code < 0x20) {
      const bool dash = c.valid && (c.code == 0x2013 || c.code == 0x2014 || c.code == 0x2212);
      bad(i, character_name(c) + " has no place in a date" + (dash ? "; write the plain hyphen -" : ""));
    }
    if (text_[i] == ' ' && !set) bad(i, "leave out the blank");
    if (text_[i] == '(' || text_[i] == ')')
      bad(i, "brackets are not used; write ?, ~ or % right of what is doubtful and all before it");
    if (text_[i] == 'u' && i > 0 && (is_digit(text_[i - 1]) || text_[i - 1] == 'u' || text_[i - 1] == '-'))
      bad(i, "write X for a digit that is not known");
    if (text_[i] == 'x') bad(i, "write a capital X for a digit that is not known");
  }
}

Edtf EdtfParser::parse() {
  check_characters();
  Edtf out;
  if (text_.front() == '[' || text_.front() == '{') {
    out = parse_set();
  } else if (const auto slash = text_.find('/'); slash != std::string_view::npos) {
    out = parse_interval(slash);
  } else {
    if (text_ == "..") bad(0, "an open end stands beside a date; write ../1926 or 1888/..");
    EdtfSpan span;
    span.start = span.end = EdtfDateParser(text_, 0, text_.size()).parse(true);
    out.level_ = span.start->level;
    out.spans_.push_back(std::move(span));
  }
  if (out.text_.empty()) out.text_ = text_;
  return out;
}

Edtf EdtfParser::parse_interval(std::size_t slash) {
  if (const auto second = text_.find('/', slash + 1); second != std::string_view::npos)
    bad(second, "an interval has two ends and one /");
  if (text_.size() == 1) bad(0, "an interval needs a date at one end at least");
  Edtf out;
  out.shape_ = EdtfShape::interval;
  EdtfSpan span;
  const auto read = [&](std::size_t from, std::size_t to, EndKind& kind, std::optional<EdtfDate>& date) {
    const std::string_view part = text_.substr(from, to - from);
    if (part == "unknown") bad(from, "leave an end empty when it is not known");
    if (part == "open" || part == "now") bad(from, "write .. for an open end");
    if (part.empty() || part == "..") {
      kind = part.empty() ? EndKind::unknown : EndKind::open;
      out.level_ = std::max(out.level_, 1);
      return;
    }
    date = EdtfDateParser(text_, from, to).parse(false);
    out.level_ = std::max(out.level_, date->season != 0 ? 2 : date->level);
  };
  read(0, slash, span.start_kind, span.start);
  read(slash + 1, text_.size(), span.end_kind, span.end);
  if (span.start && span.end && span.start->earliest > span.end->latest)
    bad(slash + 1, "the end comes before the start; write the earlier date first");
  out.spans_.push_back(std::move(span));
  return out;
}

Edtf EdtfParser::parse_set() {
  const char close = text_.front() == '[' ? ']' : '}';
  if (text_.back() != close)
    bad(text_.size() - 1, std::string("a set that begins with ") + text_.front() + " ends with " + close);
  Edtf out;
  out.shape_ = close == ']' ? EdtfShape::one_of : EdtfShape::all_of;
  out.level_ = 2;
  out.text_ = text_.front();
  const std::size_t last = text_.size() - 1;
  for (std::size_t from = 1; from <= last;) {
    const std::size_t comma = std::min(text_.find(',', from), last);
    std::size_t begin = from;
    std::size_t end = comma;
    while (begin < end && text_[begin] == ' ') ++begin;
    while (end > begin && text_[end - 1] == ' ') --end;
    if (begin == end) bad(begin, "a date is missing here");
    out.spans_.push_back(set_item(begin, end, out.spans_.empty(), comma == last));
    if (out.spans_.size() > 1) out.text_ += ',';
    out.text_ += text_.substr(begin, end - begin);
    from = comma + 1;
  }
  if (out.spans_.empty()) bad(last, "a date is missing here");
  out.text_ += close;
  return out;
}

EdtfSpan EdtfParser::set_item(std::size_t from, std::size_t to, bool first, bool last) const {
  const auto read = [this](std::size_t a, std::size_t b) { return EdtfDateParser(text_, a, b).parse(false); };
  EdtfSpan span;
  const std::size_t dots = text_.substr(0, to).find("..", from);
  if (dots == std::string_view::npos) {
    span.start = span.end = read(from, to);
    return span;
  }
  if (const auto more = text_.substr(0, to).find("..", dots + 2); more != std::string_view::npos)
    bad(more, "one item of a set has .. once; write 1884..1886,1888 or an interval");
  if (to - from == 2) bad(dots, "a date is missing beside ..");
  if (dots == from) {
    if (!first) bad(dots, "only the first item of a set may begin with ..");
    span.start_kind = EndKind::open;
  } else {
    span.start = read(from, dots);
  }
  if (dots + 2 == to) {
    if (!last) bad(dots, "only the last item of a set may end with ..");
    span.end_kind = EndKind::open;
  } else {
    span.end = read(dots + 2, to);
  }
  if (span.start && span.end) {
    if (span.start->components != span.end->components)
      bad(dots, "both ends of a range are equally fine; write 1884-05..1885-12 and not 1884-05..1885");
    if (span.start->earliest > span.end->latest)
      bad(dots, "the end comes before the start; write the earlier date first");
  }
  return span;
}

}  // namespace lathbook
