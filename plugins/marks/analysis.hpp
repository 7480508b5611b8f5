// The analysis 'marks': which marks are asked about, each read, and what is proposed.
#pragma once

#include "core/analysis/mark_reading.hpp"
#include "core/plugin/plugin.hpp"
#include "core/view/snapshot.hpp"

namespace lathbook::marks {

/// Settings: text (a typed reading instead of the archive's marks), dots=counted, list=CODE (one list only).
MarkReading reading_of(const Snapshot& archive, const AnalysisRequest& request, Services& services);

/// Adds what a person may accept to `result`, from its marks.
void propose(const Snapshot& archive, MarkReading& result);

}  // namespace lathbook::marks
