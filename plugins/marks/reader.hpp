// Reads one transcription: codes in it, makers like it, and why.
#pragma once

#include <string>

#include "core/analysis/mark_reading.hpp"
#include "core/base/transcription.hpp"
#include "plugins/marks/references.hpp"

namespace lathbook::marks {

/// Fills raw, shown, codes, candidates and their letters; a text that cannot be read leaves its fault.
ReadMark read_mark(const References& references, const std::string& text, TranscriptionOptions options);

}  // namespace lathbook::marks
