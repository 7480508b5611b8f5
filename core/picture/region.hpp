// A rectangle of a picture, as people write it beside a spot: xywh=160,120,320,240.
#pragma once

#include <optional>
#include <string>
#include <string_view>

namespace lathbook {

/// In pixels of the canvas; inside it, at least 1 by 1.
struct Region {
  int x = 0;
  int y = 0;
  int width = 0;
  int height = 0;
  std::string text() const;  ///< "xywh=160,120,320,240"
};

/// Whether the words hold a region at all.
bool names_region(std::string_view words);
/// The first region in the words, cut at the edges of the canvas; nothing when there is none, when it is not
/// well formed, or when it lies outside. Source: W3C Recommendation 'Media Fragments URI 1.0 (basic)', 25
/// September 2012, section 4.2.2.
std::optional<Region> read_region(std::string_view words, int canvas_width, int canvas_height);

}  // namespace lathbook
