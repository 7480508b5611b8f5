// Draws the phases and things of a sheet: solid where surely there, hatched where possibly.
#include <algorithm>
#include <array>
#include <cmath>

#include "core/base/calendar.hpp"
#include "core/base/number.hpp"
#include "core/base/text.hpp"
#include "core/base/xml_writer.hpp"
#include "plugins/sheet/phrases.hpp"
#include "plugins/sheet/write.hpp"

namespace lathbook::sheet {

namespace {

constexpr std::array levels{Level::certain, Level::probable, Level::possible};
constexpr std::size_t rows_of_a_sheet = 42;
constexpr std::string_view ink = "#16181a";

std::string number(double value) {
  return with_places(value, 1);
}

/// Sizes of one layout, in units of the view box.
struct Layout {
  bool narrow = false;
  double width = 720, left = 236, right = 708, row = 21, bar = 11, letter = 11;
  double top = 0, bottom = 0;  ///< of the rows
};

/// Which bars a drawing shows, and what its title adds.
struct Rows {
  std::size_t first = 0;
  std::size_t end = 0;
  std::string which;
};

class Chart {
public:
  Chart(const Sheet& sheet, XmlWriter& out, std::string prefix, bool narrow, Rows rows)
      : sheet_(sheet),
        drawing_(sheet.drawing),
        out_(out),
        prefix_(std::move(prefix)),
        rows_(std::move(rows)) {
    if (narrow) size_ = {true, 360, 6, 354, 36, 12, 12.5, 0, 0};
    const double days = static_cast<double>(std::max<Day>(drawing_.last - drawing_.first, 366));
    first_ = static_cast<double>(drawing_.first) - days * 0.03;
    scale_ = (size_.right - size_.left) / (days * 1.05);
    place_letters();
    size_.top = 40 + 12 * letter_rows_;
    size_.bottom = size_.top + size_.row * static_cast<double>(rows_.end - rows_.first);
  }

  void write() {
    const double legend = size_.bottom + 34;
    const double height = legend + (size_.narrow ? 6 * 18 : 3 * 18) + 4;
    out_.start("svg").attribute("xmlns", "http://www.w3.org/2000/svg").attribute("role", "img");
    out_.attribute("class", size_.narrow ? "narrow" : "wide");
    out_.attribute("viewBox", "0 0 " + number(size_.width) + " " + number(height));
    out_.attribute("aria-labelledby", prefix_ + "title " + prefix_ + "desc");
    out_.start("title")
        .attribute("id", prefix_ + "title")
        .text(fill(english().chart_title, {{"place", sheet_.title}, {"which", rows_.which}}))
        .end();
    out_.start("desc").attribute("id", prefix_ + "desc").text(description()).end();
    patterns();
    bands();
    axis();
    ticks();
    for (std::size_t at = rows_.first; at < rows_.end; ++at) row(at);
    key(legend);
    out_.end();
  }

private:
  double x(Day day) const {
    return std::clamp(size_.left + (static_cast<double>(day) - first_) * scale_, size_.left, size_.right);
  }

  std::string description() const {
    return fill(english().chart_words, {{"things", grouped(rows_.end - rows_.first)},
                                        {"phases", grouped(drawing_.bands.size())},
                                        {"from", opening_year(drawing_.first)},
                                        {"to", opening_year(drawing_.last)}});
  }
  static std::string opening_year(Day day) { return edtf_year(civil_from_days(day).year); }

  void line(double x1, double y1, double x2, double y2, std::string_view width,
            std::string_view dashes = {}) {
    out_.start("line").attribute("x1", number(x1)).attribute("y1", number(y1));
    out_.attribute("x2", number(x2)).attribute("y2", number(y2));
    out_.attribute("stroke", ink).attribute("stroke-width", width);
    if (!dashes.empty()) out_.attribute("stroke-dasharray", dashes);
    out_.end();
  }
  void box(double left, double top, double wide, double high, const std::string& fill,
           std::string_view stroke) {
    out_.start("rect").attribute("x", number(left)).attribute("y", number(top));
    out_.attribute("width", number(wide)).attribute("height", number(high)).attribute("fill", fill);
    if (!stroke.empty()) out_.attribute("stroke", ink).attribute("stroke-width", stroke);
    out_.end();
  }
  void words(double left, double base, double letter, const std::string& text,
             std::string_view anchor = "start") {
    out_.start("text").attribute("x", number(left)).attribute("y", number(base));
    out_.attribute("font-size", number(letter)).attribute("text-anchor", anchor).text(text).end();
  }

