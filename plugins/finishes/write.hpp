// The forms of a finish schedule; each writes the whole result to a stream.
#pragma once

#include <cstddef>
#include <ostream>

#include "core/analysis/finish_layers.hpp"

namespace lathbook::finishes {

/// One drawing with title, description, the columns side by side, findings, and the same layers as a list; a
/// finding reads the same without colours. Narrow: two columns beside each other, for a phone; else up to
/// four, for paper.
void write_svg(const FinishLayers& layers, std::ostream& out, bool narrow);
/// Plain text in lines of at most `columns` where words allow.
void write_text(const FinishLayers& layers, std::ostream& out, std::size_t columns);
void write_json(const FinishLayers& layers, std::ostream& out);

}  // namespace lathbook::finishes
