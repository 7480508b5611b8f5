// The schedule drawn: a strip of hatching tells the role, a chip the colour, words both.
#include <algorithm>
#include <array>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "core/base/text.hpp"
#include "core/base/xml_writer.hpp"
#include "plugins/finishes/canvas.hpp"
#include "plugins/finishes/compare.hpp"
#include "plugins/finishes/schedule.hpp"
#include "plugins/finishes/write.hpp"

namespace lathbook::finishes {

namespace {

// Roles with the ids of their hatchings, in the order of the key.
constexpr std::array<std::pair<std::string_view, std::string_view>, 10> kHatches{
    {{"finish coat", "solid"},
     {"glaze", "slant"},
     {"varnish", "cross"},
     {"paper", "upright"},
     {"undercoat", "level"},
     {"primer", "dots"},
     {"substrate", "grain"},
     {"dirt line", "dirt"},
     {"fracture", "fracture"},
     {"stripped zone", "stripped"}}};

std::string hatch_of(const std::string& role) {
  for (const auto& [name, id] : kHatches)
    if (name == role) return "url(#" + std::string(id) + ")";
  return "#fff";
}

class Patterns {
public:
  explicit Patterns(XmlWriter& out) : out_(out) {}

  void write() {
    out_.start("defs");
    pattern("solid", 4);
    fill(4, std::string(kInk));
    out_.end();
    ruled("slant", 5, {"M-1 6 L6 -1"}, 1.3);
    ruled("cross", 5, {"M0 0 L5 5", "M0 5 L5 0"}, 0.9);
    ruled("upright", 4, {"M2 0 V4"}, 1.2);
    ruled("level", 4, {"M0 2 H4"}, 1.2);
    ruled("grain", 9, {"M0 2 H5", "M4 6 H9"}, 0.8);
    ruled("dirt", 3, {"M0 0 H3", "M0 2 H3", "M1 0 V3"}, 1);
    ruled("fracture", 8, {"M0 6 L2 2 L5 7 L8 1"}, 1.2);
    ruled("stripped", 10, {"M1 5 H5"}, 1);
    pattern("dots", 5);
    fill(5, "#fff");
    out_.start("circle").attribute("cx", "2.5").attribute("cy", "2.5").attribute("r", "1");
    out_.attribute("fill", kInk).end();
    out_.end();
    out_.end();
  }

private:
  void pattern(std::string_view id, double step) {
    out_.start("pattern").attribute("id", id).attribute("patternUnits", "userSpaceOnUse");
    out_.attribute("width", coordinate(step)).attribute("height", coordinate(step));
  }
  void fill(double step, const std::string& colour) {
    out_.start("rect").attribute("width", coordinate(step)).attribute("height", coordinate(step));
    out_.attribute("fill", colour).end();
  }
  void ruled(std::string_view id, double step, const std::vector<std::string_view>& paths, double stroke) {
    pattern(id, step);
    fill(step, "#fff");
    for (const std::string_view path : paths) {
      out_.start("path").attribute("d", path).attribute("stroke", kInk);
      out_.attribute("stroke-width", coordinate(stroke)).attribute("fill", "none").end();
    }
    out_.end();
  }

  XmlWriter& out_;
};

// Draws every group below the one before.
class Sheet {
public:
  Sheet(const FinishLayers& layers, bool narrow) : layers_(layers), narrow_(narrow) {
    if (narrow) wide_ = 360, most_columns_ = 2, letter_ = 12.5;
  }

  void write(std::ostream& out) {
    draw();
    XmlWriter xml(out);
    xml.start("svg").attribute("xmlns", "http://www.w3.org/2000/svg").attribute("role", "img");
    xml.attribute("viewBox", "0 0 " + coordinate(wide_ + 2 * kMargin) + " " + coordinate(y_ + kMargin));
    xml.attribute("width", coordinate(wide_ + 2 * kMargin)).attribute("height", coordinate(y_ + kMargin));
    xml.attribute("aria-labelledby", "title desc").attribute("fill", kInk);
    xml.attribute("font-family",
                  "Gill Sans, Gill Sans MT, Optima, DejaVu Sans Condensed, Noto Sans, sans-serif");
    xml.start("title").attribute("id", "title").text(title()).end();
    xml.start("desc").attribute("id", "desc").text(description()).end();
    Patterns(xml).write();
    xml.start("rect").attribute("width", "100%").attribute("height", "100%").attribute("fill", "#fff").end();
    canvas_.write(xml);
    xml.end().finish();
  }

private:
  static constexpr double kMargin = 14;

