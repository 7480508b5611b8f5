// Writes a drawing as SVG that browsers and word processors show alike: no style sheet, no patterns. A
// hatching is drawn as lines, because not every word processor knows SVG's patterns.
#include "plugins/report/ink.hpp"

#include <algorithm>
#include <cmath>
#include <sstream>

#include "core/base/number.hpp"
#include "core/base/text.hpp"
#include "core/base/xml_writer.hpp"

namespace lathbook::report {

namespace {

constexpr std::string_view kInk = "#16181a";
constexpr std::string_view kLetters = "DejaVu Sans, Noto Sans, sans-serif";

std::string number(double value) {
  return with_places(value, 1);
}

/// Words that stand for a hatching where a fill is meant.
double step_of(std::string_view fill) {
  return fill == "hatch-certain" ? 9 : fill == "hatch-probable" ? 16 : fill == "hatch-possible" ? 24 : 0;
}

class Writer {
public:
  explicit Writer(XmlWriter& out) : out_(out) {}

  void line(double x1, double y1, double x2, double y2, double stroke, std::string_view dashes) {
    out_.start("line").attribute("x1", number(x1)).attribute("y1", number(y1));
    out_.attribute("x2", number(x2)).attribute("y2", number(y2)).attribute("stroke", kInk);
    out_.attribute("stroke-width", number(stroke));
    if (!dashes.empty()) out_.attribute("stroke-dasharray", dashes);
    out_.end();
  }

  void box(double x, double y, double wide, double high, std::string_view fill, double stroke) {
    const double step = step_of(fill);
    out_.start("rect").attribute("x", number(x)).attribute("y", number(y));
    out_.attribute("width", number(wide)).attribute("height", number(high));
    out_.attribute("fill", step > 0 ? "#ffffff" : fill);
    if (stroke > 0) out_.attribute("stroke", kInk).attribute("stroke-width", number(stroke));
    out_.end();
    if (step > 0) hatching(x, y, wide, high, step);
  }

private:
  /// Lines at 45 degrees, cut at the edges of the box.
  void hatching(double x, double y, double wide, double high, double step) {
    std::string path;
    for (double at = x - high + step / 2; at < x + wide; at += step) {
      const double from = std::max(at, x);
      const double to = std::min(at + high, x + wide);
      if (to - from < 0.5) continue;
      path += "M" + number(from) + " " + number(y + high - (from - at)) + "L" + number(to) + " " +
              number(y + high - (to - at));
    }
    if (path.empty()) return;
    out_.start("path").attribute("d", path).attribute("stroke", kInk);
    out_.attribute("stroke-width", "1.6").attribute("fill", "none").end();
  }

  XmlWriter& out_;
};

}  // namespace

Ink::Ink(double width, std::string title, std::string description)
    : width_(width), title_(std::move(title)), description_(std::move(description)) {}

void Ink::line(double x1, double y1, double x2, double y2, double stroke, std::string_view dashes) {
  marks_.push_back({'l', x1, y1, x2, y2, stroke, {}, std::string(dashes), false});
}

void Ink::box(double x, double y, double wide, double high, std::string_view fill, double stroke) {
  marks_.push_back({'b', x, y, wide, high, stroke, {}, std::string(fill), false});
}

void Ink::words(double x, double base, double letter, const std::string& text, std::string_view anchor,
                bool bold) {
  marks_.push_back({'w', x, base, letter, 0, 0, text, std::string(anchor), bold});
}

void Ink::bar(double from, double to, double y, double high, std::string_view fill, bool open_left,
              bool open_right) {
  const double wide = std::max(to - from, 3.0);
  box(from, y, wide, high, fill);
  line(from, y, from + wide, y, 2.2);
  line(from, y + high, from + wide, y + high, 2.2);
  if (!open_left) line(from, y, from, y + high, 2.2);
  if (!open_right) line(from + wide, y, from + wide, y + high, 2.2);
}

void Ink::circle(double x, double y, double radius, std::string_view fill) {
  marks_.push_back({'c', x, y, radius, 0, 0, {}, std::string(fill), false});
}

void Ink::outline(const std::vector<std::pair<double, double>>& corners, std::string_view fill,
                  double stroke) {
  std::string path;
  for (const auto& [x, y] : corners) path += (path.empty() ? "M" : "L") + number(x) + " " + number(y);
  marks_.push_back({'o', 0, 0, 0, 0, stroke, path + "Z", std::string(fill), false});
}

std::string Ink::svg(double height) const {
  std::ostringstream stream;
  XmlWriter out(stream, XmlWriter::Layout::compact);
  Writer write(out);
  out.start("svg").attribute("xmlns", "http://www.w3.org/2000/svg");
  out.attribute("width", number(width_ / 10) + "mm").attribute("height", number(height / 10) + "mm");
  out.attribute("viewBox", "0 0 " + number(width_) + " " + number(height));
  out.element("title", title_).element("desc", description_);
  for (const Mark& mark : marks_) {
    if (mark.sort == 'l') {
      write.line(mark.a, mark.b, mark.c, mark.d, mark.stroke, mark.style);
    } else if (mark.sort == 'b') {
      write.box(mark.a, mark.b, mark.c, mark.d, mark.style, mark.stroke);
    } else if (mark.sort == 'o') {
      out.start("path").attribute("d", mark.text).attribute("fill", mark.style);
      out.attribute("stroke", kInk).attribute("stroke-width", number(mark.stroke)).end();
    } else if (mark.sort == 'c') {
      out.start("circle").attribute("cx", number(mark.a)).attribute("cy", number(mark.b));
      out.attribute("r", number(mark.c)).attribute("fill", mark.style).attribute("stroke", kInk);
      out.attribute("stroke-width", "2.6").end();
    } else {
      out.start("text").attribute("x", number(mark.a)).attribute("y", number(mark.b));
      out.attribute("font-family", kLetters).attribute("font-size", number(mark.c));
      if (mark.bold) out.attribute("font-weight", "bold");
      out.attribute("text-anchor", mark.style).attribute("fill", kInk).text(mark.text).end();
    }
  }
  out.end();
  out.finish();
  return stream.str();
}

std::string Ink::solid(Level level) {
  return level == Level::certain ? std::string(kInk) : level == Level::probable ? "#70757a" : "#b9bdc1";
}

std::string Ink::hatch(Level level) {
  return level == Level::certain    ? "hatch-certain"
         : level == Level::probable ? "hatch-probable"
                                    : "hatch-possible";
}

std::size_t Ink::letters_in(double wide, double letter) {
  return static_cast<std::size_t>(std::max(4.0, std::floor(wide / (letter * 0.56))));
}

std::string Ink::cut(const std::string& text, double wide, double letter) {
  const std::size_t fits = letters_in(wide, letter);
  if (display_width(text) <= fits) return text;
  return wrap(text, fits - 1).front() + "…";
}

std::vector<std::string> Ink::lines(const std::string& text, double wide, double letter, std::size_t most) {
  std::vector<std::string> parts = wrap(text, letters_in(wide, letter));
  if (parts.size() <= most) return parts;
  std::string rest;
  for (std::size_t at = most - 1; at < parts.size(); ++at) rest += (rest.empty() ? "" : " ") + parts[at];
  parts.resize(most);
  parts.back() = cut(rest, wide, letter);
  return parts;
}

}  // namespace lathbook::report
