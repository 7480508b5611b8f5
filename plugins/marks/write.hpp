// A reading of marks for people and for machines.
#pragma once

#include <ostream>

#include "core/analysis/mark_reading.hpp"

namespace lathbook::marks {

void write_text(const MarkReading& reading, std::ostream& out);
void write_json(const MarkReading& reading, std::ostream& out);

}  // namespace lathbook::marks