  std::string title() const {
    const std::string of = layers_.scope.id == Uuid{} ? "the whole archive" : thing_words(layers_.scope);
    return "Finish schedule of " + of;
  }

  std::string description() const {
    if (layers_.groups.empty()) return "No layers of paint are recorded there.";
    std::string words = "Layers of finish side by side, the substrate below and the last coat above. ";
    for (const FinishGroup& group : layers_.groups) {
      words += title_of(group) + ": " + std::to_string(group.sequences.size()) +
               (group.sequences.size() == 1 ? " sequence. " : " sequences. ");
      for (const FinishAlignment& one : group.alignments)
        if (one.concluded) words += one.words + " ";
    }
    return words + "Below each drawing the same layers stand as a list.";
  }

  void draw() {
    y_ = kMargin + 16;
    y_ = canvas_.paragraph(kMargin, y_, wide_, 17, title(), true) + 8;
    if (layers_.groups.empty())
      canvas_.words(kMargin, y_ += 16, letter_, "No layers of paint are recorded there.");
    for (const FinishGroup& group : layers_.groups) draw_group(group);
    if (!layers_.groups.empty()) key();
    rule(0.6);
    y_ = canvas_.paragraph(kMargin, y_ + letter_ + 4, wide_, letter_ - 1.5, layers_.method);
    if (layers_.reading.withheld > 0)
      y_ = canvas_.paragraph(kMargin, y_ + letter_ + 2, wide_, letter_ - 1.5,
                             std::to_string(layers_.reading.withheld) +
                                 " statements withheld; more may be said in the private archive.");
    y_ = canvas_.paragraph(kMargin, y_ + letter_ + 2, wide_, letter_ - 1.5,
                           "State " + layers_.reading.fingerprint.hex());
  }

  void rule(double stroke) {
    y_ += 10;
    canvas_.line(kMargin, y_, kMargin + wide_, y_, stroke);
  }

  void draw_group(const FinishGroup& group) {
    const Schedule schedule = schedule_of(layers_, group);
    rule(1.6);
    y_ = canvas_.paragraph(kMargin, y_ + 20, wide_, 14, title_of(group), true) + 6;
    // The reference stands first in every panel, so that each can be read by itself.
    std::size_t next = 1;
    do {
      std::vector<std::size_t> columns{0};
      while (columns.size() < most_columns_ && next < schedule.columns.size()) columns.push_back(next++);
      panel(schedule, columns);
    } while (next < schedule.columns.size());
    findings(group, schedule);
    list(schedule);
  }

  double column_wide(std::size_t columns) const {
    return wide_ / static_cast<double>(std::max<std::size_t>(columns, 2));
  }

  void panel(const Schedule& schedule, const std::vector<std::size_t>& columns) {
    const double step = column_wide(columns.size());
    double deepest = y_;
    for (std::size_t i = 0; i < columns.size(); ++i) {
      const FinishSequence& sequence = layers_.sequences[schedule.columns[columns[i]].sequence];
      const double x = kMargin + step * static_cast<double>(i);
      double base =
          canvas_.paragraph(x, y_ + letter_ + 4, step - 10, letter_, thing_words(sequence.element), true);
      std::string how = read_words(sequence);
      if (sequence.sample.id != Uuid{}) how = "sample " + thing_words(sequence.sample) + ", " + how;
      base = canvas_.paragraph(x, base + letter_ * 1.3, step - 10, letter_ - 1.5, how);
      deepest = std::max(deepest, base);
    }
    y_ = deepest + 8;
    for (std::size_t row = schedule.rows.size(); row-- > 0;) draw_row(schedule, columns, row, step);
    for (std::size_t i = 0; i < columns.size(); ++i)
      canvas_.box(kMargin + step * static_cast<double>(i), y_, step - 10, 9, "url(#grain)", 0.8);
    canvas_.words(kMargin, y_ + 9 + letter_, letter_ - 1.5, "substrate");
    y_ += 16 + letter_;
  }

