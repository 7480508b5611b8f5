#include "plugins/pieces/map_svg.hpp"

#include <algorithm>
#include <array>
#include <map>
#include <set>
#include <string_view>

#include "core/base/error.hpp"
#include "core/base/number.hpp"
#include "core/base/text.hpp"
#include "core/base/xml_writer.hpp"
#include "core/view/piece_states.hpp"
#include "core/view/record_view.hpp"
#include "plugins/pieces/signs.hpp"
#include "plugins/pieces/stop_band.hpp"

namespace lathbook::pieces {

namespace {

constexpr double kPaperWidth = 180;   // mm: A4 and Letter with their margins
constexpr double kNominalSide = 150;  // drawn when nobody measured
constexpr double kMargin = 6;
constexpr double kHead = 19;
constexpr double kLegendLine = 6.5;
constexpr double kReadable = 5;  // mm: in smaller cells a number cannot be read

double shift_of(const std::string& bond) {
  if (bond.find("half") != std::string::npos) return 0.5;
  if (bond.find("third") != std::string::npos) return 1.0 / 3;
  return 0;
}

class Drawing {
public:
  Drawing(const FieldAccount& field, const MapOptions& options, std::ostream& out)
      : field_(field), options_(options), xml_(out, XmlWriter::Layout::compact) {
    rows_ = field.rows;
    columns_ = field.columns;
    wide_ = field.order.size.length.value_or(kNominalSide) + field.joint.value_or(0);
    high_ = field.order.size.width.value_or(kNominalSide) + field.joint.value_or(0);
    shift_ = shift_of(field.bond);
    for (const auto& line : field.pieces) {
      if (!line.row || !line.column) continue;
      rows_ = std::max(rows_, *line.row);
      columns_ = std::max(columns_, *line.column);
    }
    free_ = rows_ < 1 || columns_ < 1;
    if (!free_) choose_window();
    if (free_) measure_free();
    if (free_ && !(free_width_ > 0))
      fail(ErrorKind::invalid, display(field.element) +
                                   " has no map yet; say its piece-map with rows and columns, or the cell or "
                                   "x and y of its pieces");
    if (rows_ > 2000 || columns_ > 2000)
      fail(ErrorKind::invalid,
           display(field.element) + " has a map of more than 2000 rows or columns; part it");
    measured_ = field.order.size.length && field.order.size.width;
    choose_scale();
    small_ = !free_ && std::min(cell_width(), cell_height()) < kReadable;
  }

  void write() {
    const double width = std::max(field_width(), 120.0) + 2 * kMargin;
    const StopBand band(options_.stops, width);
    const double height = band.height() + kHead + field_height() + legend_height() + 2 * kMargin;
    xml_.start("svg").attribute("xmlns", "http://www.w3.org/2000/svg");
    xml_.attribute("width", in_hundredths(width) + "mm").attribute("height", in_hundredths(height) + "mm");
    xml_.attribute("viewBox", "0 0 " + in_hundredths(width) + " " + in_hundredths(height))
        .attribute("role", "img");
    xml_.attribute("aria-labelledby", "map-title map-desc");
    xml_.start("title").attribute("id", "map-title").text(title()).end();
    xml_.start("desc").attribute("id", "map-desc").text(description()).end();
    patterns();
    xml_.start("rect").attribute("width", in_hundredths(width)).attribute("height", in_hundredths(height));
    xml_.attribute("fill", "#fff").end();
    band.open(xml_);
    head(width);
    std::set<std::pair<int, int>> drawn, covered;
    // A piece that sits in the cell of another, which is out, hides where that one belongs.
    for (const bool in_place : {true, false})
      for (const auto& line : field_.pieces) {
        if (line.is_bag || (line.state == word(PieceState::in_place)) != in_place) continue;
        if (!free_ && !in_window(line)) continue;
        const auto cell = cell_of(line);
        if (free_ && line.x && line.y)
          piece(line, kMargin + *line.x * 1000 / scale_, top_of_free(line));
        else if (cell && drawn.insert(*cell).second)
          piece(line, left_of(cell->first, cell->second, line.wide), top_of(cell->first, line.high));
      }
    for (const auto& line : field_.pieces)
      if (const auto at = cell_of(line))
        for (int up = 0; up < line.high; ++up)
          for (int on = 0; on < line.wide; ++on) covered.insert({at->first + up, at->second + on});
    empty_cells(covered);
    if (!free_) edges();
    legend();
    xml_.end().end().finish();
  }

private:
  // Where it sits, else where it came from.
  static std::optional<std::pair<int, int>> cell_of(const PieceLine& line) {
    if (line.laid_at) return line.laid_at;
    if (!line.row || !line.column) return std::nullopt;
    return std::pair(*line.row, *line.column);
  }

