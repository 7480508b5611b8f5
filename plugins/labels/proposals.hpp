// What may be accepted of a reading: 'intended for', citing the label; never 'fitted in'.
#pragma once

#include <vector>

#include "core/analysis/label_reading.hpp"
#include "core/view/snapshot.hpp"

namespace lathbook::labels {

/// Adds a draft for each place worth taking (at most three, each with a share of 0.15 or more) that the
/// component is not said to be intended for or fitted in already, and one for each value of an assembly
/// number. Nothing for packing, for what cannot be made for a room, or for a reading that cites nothing. The
/// drafts are probable where the reading is clear, possible elsewhere; they rest on the transcription and on
/// the names and outlines that led to the place.
void add_proposals(const Snapshot& archive, const LabelReading& reading, std::vector<Draft>& proposals);

}  // namespace lathbook::labels