  bool row_is_thin(const Schedule& schedule, const std::vector<std::size_t>& columns, std::size_t row) const {
    for (const std::size_t column : columns)
      if (const FinishCoat* coat = coat_at(layers_, schedule, row, column))
        if (coat->role != "dirt line" && coat->role != "fracture") return false;
    return true;
  }

  void draw_row(const Schedule& schedule, const std::vector<std::size_t>& columns, std::size_t row,
                double step) {
    const bool empty = std::none_of(columns.begin(), columns.end(), [&](std::size_t column) {
      return coat_at(layers_, schedule, row, column) != nullptr;
    });
    if (empty) return;
    const double high = row_is_thin(schedule, columns, row) ? letter_ + 8 : 2 * letter_ + 16;
    for (std::size_t i = 0; i < columns.size(); ++i) {
      const double x = kMargin + step * static_cast<double>(i);
      if (const FinishCoat* coat = coat_at(layers_, schedule, row, columns[i]))
        cell(*coat, x, high, step);
      else
        gap(schedule, columns[i], row, x, high);
    }
    y_ += high;
  }

  void cell(const FinishCoat& coat, double x, double high, double step) {
    canvas_.open("group", coat_words(coat) + ", " + coat.role);
    canvas_.box(x, y_, 12, high, hatch_of(coat.role), 0.8);
    const double chip = narrow_ ? 30 : 36;
    if (coat.chip.srgb.empty())
      canvas_.box(x + 12, y_, chip, high, "#fff", 0.8, "3 2");
    else
      canvas_.box(x + 12, y_, chip, high, coat.chip.srgb, 0.8);
    const double left = x + 12 + chip + 5;
    const double room = step - 10 - 12 - chip - 5;
    const std::string number = std::to_string(coat.layer) + "  ";
    const bool thin = high < 2 * letter_ + 10;
    const auto lines = wrap(safe_display(number + (coat.colour.empty() ? coat.role : coat.colour)),
                            letters_in(room, letter_ - 0.5));
    canvas_.words(left, y_ + letter_ + 2, letter_ - 0.5, lines.front() + (lines.size() > 1 ? " ..." : ""));
    if (!thin) {
      std::string below = notation_of(coat);
      if (!coat.colour_fault.empty()) below = "? " + below;
      if (coat.chip.trust == "beyond the renotation") below += " ~";
      if (coat.chip.trust == "not on screens") below += " *";
      if (coat.marker) below += "  marker";
      canvas_.words(left, y_ + 2 * letter_ + 6, letter_ - 0.5, below);
    }
    canvas_.close();
  }

  static std::string notation_of(const FinishCoat& coat) {
    if (!coat.munsell.empty()) return coat.munsell;
    return coat.measured.empty() ? "no notation" : coat.measured;
  }

  // Under the first coat of a column: not there yet, where that was concluded; else merely lacking.
  void gap(const Schedule& schedule, std::size_t at, std::size_t row, double x, double high) {
    const ScheduleColumn& column = schedule.columns[at];
    bool below_first = true;
    for (std::size_t lower = 0; lower <= row; ++lower)
      if (coat_at(layers_, schedule, lower, at)) below_first = false;
    const bool later = below_first && column.alignment && column.alignment->concluded &&
                       column.alignment->sequence == column.sequence;
    if (later) canvas_.box(x + 12, y_, narrow_ ? 30 : 36, high, {}, 0.8, "2 3");
    canvas_.words(x + 12 + (narrow_ ? 35 : 41), y_ + letter_ + 2, letter_ - 0.5,
                  later             ? "not yet in place"
                  : column.lined_up ? "none"
                                    : "");
  }

