// What an analysis is asked about, from what was typed.
#pragma once

#include <string>

#include "core/analysis/timeline.hpp"
#include "core/evidence/reader.hpp"

namespace lathbook::cli {

/// Empty means possible. Throws Error(invalid) for a word that is no level.
Level level_of(const std::string& text);
/// The place with this code; nil for an empty one. Throws Error(invalid) for a record that is no place.
Uuid scope_of(const StatementReader& reader, const std::string& code);

}  // namespace lathbook::cli
