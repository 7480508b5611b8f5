// Drawing in ink: lines, hatchings and words of one SVG picture, gathered and then written with its title.
#pragma once

#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "core/analysis/timeline.hpp"

namespace lathbook::report {

/// Units are tenths of a millimetre as printed; y downward.
class Ink {
public:
  Ink(double width, std::string title, std::string description);
  void line(double x1, double y1, double x2, double y2, double stroke, std::string_view dashes = {});
  void box(double x, double y, double wide, double high, std::string_view fill, double stroke = 0);
  void words(double x, double base, double letter, const std::string& text, std::string_view anchor = "start",
             bool bold = false);
  /// A bar between two places; an end that nothing fixes stays open.
  void bar(double from, double to, double y, double high, std::string_view fill, bool open_left,
           bool open_right);
  /// A closed line through these places.
  void outline(const std::vector<std::pair<double, double>>& corners, std::string_view fill, double stroke);
  void circle(double x, double y, double radius, std::string_view fill);
  double width() const { return width_; }

  /// The picture, `height` units high.
  std::string svg(double height) const;

  /// Fills that differ without colour.
  static std::string solid(Level level);
  static std::string hatch(Level level);
  /// How many letters of a size fit a width, on the safe side.
  static std::size_t letters_in(double wide, double letter);
  static std::string cut(const std::string& text, double wide, double letter);
  /// The text in at most so many lines; what is more is cut.
  static std::vector<std::string> lines(const std::string& text, double wide, double letter,
                                        std::size_t most);

private:
  struct Mark {
    char sort;  ///< l line, b box, w words, c circle, o outline
    double a, b, c, d, stroke;
    std::string text, style;
    bool bold;
  };
  double width_;
  std::string title_, description_;
  std::vector<Mark> marks_;
};

}  // namespace lathbook::report