  // Rows and columns to be drawn; all of them unless a part is asked for.
  void choose_window() {
    const auto within = [](const Part& asked, int most, const char* what) {
      const Part part{asked.first == 0 ? 1 : asked.first, asked.last == 0 ? most : asked.last};
      if (part.first > most || part.last > most)
        fail(ErrorKind::invalid, std::string("the map has ") + what + " 1 to " + std::to_string(most));
      return part;
    };
    window_rows_ = within(options_.rows, rows_, "rows");
    window_columns_ = within(options_.columns, columns_, "columns");
  }
  bool in_window(const PieceLine& line) const {
    const auto cell = cell_of(line);
    return cell && window_rows_.holds(cell->first) && window_columns_.holds(cell->second);
  }

  void choose_scale() {
    if (options_.scale < 0 || options_.scale > 1000)
      fail(ErrorKind::invalid, "a scale is a whole number from 1 to 1000: 10 draws 1 to 10");
    scale_ = options_.scale;
    if (scale_ != 0) return;
    for (const int scale : {2, 5, 10, 20, 25, 50, 100}) {
      scale_ = scale;
      if (field_width() <= kPaperWidth) return;
    }
  }
  double cell_width() const { return wide_ / scale_; }
  double cell_height() const { return high_ / scale_; }
  double field_width() const {
    return free_ ? free_width_ / scale_ : (window_columns_.count() + shift_) * cell_width();
  }
  double field_height() const { return free_ ? free_height_ / scale_ : window_rows_.count() * cell_height(); }

  // Pieces without cells lie where they were measured, x and y of their lower left corner.
  void measure_free() {
    for (const auto& line : field_.pieces) {
      if (!line.x || !line.y || *line.x < 0 || *line.y < 0) continue;
      free_width_ = std::max(free_width_, *line.x * 1000 + wide_);
      free_height_ = std::max(free_height_, *line.y * 1000 + high_);
    }
  }
  double top_of_free(const PieceLine& line) const {
    return kMargin + kHead + field_height() - *line.y * 1000 / scale_ - cell_height();
  }

  double left_of(int row, int column, double wide = 1) const {
    const double shift = (row % 2 == 0 ? shift_ : 0) * cell_width();
    const double left = (column - window_columns_.first) * cell_width() + shift;
    return kMargin + (options_.back ? field_width() - left - wide * cell_width() : left);
  }
  double top_of(int row, double high = 1) const {
    return kMargin + kHead + (window_rows_.last - row + 1 - high) * cell_height();
  }

  std::string title() const {
    return display(field_.element) +
           (options_.back ? ": map of its pieces from behind" : ": map of its pieces");
  }
  std::string description() const {
    std::string text =
        std::to_string(field_.laid) + " laid: " + std::to_string(field_.whole) + " whole, " +
        std::to_string(field_.broken) + " broken, " + std::to_string(field_.missing) +
        " missing. Rows are counted from the bottom, columns from the left as seen from the room.";
    if (options_.back) text += " This view is from behind, so column 1 is on the right.";
    return text;
  }

  void text(double x, double y, double size, const std::string& words, const char* anchor = "start",
            bool bold = false) {
    xml_.start("text")
        .attribute("x", in_hundredths(x))
        .attribute("y", in_hundredths(y))
        .attribute("font-size", in_hundredths(size));
    xml_.attribute("font-family", "DejaVu Sans Condensed, Noto Sans, sans-serif")
        .attribute("fill", "#16181a");
    if (std::string_view(anchor) != "start") xml_.attribute("text-anchor", anchor);
    if (bold) xml_.attribute("font-weight", "600");
    xml_.text(words).end();
  }

  void line(double x1, double y1, double x2, double y2, double width) {
    xml_.start("line")
        .attribute("x1", in_hundredths(x1))
        .attribute("y1", in_hundredths(y1))
        .attribute("x2", in_hundredths(x2));
    xml_.attribute("y2", in_hundredths(y2))
        .attribute("stroke", "#16181a")
        .attribute("stroke-width", in_hundredths(width))
        .end();
  }

  void pattern(const char* id, double side, const char* path, bool filled) {
    xml_.start("pattern")
        .attribute("id", id)
        .attribute("width", in_hundredths(side))
        .attribute("height", in_hundredths(side));
    xml_.attribute("patternUnits", "userSpaceOnUse").start("path").attribute("d", path);
    if (filled)
      xml_.attribute("fill", "#16181a");
    else
      xml_.attribute("fill", "none").attribute("stroke", "#16181a").attribute("stroke-width", "0.15");
    xml_.end().end();
  }

