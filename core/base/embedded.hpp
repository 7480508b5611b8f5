// Data files of schemas/ that are built into the library.
#pragma once

#include <string_view>

#include "core/base/api.hpp"

namespace lathbook {

/// The text of a table ("trade-words"); throws Error(not_found) for a name that is not built in.
LATHBOOK_API std::string_view embedded_table(std::string_view name);

}  // namespace lathbook
