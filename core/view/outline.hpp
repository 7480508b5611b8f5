// Outlines of rooms as other formats want them.
#pragma once

#include <string>
#include <string_view>

#include "core/base/api.hpp"

namespace lathbook {

/// "0,0 4.2,0 4.2,3" as well-known text with the ring closed, "POLYGON ((0 0, 4.2 0, 4.2 3, 0 0))" (OGC
/// 06-103r4, 2011). The coordinates stay those of the building, in metres.
LATHBOOK_API std::string well_known_text(std::string_view outline);

}  // namespace lathbook
