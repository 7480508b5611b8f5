// Reads typed dates: marks and order words outside, points in time inside, EDTF as the result.
#include "core/base/typed_date.hpp"

#include <algorithm>
#include <optional>

#include "core/base/date_text.hpp"
#include "core/base/date_words.hpp"
#include "core/base/error.hpp"
#include "core/base/typed_point.hpp"

namespace lathbook {

namespace {

constexpr const char* examples = "write for example 'about 1890', 'spring 1911', 'by 1921' or '1924/1926'";

std::string trimmed(std::string_view text) {
  const auto blank = [](char c) { return c == ' ' || c == '\t'; };
  while (!text.empty() && blank(text.front())) text.remove_prefix(1);
  while (!text.empty() && blank(text.back())) text.remove_suffix(1);
  return std::string(text);
}

bool looks_like_edtf(std::string_view text) {
  return text.find_first_not_of("0123456789XYSE./?~%-[]{},T:+Z") == std::string_view::npos;
}

// 'YYYY-NN' with NN after YY: a month or season in EDTF, but perhaps meant as two years. Gives the
// second year.
std::optional<int> second_year(std::string_view text) {
  if (text.size() != 7 || text[4] != '-') return std::nullopt;
  for (const std::size_t i : {0U, 1U, 2U, 3U, 5U, 6U})
    if (!is_digit(text[i])) return std::nullopt;
  const int year = std::stoi(std::string(text.substr(0, 4)));
  const int later = std::stoi(std::string(text.substr(5)));
  if (later <= year % 100) return std::nullopt;
  return year / 100 * 100 + later;
}

std::string mark(DateQualifier q) {
  if (q.uncertain && q.approximate) return "%";
  return q.uncertain ? "?" : q.approximate ? "~" : "";
}

enum class Order { none, before, until, after, since, between };

/// Reads a whole typed date that is not EDTF as it stands, and writes it as EDTF.
class TypedReader {
public:
  explicit TypedReader(std::string_view typed)
      : typed_(typed), pieces_(date_pieces(typed)), points_(typed_, pieces_) {}
  std::string edtf();

private:
  void refuse_phrases() const;
  void refuse_numbers() const;
  void take_marks();
  Order take_order();
  void take_endings(Order& order);
  std::string set_of_years(const TypedPoint& first);
  std::optional<TypedPoint> take_second(const TypedPoint& first, Order order);
  std::string write(Order order, const TypedPoint& a, const std::optional<TypedPoint>& b) const;
  std::string marked(const std::string& date, DateQualifier q) const;
  [[noreturn]] void leftover(Order order) const;
  [[noreturn]] void refuse(const std::string& advice) const { points_.refuse(advice); }

