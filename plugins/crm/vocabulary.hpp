// What goes with every export: the state of the archive, and the archive's own properties.
#pragma once

#include "plugins/crm/context.hpp"

namespace lathbook::crm {

/// Each property that was written as an E55 (J32 points to it) and an rdf:Property, below the CIDOC CRM
/// property that it sharpens where there is one. Comes last, when it is known what was written.
void write_vocabulary(Context& context);
/// The export itself: which state of the archive it was made from.
void write_state(Context& context, const Reading& reading);

}  // namespace lathbook::crm
