#include "plugins/finishes/canvas.hpp"

#include <algorithm>

#include "core/base/number.hpp"
#include "core/base/text.hpp"

namespace lathbook::finishes {

void Canvas::box(double x, double y, double wide, double high, const std::string& fill, double stroke,
                 const std::string& dashes) {
  Mark mark;
  mark.kind = Mark::Kind::box;
  mark.x = x;
  mark.y = y;
  mark.wide = wide;
  mark.high = high;
  mark.fill = fill;
  mark.stroke = stroke;
  mark.dashes = dashes;
  marks_.push_back(std::move(mark));
}

void Canvas::line(double x1, double y1, double x2, double y2, double stroke, const std::string& dashes) {
  box(x1, y1, x2, y2, {}, stroke, dashes);
  marks_.back().kind = Mark::Kind::line;
}

void Canvas::words(double x, double base, double letter, const std::string& text, bool bold) {
  Mark mark;
  mark.kind = Mark::Kind::words;
  mark.x = x;
  mark.y = base;
  mark.letter = letter;
  mark.text = safe_display(text);
  mark.bold = bold;
  marks_.push_back(std::move(mark));
}

double Canvas::paragraph(double x, double base, double wide, double letter, const std::string& text,
                         bool bold) {
  bool first = true;
  for (const std::string& line :
       wrap(safe_display(text), bold ? letters_in(wide, letter * 1.12) : letters_in(wide, letter))) {
    if (!first) base += letter * 1.32;
    first = false;
    words(x, base, letter, line, bold);
  }
  return base;
}

void Canvas::open(const std::string& role, const std::string& label) {
  Mark mark;
  mark.kind = Mark::Kind::open_group;
  mark.fill = role;
  mark.text = safe_display(label);
  marks_.push_back(std::move(mark));
}

void Canvas::close() {
  Mark mark;
  mark.kind = Mark::Kind::close_group;
  marks_.push_back(std::move(mark));
}

void Canvas::write(XmlWriter& out) const {
  for (const Mark& mark : marks_) {
    if (mark.kind == Mark::Kind::open_group) {
      out.start("g").attribute("role", mark.fill);
      if (!mark.text.empty()) out.attribute("aria-label", mark.text);
      continue;
    }
    if (mark.kind == Mark::Kind::close_group) {
      out.end();
      continue;
    }
    if (mark.kind == Mark::Kind::words) {
      out.start("text").attribute("x", coordinate(mark.x)).attribute("y", coordinate(mark.y));
      out.attribute("font-size", coordinate(mark.letter));
      if (mark.bold) out.attribute("font-weight", "600");
      out.text(mark.text).end();
      continue;
    }
    const bool is_line = mark.kind == Mark::Kind::line;
    out.start(is_line ? "line" : "rect");
    out.attribute(is_line ? "x1" : "x", coordinate(mark.x))
        .attribute(is_line ? "y1" : "y", coordinate(mark.y));
    out.attribute(is_line ? "x2" : "width", coordinate(mark.wide));
    out.attribute(is_line ? "y2" : "height", coordinate(mark.high));
    if (!is_line) out.attribute("fill", mark.fill.empty() ? "none" : mark.fill);
    if (mark.stroke > 0) out.attribute("stroke", kInk).attribute("stroke-width", coordinate(mark.stroke));
    if (!mark.dashes.empty()) out.attribute("stroke-dasharray", mark.dashes);
    out.end();
  }
}

std::size_t letters_in(double wide, double letter) {
  return static_cast<std::size_t>(std::max(8.0, wide / (letter * 0.54)));
}

std::string coordinate(double value) {
  return with_places(value, 1);
}

}  // namespace lathbook::finishes