  void patterns() {
    xml_.start("defs");
    pattern("rising", 2, "M0 2L2 0", false);
    pattern("falling", 2, "M0 0L2 2", false);
    pattern("crossed", 1.6, "M0 0L1.6 1.6M0 1.6L1.6 0", false);
    pattern("level", 1.6, "M0 0.8H1.6", false);
    pattern("upright", 1.6, "M0.8 0V1.6", false);
    pattern("dots", 1.6, "M0.6 0.6h0.4v0.4h-0.4z", true);
    xml_.end();
  }

  void head(double width) {
    text(kMargin, kMargin + 4.5, 4.2, display(field_.element), "start", true);
    const std::string view = options_.back ? "from behind: column 1 is on the right" : "seen from the room";
    const std::string size =
        measured_ ? "1 : " + std::to_string(scale_) : "sizes not measured: cells drawn square, not to scale";
    text(kMargin, kMargin + 9.2, 3, view + " · " + size);
    text(kMargin, kMargin + 13.2, 3,
         "rows are counted from the bottom, columns from the left as seen from the room");
    line(kMargin, kMargin + 15, width - kMargin, kMargin + 15, 0.35);
  }

  const Sign* sign_of(const PieceLine& line) const {
    const Sign* state = sign_for(kStates, line.state);
    if (options_.shows == MapShows::condition && !(state != nullptr && state->crossed()))
      return sign_for(kConditions, line.condition);
    return options_.shows == MapShows::number && !(state != nullptr && state->crossed()) ? nullptr : state;
  }

  void cell(double x, double y, double w, double h, const char* filling, bool dashed) {
    xml_.start("rect").attribute("x", in_hundredths(x)).attribute("y", in_hundredths(y));
    xml_.attribute("width", in_hundredths(w)).attribute("height", in_hundredths(h));
    xml_.attribute("fill", *filling == '\0' ? std::string("#fff") : "url(#" + std::string(filling) + ")");
    xml_.attribute("stroke", "#16181a").attribute("stroke-width", "0.25");
    if (dashed) xml_.attribute("stroke-dasharray", "0.8 0.6");
    xml_.end();
  }

  void piece(const PieceLine& one, double x, double y) {
    const Sign* sign = sign_of(one);
    const double w = cell_width() * one.wide, h = cell_height() * one.high;
    xml_.start("g").element("title", display(one.record) + (one.state.empty() ? "" : ", " + one.state) +
                                         (one.condition.empty() ? "" : ", " + one.condition));
    cell(x, y, w, h, sign == nullptr || small_ ? "" : sign->filling, false);
    if (sign != nullptr && sign->crossed()) {
      line(x, y + h, x + w, y, 0.35);
      if (sign->strokes > 1) line(x, y, x + w, y + h, 0.35);
    }
    if (small_)
      small_sign(one, sign, x + w / 2, y + h * 0.76, std::min(w, h) * 0.68);
    else
      words_in(one, sign, x, y, w, h);
    xml_.end();
  }

  // Where a number cannot be read: one letter, and none for what is as it should be.
  void small_sign(const PieceLine& one, const Sign* sign, double x, double y, double size) {
    if (options_.shows == MapShows::container && one.container) {
      const std::string letters = letters_for(one.container->code);
      text(x, y, letters.size() > 1 ? size * 0.7 : size, letters, "middle", true);
    } else if (sign != nullptr && !sign->crossed() && !is_usual(*sign)) {
      text(x, y, size, sign->letter, "middle", true);
    }
  }

  // a, b ... z, ba, bb: by the order in which containers come.
  std::string letters_for(const std::string& container) {
    const auto [known, fresh] = boxes_.try_emplace(container, std::pair(boxes_.size(), std::size_t{0}));
    ++known->second.second;
    return letters(known->second.first);
  }
  static std::string letters(std::size_t number) {
    const std::string last(1, static_cast<char>('a' + number % 26));
    return number < 26 ? last : letters(number / 26) + last;
  }

  static bool is_usual(const Sign& sign) {
    return std::string_view(sign.word) == "in place" || std::string_view(sign.word) == "sound";
  }

