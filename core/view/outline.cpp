// Writes outlines.
#include "core/view/outline.hpp"

#include "core/base/text.hpp"

namespace lathbook {

std::string well_known_text(std::string_view outline) {
  std::string corners;
  std::string first;
  std::string last;
  for (std::string corner : split(outline, ' ')) {
    if (corner.empty()) continue;
    if (const auto comma = corner.find(','); comma != std::string::npos) corner[comma] = ' ';
    if (first.empty()) first = corner;
    corners += corners.empty() ? corner : ", " + corner;
    last = corner;
  }
  if (first != last) corners += ", " + first;
  return "POLYGON ((" + corners + "))";
}

}  // namespace lathbook
