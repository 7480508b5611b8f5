// The readings of labels as text for people and as JSON.
#pragma once

#include <ostream>

#include "core/analysis/label_reading.hpp"
#include "core/view/snapshot.hpp"

namespace lathbook::labels {

/// `brief`: one paragraph a label; else with candidates, reasons and their citations.
void write_text(const Snapshot& archive, const LabelReadings& readings, bool brief, std::ostream& out);
void write_json(const Snapshot& archive, const LabelReadings& readings, std::ostream& out);

}  // namespace lathbook::labels