  std::string hatch(Level level) const {
    return "url(#" + prefix_ + "hatch-" + std::string(level_word(level)) + ")";
  }
  static std::string solid(Level level) {
    return level == Level::certain ? std::string(ink) : level == Level::probable ? "#6c7075" : "#b4b8bc";
  }

  void patterns() {
    out_.start("defs");
    for (const Level level : levels) {
      const double step = level == Level::certain ? 3.4 : level == Level::probable ? 6.5 : 5;
      out_.start("pattern").attribute("id", prefix_ + "hatch-" + std::string(level_word(level)));
      out_.attribute("patternUnits", "userSpaceOnUse").attribute("width", number(step));
      out_.attribute("height", number(step));
      if (level != Level::possible) out_.attribute("patternTransform", "rotate(45)");
      box(0, 0, step, step, "#fff", {});
      if (level == Level::possible) {
        out_.start("circle").attribute("cx", "2.5").attribute("cy", "2.5").attribute("r", "0.9");
        out_.attribute("fill", ink).end();
      } else {
        line(0, 0, 0, step, level == Level::certain ? "2.4" : "2.0");
      }
      out_.end();
    }
    out_.end();
  }

  void bands() {
    double last_bubble = -100;
    for (std::size_t at = 0; at < drawing_.bands.size(); ++at) {
      const Band& band = drawing_.bands[at];
      const auto known = band.earliest ? band.earliest : band.latest;
      if (!known) continue;
      const double from = x(*known);
      const double sure = x(band.latest.value_or(*known));
      double until = size_.right;
      for (std::size_t next = at + 1; next < drawing_.bands.size(); ++next)
        if (const Band& other = drawing_.bands[next]; other.earliest || other.latest) {
          until = x(other.latest ? *other.latest : *other.earliest);
          break;
        }
      if (at % 2 == 0) box(from, 32, std::max(until - from, 0.0), size_.bottom - 32, "#f2f2ef", {});
      line(from, 30, from, size_.bottom, "1.2");
      if (sure - from > 1.5) line(sure, 30, sure, size_.bottom, "0.8", "5 3");
      const double middle =
          std::clamp(std::max(from + 10, last_bubble + 22), size_.left + 10, size_.right - 10);
      last_bubble = middle;
      out_.start("circle").attribute("cx", number(middle)).attribute("cy", "16").attribute("r", "9.5");
      out_.attribute("fill", "#fff").attribute("stroke", ink).attribute("stroke-width", "1.4").end();
      words(middle, 20, 12, std::to_string(band.number), "middle");
    }
    if (!size_.narrow) words(0, 20, size_.letter, std::string(english().phase));
  }

  void axis() {
    line(size_.left, size_.bottom, size_.right, size_.bottom, "1.4");
    const std::int64_t from = civil_from_days(drawing_.first).year;
    const std::int64_t to = civil_from_days(drawing_.last).year;
    std::int64_t step = 1;
    for (const std::int64_t next : {2, 5, 10, 20, 25, 50, 100, 200, 500, 1000})
      if ((to - from) / step > (size_.narrow ? 5 : 9)) step = next;
    std::int64_t year = from - from % step;
    for (; year <= to; year += step) {
      const Day day = days_from_civil(year, 1, 1);
      if (static_cast<double>(day) < first_) continue;
      line(x(day), size_.bottom, x(day), size_.bottom + 5, "1.2");
      words(std::clamp(x(day), size_.left + 12, size_.right - 12), size_.bottom + 18, size_.letter,
            edtf_year(year), "middle");
    }
  }

  void place_letters() {
    std::vector<double> reached;
    for (const Tick& tick : drawing_.ticks) {
      std::size_t line_at = 0;
      while (line_at < reached.size() && x(tick.day) - reached[line_at] < 11) ++line_at;
      if (line_at == reached.size()) reached.push_back(0);
      reached[line_at] = x(tick.day);
      letter_lines_.push_back(line_at);
    }
    letter_rows_ = static_cast<double>(reached.size());
  }

  void ticks() {
    for (std::size_t at = 0; at < drawing_.ticks.size(); ++at) {
      const double where = x(drawing_.ticks[at].day);
      const double base = 42 + 12 * static_cast<double>(letter_lines_[at]);
      line(where, base + 2, where, size_.bottom, "0.6", "1 3");
      words(where, base, 10.5, drawing_.ticks[at].letter, "middle");
    }
    if (!size_.narrow && !drawing_.ticks.empty())
      words(0, 43, size_.letter, std::string(english().letters_below));
  }