  void words_in(const PieceLine& one, const Sign* sign, double x, double y, double w, double h) {
    const double size = std::min(h * 0.34, std::min(w * 0.3, 3.6));
    label(x + w / 2, y + h * 0.48, size, short_code(one.record.code, field_.element.code), true);
    std::string below = sign == nullptr ? "" : sign->letter;
    if (options_.shows == MapShows::container && one.container) below = one.container->code;
    if (options_.shows == MapShows::condition && one.parts > 1) below += std::to_string(one.parts);
    if (!below.empty()) label(x + w / 2, y + h * 0.86, size * 0.85, below, false);
    if (one.rotation % 360 != 0) turned(x + w * 0.86, y + h * 0.2, std::min(w, h) * 0.11, one.rotation);
    if (one.sounds == "hollow" || one.sounds == "rattling" || one.sounds == "moves")
      loose(x + w * 0.14, y + h * 0.2, std::min(w, h) * 0.09);
  }

  // A number on paper white, so that it can be read on any filling.
  void label(double x, double y, double size, const std::string& words, bool bold) {
    const double width = size * 0.62 * static_cast<double>(display_width(words)) + size * 0.3;
    xml_.start("rect")
        .attribute("x", in_hundredths(x - width / 2))
        .attribute("y", in_hundredths(y - size * 0.85));
    xml_.attribute("width", in_hundredths(width))
        .attribute("height", in_hundredths(size * 1.1))
        .attribute("fill", "#fff")
        .end();
    text(x, y, size, words, "middle", bold);
  }

  // An arrow to where the pattern's top points; from behind it turns the other way.
  void turned(double x, double y, double size, int degrees) {
    const int turn = options_.back ? -degrees : degrees;
    xml_.start("path").attribute("d", "M0 " + in_hundredths(size) + "V" + in_hundredths(-size) + "M" +
                                          in_hundredths(-size * 0.6) + " " + in_hundredths(-size * 0.3) +
                                          "L0 " + in_hundredths(-size) + "L" + in_hundredths(size * 0.6) +
                                          " " + in_hundredths(-size * 0.3));
    xml_.attribute("transform", "translate(" + in_hundredths(x) + " " + in_hundredths(y) + ") rotate(" +
                                    std::to_string(turn) + ")");
    xml_.attribute("fill", "none").attribute("stroke", "#16181a").attribute("stroke-width", "0.3").end();
  }

  void loose(double x, double y, double radius) {
    xml_.start("circle")
        .attribute("cx", in_hundredths(x))
        .attribute("cy", in_hundredths(y))
        .attribute("r", in_hundredths(radius));
    xml_.attribute("fill", "#fff").attribute("stroke", "#16181a").attribute("stroke-width", "0.3").end();
  }

  void empty_cells(const std::set<std::pair<int, int>>& drawn) {
    const std::set<std::pair<int, int>> gaps(field_.gaps.begin(), field_.gaps.end());
    std::set<std::pair<int, int>> left;
    for (const auto& line : field_.pieces)
      if (line.laid_at && line.row && line.column) left.insert({*line.row, *line.column});
    for (int row = window_rows_.first; row <= std::min(field_.rows, window_rows_.last); ++row)
      for (int column = window_columns_.first; column <= std::min(field_.columns, window_columns_.last);
           ++column) {
        if (drawn.count({row, column}) != 0 || gaps.count({row, column}) != 0) continue;
        cell(left_of(row, column), top_of(row), cell_width(), cell_height(), "", true);
        if (!small_)
          text(left_of(row, column) + cell_width() / 2, top_of(row) + cell_height() * 0.6,
               std::min(cell_height() * 0.4, std::min(cell_width() * 0.2, 3.0)),
               left.count({row, column}) != 0 ? "empty" : "no record", "middle");
      }
  }

  // Numbers of rows and columns along the edges, every fifth where cells are small.
  void edges() {
    const int every = small_ ? 5 : 1;
    const double size = small_ ? 1.9 : 2.3;
    for (int row = window_rows_.first; row <= window_rows_.last; ++row)
      if (row % every == 0 || row == 1)
        text(kMargin - 1, top_of(row) + cell_height() / 2 + size * 0.36, size, std::to_string(row), "end");
    const int top = window_rows_.last;
    for (int column = window_columns_.first; column <= window_columns_.last; ++column)
      if (column % every == 0 || column == 1)
        text(left_of(top, column) + cell_width() / 2, kMargin + kHead - 0.9, size, std::to_string(column),
             "middle");
  }

