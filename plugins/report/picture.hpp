// A photograph or drawing of the archive as a figure, with numbered frames (rings) round the spots that are
// spoken of; the numbers stand beside the picture.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "plugins/report/tree.hpp"

namespace lathbook::report {

/// Media type and printed size (at most 150 by 92 mm, so that two with their captions fit a page), read from
/// the bytes of a picture that browsers show; nothing for other files. `regions` are words that hold regions
/// (xywh=160,120,320,240); those inside the picture and no larger than two fifths of it are ringed, in this
/// order, and stand in Figure::rings. Number, source, title, description and caption are left to the caller.
std::optional<Figure> picture(std::string bytes, const std::vector<std::string>& regions = {});

/// The region in the words as it stands ("xywh=160,120,320,240"); empty when there is none.
std::string region_in(const std::string& words);
/// The words without it, and without the comma or semicolon that parted them; may be empty.
std::string without_region(const std::string& words);

}  // namespace lathbook::report
