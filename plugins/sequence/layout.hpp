// Where boxes and lines go: the layered layout of the Graphviz library ('dot'), asked for with ranks given.
#pragma once

#include <cstdint>
#include <utility>
#include <vector>

namespace lathbook::sequence {

/// Units of the drawing, x to the right, y downward.
struct Spot {
  double x = 0;
  double y = 0;
};

struct LayoutLine {
  std::uint32_t later = 0;  ///< into the boxes
  std::uint32_t earlier = 0;
};

struct LayoutSize {
  double box_width = 112;
  double box_height = 46;
  double between_boxes = 14;
  double between_ranks = 30;
};

struct Layout {
  double width = 0;
  std::vector<Spot> boxes;               ///< centres
  std::vector<std::vector<Spot>> lines;  ///< Bezier points: one, then three for each piece; may be empty
};

/// Boxes stand on their ranks (0 at the bottom), `ranks` of them in all, equally far apart; the y of a rank's
/// middle is (ranks - rank - 1/2) * (box_height + between_ranks). Crossings and line lengths are kept few by
/// E. Gansner, E. Koutsofios, S. North, K.-P. Vo, 'A technique for drawing directed graphs', IEEE Trans.
/// Software Engineering 19, 1993, 214-230, as Graphviz has it. Equal input gives equal output. One thread at
/// a time. Throws Error(unsupported) when Graphviz refuses.
Layout lay_out(const std::vector<std::uint32_t>& rank, std::uint32_t ranks,
               const std::vector<LayoutLine>& lines, const LayoutSize& size);

}  // namespace lathbook::sequence
