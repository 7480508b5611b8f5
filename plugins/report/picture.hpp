// A photograph or drawing of the archive as a figure.
#pragma once

#include <optional>
#include <string>

#include "plugins/report/tree.hpp"

namespace lathbook::report {

/// Media type and printed size (at most 150 by 110 mm), read from the bytes of a PNG, JPEG or SVG; nothing
/// for other files. Title, description and caption are left to the caller.
std::optional<Figure> picture(std::string bytes);

}  // namespace lathbook::report
