// What stands at the head of every export: the state of the archive, its properties and its lists of words.
#pragma once

#include "plugins/crm/context.hpp"

namespace lathbook::crm {

/// Each property as an E55 (J32 points to it) and an rdf:Property, below the CIDOC CRM property that it
/// sharpens where there is one; and every word of every list that the registry has.
void write_vocabulary(Context& context);
/// The export itself: which state of the archive it was made from.
void write_state(Context& context, const Reading& reading);

}  // namespace lathbook::crm
