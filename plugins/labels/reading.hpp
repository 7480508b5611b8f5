// From the archive and a request to what its labels say.
#pragma once

#include <string>

#include "core/analysis/label_reading.hpp"
#include "core/plugin/plugin.hpp"

namespace lathbook::labels {

/// Settings of a request (docs/labels.md):
///   text     a label typed in, read instead of those of the archive
///   carrier  code of the component a typed text is written on
///   date     when it was written: EDTF or words
///   storeys  us or uk: how the writer counted
///   left     outside or inside: where one stands for the left and right of the house
/// The scope is a label, a component (its labels), a place (labels of things made for it or standing in it
/// are not told apart: all labels, against the rooms of that building), or nil for all labels. Throws
/// Error(invalid) for a value that cannot be used, Error(not_found) for a carrier that is not there.
LabelReadings read_labels(const Snapshot& archive, const AnalysisRequest& request, Services& services);

}  // namespace lathbook::labels