  std::string_view typed_;
  std::vector<DatePiece> pieces_;
  TypedPointReader points_;
  DateQualifier whole_;
};

void TypedReader::refuse_phrases() const {
  for (std::size_t i = 0; i < pieces_.size(); ++i) {
    std::string advice;
    std::string event;
    const std::size_t refused = DateWords::english().match(pieces_, i, DateWord::refuse, advice);
    if (refused > 0 && DateWords::english().match(pieces_, i, DateWord::event, event) <= refused)
      refuse(advice);
  }
}

// '12/6/1924' is 12 June to one reader and 6 December to another.
void TypedReader::refuse_numbers() const {
  for (std::size_t i = 0; i + 4 < pieces_.size(); ++i) {
    const auto number = [&](std::size_t k) { return pieces_[k].kind == DatePiece::Kind::number; };
    const auto sign = pieces_[i + 1].kind;
    if (!number(i) || !number(i + 2) || !number(i + 4) || pieces_[i + 3].kind != sign) continue;
    if (sign != DatePiece::Kind::slash && sign != DatePiece::Kind::stop && sign != DatePiece::Kind::hyphen)
      continue;
    if (pieces_[i].text.size() > 2) continue;
    refuse(
        "the order of day and month is ambiguous in numbers; write the month as a word, such as '12 June "
        "1924'");
  }
}

void TypedReader::take_marks() {
  const DateQualifier q = points_.take_marks();
  whole_.uncertain = whole_.uncertain || q.uncertain;
  whole_.approximate = whole_.approximate || q.approximate;
}

Order TypedReader::take_order() {
  Order order = Order::none;
  if (points_.take(DateWord::between))
    order = Order::between;
  else if (points_.take(DateWord::since))
    order = Order::since;
  else if (points_.take(DateWord::until))
    order = Order::until;
  else if (points_.take(DateWord::before))
    order = Order::before;
  else if (points_.take(DateWord::after))
    order = Order::after;
  if (order != Order::none) points_.take_sign(DatePiece::Kind::hyphen);
  return order;
}

void TypedReader::take_endings(Order& order) {
  for (;;) {
    const std::size_t before = points_.at();
    const bool free = order == Order::none || order == Order::since;
    if (free && points_.take(DateWord::onward)) order = Order::since;
    if (order == Order::none && points_.take(DateWord::backward)) order = Order::until;
    take_marks();
    if (points_.at() == before) return;
  }
}

std::string TypedReader::marked(const std::string& date, DateQualifier q) const {
  return date + mark({q.uncertain || whole_.uncertain, q.approximate || whole_.approximate});
}

std::string TypedReader::set_of_years(const TypedPoint& first) {
  std::vector<TypedPoint> points{first};
  while (points_.take(DateWord::or_)) points.push_back(points_.read());
  Order order = Order::none;
  take_endings(order);
  if (!points_.end()) leftover(Order::none);
  std::string out;
  for (const TypedPoint& point : points) {
    if (point.first != point.last) refuse("say 'or' between single dates only, such as '1905 or 1906'");
    out += (out.empty() ? "[" : ",") + marked(point.first, point.qualifier);
  }
  return out + "]";
}

// The other end of a span: 'to 1926', 'and 1926', '-1926', '-26', '/26'.
std::optional<TypedPoint> TypedReader::take_second(const TypedPoint& first, Order order) {
  if (order != Order::none && order != Order::between && order != Order::since) return std::nullopt;
  const std::size_t before = points_.at();
  const bool dash = points_.take_sign(DatePiece::Kind::hyphen) ||
                    points_.take_sign(DatePiece::Kind::long_dash) ||
                    points_.take_sign(DatePiece::Kind::slash);
  if (dash) {
    if (const auto year = points_.take_short_year(first)) return year;
    return points_.end() && before + 1 == points_.at() ? std::nullopt : std::optional(points_.read());
  }
  if (order == Order::between ? points_.take(DateWord::and_) || points_.take(DateWord::to)
                              : points_.take(DateWord::to))
    return points_.read();
  return std::nullopt;
}

std::string TypedReader::edtf() {
  if (pieces_.empty()) refuse(std::string("nothing is written; ") + examples);
  refuse_phrases();
  refuse_numbers();
  take_marks();
  Order order = take_order();
  points_.set_ordered(order != Order::none);
  const TypedPoint a = points_.read();
  take_endings(order);
  if (order == Order::none && points_.at_word(DateWord::or_)) return set_of_years(a);
  const auto b = take_second(a, order);
  if (order == Order::between && !b) refuse("'between' needs two dates, such as 'between 1924 and 1926'");
  if (!b) {
    take_endings(order);
  } else {
    order = Order::none;
    take_marks();
  }
  if (!points_.end()) leftover(order);
  return write(order, a, b);
}

void TypedReader::leftover(Order order) const {
  if (order != Order::none) points_.refuse_word();
  refuse("the part from " + shown(pieces_[points_.at()].text) + " on does not belong to a date; " + examples);
}

std::string TypedReader::write(Order order, const TypedPoint& a, const std::optional<TypedPoint>& b) const {
  const std::string first = marked(a.first, a.qualifier);
  const std::string last = marked(a.last, a.qualifier);
  switch (order) {
    case Order::before:
      return "../" + marked(neighbour(a, false), a.qualifier);
    case Order::until:
      return "../" + last;
    case Order::after:
      return marked(neighbour(a, true), a.qualifier) + "/..";
    case Order::since:
      return first + "/..";
    default:
      break;
  }
  if (b) return first + "/" + marked(b->last, b->qualifier);
  return a.first == a.last ? first : first + "/" + last;
}

TypedDate finished(std::string_view typed, Edtf edtf, const std::string& caution) {
  std::string understood = describe(edtf) + caution;
  return {std::string(typed), std::move(edtf), std::move(understood)};
}

}  // namespace

TypedDate read_typed_date(std::string_view typed) {
  if (typed.size() > longest_typed_date)
    fail(ErrorKind::invalid,
         "the date " + shown(typed) + " is longer than " + std::to_string(longest_typed_date) + " bytes");
  const std::string text = trimmed(typed);
  std::string edtf_advice;
  auto edtf = Edtf::try_parse(text, &edtf_advice);
  if (edtf) {
    const auto year = second_year(text);
    const int season = edtf->spans().front().start ? edtf->spans().front().start->season : 0;
    if (!year) return finished(typed, std::move(*edtf), "");
    const std::string years = text.substr(0, 4) + "/" + std::to_string(*year);
    if (season >= 25) return finished(typed, Edtf::parse(years), "");
    return finished(typed, std::move(*edtf), " (for the years write " + years + ")");
  }
  TypedReader reader(text);
  std::string written;
  try {
    written = reader.edtf();
  } catch (const NotWords&) {
    if (!text.empty() && looks_like_edtf(text)) fail(ErrorKind::invalid, edtf_advice);
    throw;
  }
  edtf = Edtf::try_parse(written, &edtf_advice);
  if (!edtf)
    fail(ErrorKind::invalid,
         "the date " + shown(text) + " was understood as " + written + ", but " + edtf_advice);
  return finished(typed, std::move(*edtf), "");
}

}  // namespace lathbook