  void findings(const FinishGroup& group, const Schedule& schedule) {
    for (const ScheduleColumn& column : schedule.columns) {
      const FinishSequence& sequence = layers_.sequences[column.sequence];
      y_ = canvas_.paragraph(kMargin, y_ + letter_ + 6, wide_, letter_, thing_words(sequence.element), true);
      y_ = canvas_.paragraph(kMargin, y_ + letter_ * 1.35, wide_, letter_,
                             finding_of(layers_, schedule, column));
    }
    for (const std::string& remark : group.remarks)
      y_ = canvas_.paragraph(kMargin, y_ + letter_ * 1.5, wide_, letter_, remark);
    y_ += 4;
  }

  // The same layers once more as a table in words.
  void list(const Schedule& schedule) {
    canvas_.open("table", "All layers, from the substrate outward");
    canvas_.words(kMargin, y_ += letter_ + 8, letter_, "All layers, from the substrate outward", true);
    for (const ScheduleColumn& column : schedule.columns) {
      const FinishSequence& sequence = layers_.sequences[column.sequence];
      y_ += letter_ + 8;
      canvas_.open("row", {});
      y_ = canvas_.paragraph(kMargin, y_, wide_, letter_ - 0.5, thing_words(sequence.element), true);
      canvas_.close();
      y_ += 3;
      canvas_.line(kMargin, y_, kMargin + wide_, y_, 0.5);
      for (const FinishCoat& coat : sequence.coats) list_row(coat);
    }
    canvas_.close();
    y_ += 6;
  }

  void list_row(const FinishCoat& coat) {
    const double size = letter_ - 0.5;
    canvas_.open("row", {});
    y_ += size * 1.35;
    cell_words(kMargin, size, std::to_string(coat.layer));
    cell_words(kMargin + 24, size, coat.role);
    cell_words(kMargin + (narrow_ ? 106 : 116), size, notation_of(coat));
    const double left = kMargin + (narrow_ ? 196 : 216);
    y_ = canvas_.paragraph(left, y_, kMargin + wide_ - left, size, list_words(coat));
    canvas_.close();
  }

  void cell_words(double x, double size, const std::string& text) { canvas_.words(x, y_, size, text); }

  std::string list_words(const FinishCoat& coat) const {
    std::string words = coat.colour;
    if (!narrow_ && !coat.material.empty()) words += (words.empty() ? "" : ", ") + coat.material;
    if (!coat.colour_fault.empty()) words += "; not read: " + coat.colour_fault;
    return words;
  }

  void key() {
    rule(1.6);
    canvas_.words(kMargin, y_ + letter_ + 6, letter_, "Key", true);
    y_ += letter_ + 14;
    const std::size_t across = narrow_ ? 2 : 5;
    const double step = wide_ / static_cast<double>(across);
    for (std::size_t i = 0; i < kHatches.size(); ++i) {
      const double x = kMargin + step * static_cast<double>(i % across);
      const double top = y_ + static_cast<double>(i / across) * (letter_ + 10);
      canvas_.box(x, top, 12, letter_ + 4, "url(#" + std::string(kHatches[i].second) + ")", 0.8);
      canvas_.words(x + 18, top + letter_, letter_ - 0.5, std::string(kHatches[i].first));
    }
    y_ += static_cast<double>((kHatches.size() + across - 1) / across) * (letter_ + 10) + letter_;
    y_ = canvas_.paragraph(
        kMargin, y_, wide_, letter_ - 0.5,
        "Each layer: strip of hatching for its role, colour, number from the substrate, words, "
        "Munsell notation. A dashed chip has no notation. marker: unlike every other coat of "
        "its element. ~ outside the published colours; * greyed, screens cannot show it.");
  }

  const FinishLayers& layers_;
  bool narrow_;
  double wide_ = 720;
  std::size_t most_columns_ = 4;
  double letter_ = 11.5;
  double y_ = 0;
  Canvas canvas_;
};

}  // namespace

void write_svg(const FinishLayers& layers, std::ostream& out, bool narrow) {
  Sheet(layers, narrow).write(out);
}

}  // namespace lathbook::finishes