  void stretch(double from, double to, double top, const std::string& fill, bool open_left, bool open_right) {
    const double wide = std::max(to - from, 2.0);
    box(from, top, wide, size_.bar, fill, {});
    line(from, top, from + wide, top, "0.9");
    line(from, top + size_.bar, from + wide, top + size_.bar, "0.9");
    if (!open_left) line(from, top, from, top + size_.bar, "0.9");
    if (!open_right) line(from + wide, top, from + wide, top + size_.bar, "0.9");
  }

  void row(std::size_t at) {
    const Bar& bar = drawing_.bars[at];
    const Thing& thing = sheet_.things[bar.thing];
    const double top = size_.top + size_.row * static_cast<double>(at - rows_.first);
    const double bar_top = size_.narrow ? top + 19 : top + 5;
    const std::string label =
        thing.code.empty() || thing.code == thing.name ? thing.name : thing.code + " " + thing.name;
    const double room = size_.narrow ? size_.width - 12 : size_.left - 10;
    if (!size_.narrow) line(0, top, size_.right, top, "0.25");
    // White behind the words, so that no line of a band or tick runs through them.
    if (size_.narrow) box(size_.left - 2, top + 3, std::min(room, measured(label) + 4), 14, "#fff", {});
    words(size_.narrow ? size_.left : 0, size_.narrow ? top + 14 : top + 14.5, size_.letter,
          cut(label, room));

    const double left = bar.begin_earliest ? x(*bar.begin_earliest) : size_.left;
    const double right = bar.end_latest ? x(*bar.end_latest) : size_.right;
    const bool open_left = !bar.begin_earliest;
    const bool open_right = !bar.end_latest;
    const Level weaker = std::max(bar.begin_level, bar.end_level);
    if (bar.begin_latest && bar.end_earliest && *bar.begin_latest < *bar.end_earliest) {
      const double from = x(*bar.begin_latest);
      const double to = x(*bar.end_earliest);
      if (from - left > 0.5) stretch(left, from, bar_top, hatch(bar.begin_level), open_left, false);
      if (right - to > 0.5) stretch(to, right, bar_top, hatch(bar.end_level), false, open_right);
      stretch(from, to, bar_top, solid(weaker), false, open_right && right - to <= 0.5);
    } else {
      stretch(left, right, bar_top, hatch(weaker), open_left, open_right);
    }
  }

  double measured(const std::string& text) const {
    return static_cast<double>(display_width(text)) * size_.letter * 0.56;
  }
  std::string cut(const std::string& text, double room) const {
    if (measured(text) <= room) return text;
    const auto columns = static_cast<std::size_t>(room / (size_.letter * 0.56)) - 1;
    std::string kept = wrap(text, std::max<std::size_t>(columns, 4)).front();
    return kept + "…";
  }

  void key(double top) {
    for (std::size_t at = 0; at < 2 * levels.size(); ++at) {
      const bool sure = at < levels.size();
      const Level level = levels[at % levels.size()];
      const double left = size_.narrow || sure ? size_.left : size_.left + 236;
      const double base = top + 18 * static_cast<double>(size_.narrow ? at : at % levels.size());
      box(left, base, 26, 11, sure ? solid(level) : hatch(level), "0.9");
      words(left + 33, base + 10, size_.letter,
            fill(sure ? english().surely_there : english().possibly_there, {{"level", level_word(level)}}));
    }
    if (!size_.narrow) words(0, top + 10, size_.letter, std::string(english().key));
  }

  const Sheet& sheet_;
  const Drawing& drawing_;
  XmlWriter& out_;
  std::string prefix_;
  Rows rows_;
  Layout size_;
  double first_ = 0;
  double scale_ = 1;
  std::vector<std::size_t> letter_lines_;
  double letter_rows_ = 0;
};

}  // namespace

void write_charts(const Sheet& sheet, XmlWriter& out, const std::string& prefix, bool narrow) {
  const std::size_t bars = sheet.drawing.bars.size();
  const std::size_t parts = (bars + rows_of_a_sheet - 1) / rows_of_a_sheet;
  for (std::size_t part = 0; part < parts; ++part) {
    const std::size_t first = part * bars / parts;
    const std::string which =
        parts == 1 ? std::string() : ", part " + std::to_string(part + 1) + " of " + std::to_string(parts);
    Chart(sheet, out, prefix + (part == 0 ? "" : std::to_string(part + 1) + "-"), narrow,
          {first, (part + 1) * bars / parts, which})
        .write();
  }
}

}  // namespace lathbook::sheet
