// What only licensed or specially qualified people may take, told at the step itself.
#pragma once

#include <string>

#include "core/view/snapshot.hpp"

namespace lathbook::takedown {

/// Warnings for the step that takes this element or anything of it, parted by "; "; empty when there are
/// none. Gas, live electricity, structure, chimney, lead and asbestos: by what was said of its own hazards,
/// by its class, by the services it belongs to, and by the words in which it is described. A hazard tested
/// clear still warns for gas and electricity, for a test holds for its day; for the others it does not.
/// Common practice, no source: local code decides.
std::string licensed_note(const Snapshot& archive, const RecordView& element);

}  // namespace lathbook::takedown