  // What occurs in this field, and nothing else.
  std::vector<std::pair<const Sign*, std::size_t>> signs_used() const {
    std::vector<std::pair<const Sign*, std::size_t>> used;
    for (const auto& one : field_.pieces) {
      const Sign* sign = one.is_bag || !(free_ || in_window(one)) ? nullptr : sign_of(one);
      if (sign == nullptr) continue;
      const auto known =
          std::find_if(used.begin(), used.end(), [&](const auto& pair) { return pair.first == sign; });
      if (known == used.end())
        used.emplace_back(sign, 1);
      else
        ++known->second;
    }
    std::sort(used.begin(), used.end(), [](const auto& a, const auto& b) { return a.second > b.second; });
    return used;
  }

  double legend_height() const {
    return kLegendLine * static_cast<double>(signs_used().size() + 2) + 4 + (small_ ? small_height() : 0);
  }

  void legend() {
    double y = kMargin + kHead + field_height() + 8;
    for (const auto& [sign, number] : signs_used()) {
      xml_.start("rect")
          .attribute("x", in_hundredths(kMargin))
          .attribute("y", in_hundredths(y - 3.6))
          .attribute("width", "7");
      xml_.attribute("height", "4.6").attribute("stroke", "#16181a").attribute("stroke-width", "0.25");
      const bool plain = small_ || *sign->filling == '\0';
      xml_.attribute("fill", plain ? std::string("#fff") : "url(#" + std::string(sign->filling) + ")");
      xml_.end();
      if (sign->crossed()) {
        line(kMargin, y + 1, kMargin + 7, y - 3.6, 0.35);
        if (sign->strokes > 1) line(kMargin, y - 3.6, kMargin + 7, y + 1, 0.35);
      }
      const bool by_box = options_.shows == MapShows::container && std::string_view(sign->letter) == "C";
      if (small_ && !sign->crossed() && !is_usual(*sign))
        text(kMargin + 3.5, y - 0.2, 3, by_box ? "a .." : sign->letter, "middle", true);
      text(kMargin + 9, y, 3.2,
           (small_ ? std::string() : std::string(sign->letter) + "  ") + sign->word + ": " +
               std::to_string(number));
      y += kLegendLine;
    }
    text(kMargin, y, 3.2,
         std::to_string(field_.laid) + " laid = " + std::to_string(field_.whole) + " whole + " +
             std::to_string(field_.broken) + " broken + " + std::to_string(field_.missing) + " missing",
         "start", true);
    y += kLegendLine;
    if (small_) {
      small_legend(y);
      return;
    }
    text(kMargin, y, 2.8,
         "A ring marks a hollow, rattling or moving bed; an arrow the top of a turned piece.");
  }

  static constexpr std::size_t kBoxesALine = 6;

  double small_height() const {
    std::set<std::string> codes;
    if (options_.shows == MapShows::container)
      for (const auto& one : field_.pieces)
        if (one.container && in_window(one)) codes.insert(one.container->code);
    return kLegendLine * static_cast<double>((codes.size() + kBoxesALine - 1) / kBoxesALine + 1);
  }

  void small_legend(double y) {
    text(kMargin, y, 2.8, "Cells are too small here for numbers, rings and arrows. Print a part of it:");
    text(kMargin, y + 4, 2.8, "--setting rows=1-20 --setting columns=1-25");
    y += 4;
    std::vector<std::string> boxes(boxes_.size());
    for (const auto& [code, known] : boxes_)
      boxes[known.first] = letters(known.first) + " = " + code + ": " + std::to_string(known.second);
    for (std::size_t i = 0; i < boxes.size(); ++i) {
      if (i % kBoxesALine == 0) y += kLegendLine;
      text(kMargin + static_cast<double>(i % kBoxesALine) * 28, y, 2.8, boxes[i]);
    }
  }

  const FieldAccount& field_;
  const MapOptions& options_;
  XmlWriter xml_;
  Part window_rows_, window_columns_;
  std::map<std::string, std::pair<std::size_t, std::size_t>> boxes_;  // code: its number, pieces
  bool small_ = false;                                                // cells too small for a number
  int rows_ = 0, columns_ = 0, scale_ = 0;
  double wide_ = 0, high_ = 0, shift_ = 0;
  double free_width_ = 0, free_height_ = 0;  // millimetres in the field
  bool measured_ = false, free_ = false;
};

}  // namespace

std::string short_code(const std::string& code, const std::string& element) {
  const std::size_t mark = element.size();
  const bool begins = !element.empty() && code.rfind(element, 0) == 0 && code.size() > mark + 1;
  return begins && std::string_view(".-/ ").find(code[mark]) != std::string_view::npos ? code.substr(mark + 1)
                                                                                       : code;
}

void write_map(const FieldAccount& field, const MapOptions& options, std::ostream& out) {
  Drawing(field, options, out).write();
}

}  // namespace lathbook::pieces
