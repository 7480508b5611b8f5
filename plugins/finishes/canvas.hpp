// Marks on a sheet, gathered before they are written, so that the sheet can be as long as they need.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "core/base/xml_writer.hpp"

namespace lathbook::finishes {

/// The ink everything is drawn in.
inline constexpr std::string_view kInk = "#16181a";

struct Mark {
  enum class Kind { box, line, words, open_group, close_group } kind = Kind::box;
  double x = 0, y = 0, wide = 0, high = 0;  ///< of a line: from x, y to wide, high
  std::string fill;                         ///< of a box; of a group: its role
  double stroke = 0;
  std::string dashes;
  std::string text;  ///< of words; of a group: its label
  double letter = 11;
  bool bold = false;
};

/// Coordinates are units of the view box, y downward. Owns copies of all words.
class Canvas {
public:
  void box(double x, double y, double wide, double high, const std::string& fill, double stroke = 0,
           const std::string& dashes = {});
  void line(double x1, double y1, double x2, double y2, double stroke, const std::string& dashes = {});
  void words(double x, double base, double letter, const std::string& text, bool bold = false);
  /// Words broken at the width; gives the base of the last line.
  double paragraph(double x, double base, double wide, double letter, const std::string& text,
                   bool bold = false);
  /// Elements up to close() form one group with this ARIA role and label; an empty label adds none.
  void open(const std::string& role, const std::string& label);
  void close();
  void write(XmlWriter& out) const;

private:
  std::vector<Mark> marks_;
};

/// How many letters of this size fit a width, on the safe side.
std::size_t letters_in(double wide, double letter);

/// One decimal, for coordinates.
std::string coordinate(double value);

}  // namespace lathbook::finishes
