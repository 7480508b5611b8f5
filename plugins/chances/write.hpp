// The forms of chances.
#pragma once

#include <cstddef>
#include <ostream>

#include "core/analysis/chances.hpp"

namespace lathbook::chances {

void write_text(const Chances& chances, std::size_t columns, std::ostream& out);
void write_json(const Chances& chances, std::ostream& out);

}  // namespace lathbook::chances
