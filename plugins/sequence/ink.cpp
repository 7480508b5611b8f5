// The look: an architect's sheet, black ink on white, told apart by shape and dash and never by colour.
#include "plugins/sequence/ink.hpp"

#include <algorithm>
#include <cmath>

#include "core/base/number.hpp"
#include "core/base/text.hpp"

namespace lathbook::sequence {

namespace {

constexpr std::string_view kInk = "#16181a";
constexpr std::string_view kSoft = "#55585c";
constexpr double kNotch = 9;

std::string point(double x, double y) {
  return Ink::number(x) + " " + Ink::number(y);
}

// Of a straight way, or of Bezier points: of the middle piece, or where two middle pieces meet.
Spot middle_of(const std::vector<Spot>& way) {
  if (way.size() < 4) return {(way.front().x + way.back().x) / 2, (way.front().y + way.back().y) / 2};
  const std::size_t pieces = (way.size() - 1) / 3;
  const Spot* piece = &way[pieces / 2 * 3];
  if (pieces % 2 == 0) return *piece;
  return {(piece[0].x + 3 * piece[1].x + 3 * piece[2].x + piece[3].x) / 8,
          (piece[0].y + 3 * piece[1].y + 3 * piece[2].y + piece[3].y) / 8};
}

}  // namespace

std::string Ink::number(double value) {
  return with_places(value, 1);
}

Stroke stroke_of(const SequenceRelation& relation) {
  if (!relation.kept) return Stroke::aside;
  if (relation.redundant) return Stroke::redundant;
  switch (relation.bond) {
    case SequenceBond::coat:
      return Stroke::coat;
    case SequenceBond::together:
      return Stroke::together;
    case SequenceBond::either:
      return Stroke::either;
    default:
      break;
  }
  if (relation.relation == "cuts" || relation.relation == "takes-away") return Stroke::taking;
  return relation.strict ? Stroke::after : Stroke::with_or_after;
}

std::string_view meaning(Stroke stroke) {
  switch (stroke) {
    case Stroke::after:
      return "the upper came after the lower";
    case Stroke::with_or_after:
      return "the upper came after the lower or with it (butts, fixed to)";
    case Stroke::taking:
      return "the upper cuts the lower or takes it away";
    case Stroke::coat:
      return "the upper is a finish on the lower";
    case Stroke::together:
      return "bonded: one course of works";
    case Stroke::either:
      return "one after the other; which first is not known";
    case Stroke::aside:
      return "set aside: it clashes with what is surer";
    case Stroke::redundant:
      return "said besides; the other lines say it already";
  }
  return {};
}

std::string_view meaning(SequenceSort sort) {
  switch (sort) {
    case SequenceSort::fabric:
      return "put there";
    case SequenceSort::finish:
      return "a finish";
    case SequenceSort::cut:
      return "a cut: part taken";
    case SequenceSort::removal:
      return "a removal: the whole taken";
    case SequenceSort::ghost:
      return "a trace of a thing gone";
  }
  return {};
}

std::string codes_of(const SequenceThing& thing) {
  std::string codes;
  for (const SequenceMember& member : thing.members) {
    if (!codes.empty()) codes += " = ";
    codes += member.record.code.empty() ? member.record.id.text().substr(0, 8) : member.record.code;
    if (member.placements > 1) codes += " (setting " + std::to_string(member.placement) + ")";
  }
  return codes;
}

std::string short_codes(const SequenceThing& thing, double width, double letter) {
  const std::string codes = codes_of(thing);
  if (thing.members.size() == 1 || Ink::measured(codes, letter) <= width) return codes;
  return thing.members.front().record.code + " = " + std::to_string(thing.members.size() - 1) + " more";
}

std::string phase_name(const Sequence& sequence, std::size_t phase) {
  const std::string number = "Phase " + std::to_string(phase + 1);
  const std::string& name = sequence.phases[phase].name;
  if (name.empty() || name.starts_with(number)) return name.empty() ? number : name;
  return number + ": " + name;
}

std::string name_of(const SequenceThing& thing) {
  const RecordInfo& first = thing.members.front().record;
  return first.name.empty() ? thing.type : first.name;
}

std::string_view elsewhere_words(const Sequence& sequence) {
  return sequence.scope.kind == Kind::place ? "stands elsewhere" : "further off";
}

bool is_phase_sure(const SequenceThing& thing) {
  return thing.first_phase == thing.last_phase;
}

std::string phases_of(const SequenceThing& thing) {
  if (!thing.first_phase) return {};
  const std::string first = std::to_string(*thing.first_phase + 1);
  const std::string last = std::to_string(*thing.last_phase + 1);
  if (first == last) return first;
  return first + (*thing.last_phase - *thing.first_phase == 1 ? " or " : " to ") + last;
}

std::string loop_letter(std::size_t loop) {
  std::string letters;
  for (++loop; loop > 0; loop = (loop - 1) / 26)
    letters.insert(letters.begin(), static_cast<char>('A' + (loop - 1) % 26));
  return letters;
}

std::vector<std::string> loops_by_thing(const Sequence& sequence) {
  std::vector<std::string> letters(sequence.things.size());
  for (std::size_t at = 0; at < sequence.loops.size(); ++at)
    for (const std::uint32_t thing : sequence.loops[at].things)
      letters[thing] += (letters[thing].empty() ? "" : ", ") + loop_letter(at);
  return letters;
}

void Ink::begin(double width, double height, const std::string& classes, const std::string& prefix,
                const std::string& title, const std::string& description) {
  out_.start("svg").attribute("xmlns", "http://www.w3.org/2000/svg").attribute("role", "img");
  if (!classes.empty()) out_.attribute("class", classes);
  out_.attribute("viewBox", "0 0 " + number(width) + " " + number(height));
  out_.attribute("width", number(width)).attribute("height", number(height));
  out_.attribute("style", "max-width:100%;height:auto");
  out_.attribute("font-family",
                 "'Gill Sans', 'Gill Sans MT', Optima, 'DejaVu Sans Condensed', 'Noto Sans', sans-serif");
  out_.attribute("aria-labelledby", prefix + "title " + prefix + "desc");
  out_.start("title").attribute("id", prefix + "title").text(title).end();
  out_.start("desc").attribute("id", prefix + "desc").text(description).end();
  area(0, 0, width, height, "#fff");
}

void Ink::line(double x1, double y1, double x2, double y2, double width, std::string_view dashes) {
  path("M" + point(x1, y1) + "L" + point(x2, y2), width, dashes);
}

void Ink::area(double x, double y, double width, double height, std::string_view fill) {
  out_.start("rect").attribute("x", number(x)).attribute("y", number(y));
  out_.attribute("width", number(width)).attribute("height", number(height)).attribute("fill", fill).end();
}

void Ink::path(const std::string& way, double width, std::string_view dashes, std::string_view fill) {
  out_.start("path").attribute("d", way).attribute("fill", fill);
  out_.attribute("stroke", kInk).attribute("stroke-width", number(width));
  if (!dashes.empty()) out_.attribute("stroke-dasharray", dashes);
  out_.end();
}

void Ink::dot(double x, double y, double radius, bool filled) {
  out_.start("circle").attribute("cx", number(x)).attribute("cy", number(y));
  out_.attribute("r", number(radius)).attribute("fill", filled ? kInk : "#fff");
  out_.attribute("stroke", kInk).attribute("stroke-width", "1.2").end();
}

void Ink::words(double x, double y, double letter, const std::string& text, std::string_view anchor,
                bool bold, bool slanted) {
  out_.start("text").attribute("x", number(x)).attribute("y", number(y));
  out_.attribute("font-size", number(letter)).attribute("text-anchor", anchor);
  out_.attribute("fill", slanted ? kSoft : kInk);
  if (bold) out_.attribute("font-weight", "600");
  if (slanted) out_.attribute("font-style", "italic");
  out_.text(text).end();
}

void Ink::outline(SequenceSort sort, double x, double y, double width, double height, bool elsewhere,
                  bool in_loop) {
  const double left = x - width / 2, right = x + width / 2, top = y - height / 2, bottom = y + height / 2;
  const double pen = in_loop ? 2.8 : elsewhere ? 0.6 : 1.4;
  if (sort == SequenceSort::cut || sort == SequenceSort::removal) {
    const double notch = std::min(kNotch, width / 4);
    path("M" + point(left, top) + "L" + point(right, top) + "L" + point(right - notch, y) + "L" +
             point(right, bottom) + "L" + point(left, bottom) + "L" + point(left + notch, y) + "Z",
         pen, {}, "#fff");
    if (sort == SequenceSort::removal) {
      line(left + 4, top + 3.2, right - 4, top + 3.2, pen);
      line(left + 4, bottom - 3.2, right - 4, bottom - 3.2, pen);
    }
    return;
  }
  out_.start("rect").attribute("x", number(left)).attribute("y", number(top));
  out_.attribute("width", number(width)).attribute("height", number(height));
  if (sort == SequenceSort::finish) out_.attribute("rx", number(std::min(height / 2, 16.0)));
  out_.attribute("fill", "#fff").attribute("stroke", kInk).attribute("stroke-width", number(pen));
  if (sort == SequenceSort::ghost) out_.attribute("stroke-dasharray", "2 3");
  out_.end();
}

void Ink::stroke(Stroke stroke, const std::vector<Spot>& way) {
  if (way.size() < 2) return;
  std::string drawn = "M" + point(way[0].x, way[0].y);
  for (std::size_t at = 1; at + 2 < way.size(); at += 3)
    drawn += "C" + point(way[at].x, way[at].y) + " " + point(way[at + 1].x, way[at + 1].y) + " " +
             point(way[at + 2].x, way[at + 2].y);
  if (way.size() == 2) drawn += "L" + point(way[1].x, way[1].y);
  const Spot end = way.back();
  const Spot middle = middle_of(way);
  switch (stroke) {
    case Stroke::after:
      path(drawn, 1.4);
      break;
    case Stroke::with_or_after:
      path(drawn, 1.0);
      line(end.x - 7, end.y - 4, end.x + 7, end.y - 4, 1.6);
      break;
    case Stroke::taking:
      path(drawn, 1.4);
      line(middle.x - 5, middle.y + 5, middle.x + 5, middle.y - 5, 1.4);
      line(middle.x - 5, middle.y + 9, middle.x + 5, middle.y - 1, 1.4);
      break;
    case Stroke::coat:
      path(drawn, 1.2, "1.2 3.2");
      break;
    case Stroke::together:
      path(drawn, 4.0);
      out_.start("path").attribute("d", drawn).attribute("fill", "none");
      out_.attribute("stroke", "#fff").attribute("stroke-width", "1.8").end();
      break;
    case Stroke::either:
      path(drawn, 1.0, "6 4");
      dot(middle.x, middle.y, 6, false);
      words(middle.x, middle.y + 3.5, 10, "?", "middle");
      break;
    case Stroke::aside:
      path(drawn, 1.0, "8 3 1.5 3");
      line(middle.x - 5, middle.y - 5, middle.x + 5, middle.y + 5, 1.6);
      line(middle.x - 5, middle.y + 5, middle.x + 5, middle.y - 5, 1.6);
      break;
    case Stroke::redundant:
      path(drawn, 0.5, "3 3");
      break;
  }
}

double Ink::measured(std::string_view text, double letter) {
  return static_cast<double>(display_width(text)) * letter * 0.56;
}

std::vector<std::string> Ink::fitted(const std::string& text, double width, double letter,
                                     std::size_t lines) {
  const auto columns = static_cast<std::size_t>(std::max(width / (letter * 0.56), 6.0));
  std::vector<std::string> made = wrap(text, columns);
  if (made.size() <= lines) return made;
  made.resize(lines);
  std::u32string last = code_points(made.back());
  if (last.size() >= columns) last.resize(columns - 1);
  made.back() = utf8(last) + "…";
  return made;
}

}  // namespace lathbook::sequence
