// The analysis 'finishes': every place of the scope, its sequences, comparisons and proposals.
#pragma once

#include "core/plugin/plugin.hpp"

namespace lathbook::finishes {

/// `request.scope`: a place with all within it, an element (then only what concerns it), a finish (its
/// element), or nil for the whole archive. Setting 'reference': code of the element or sample to compare
/// with. Throws Error(invalid) for another kind of record.
FinishLayers layers_of(const Snapshot& archive, const AnalysisRequest& request, Services& services);

/// How colours were compared and shown, in sentences.
std::string method_words();

}  // namespace lathbook::finishes
