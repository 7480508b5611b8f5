// A black band across the head of a drawing: where work is stopped.
#pragma once

#include <string>
#include <vector>

#include "core/base/xml_writer.hpp"

namespace lathbook::pieces {

class StopBand {
public:
  /// `width` in millimetres; nothing is drawn when there are no lines.
  StopBand(const std::vector<std::string>& stops, double width);
  /// Millimetres it takes at the head; 0 when nothing is stopped.
  double height() const;
  /// Draws it from the upper left corner, and opens a group that moves the rest below it: end() it.
  void open(XmlWriter& xml) const;

private:
  std::vector<std::string> lines_;
  double width_;
};

}  // namespace lathbook::pieces
