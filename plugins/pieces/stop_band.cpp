#include "plugins/pieces/stop_band.hpp"

#include <algorithm>

#include "core/base/number.hpp"
#include "core/base/text.hpp"

namespace lathbook::pieces {

namespace {

constexpr double kSize = 3.2, kLine = 4.4, kEdge = 4;  // mm
constexpr double kLetter = 0.6;                        // widest usual letter, in sizes

}  // namespace

StopBand::StopBand(const std::vector<std::string>& stops, double width) : width_(width) {
  const auto columns = static_cast<std::size_t>(std::max(20.0, (width - 2 * kEdge) / (kSize * kLetter)));
  for (const auto& stop : stops)
    for (auto& line : wrap(stop, columns)) lines_.push_back(std::move(line));
}

double StopBand::height() const {
  return lines_.empty() ? 0 : kLine * static_cast<double>(lines_.size()) + kEdge;
}

void StopBand::open(XmlWriter& xml) const {
  if (!lines_.empty()) {
    xml.start("rect").attribute("width", in_hundredths(width_)).attribute("height", in_hundredths(height()));
    xml.attribute("fill", "#16181a").end();
  }
  double y = kEdge / 2 + kSize;
  for (const auto& line : lines_) {
    xml.start("text").attribute("x", in_hundredths(kEdge)).attribute("y", in_hundredths(y));
    xml.attribute("font-size", in_hundredths(kSize))
        .attribute("fill", "#fff")
        .attribute("font-weight", "700");
    xml.attribute("font-family", "DejaVu Sans Condensed, Noto Sans, sans-serif").text(line).end();
    y += kLine;
  }
  xml.start("g").attribute("transform", "translate(0 " + in_hundredths(height()) + ")");
}

}  // namespace lathbook::pieces
