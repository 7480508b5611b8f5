// What belongs to a place: everything that an export of one room or building holds.
#pragma once

#include <set>

#include "core/view/snapshot.hpp"

namespace lathbook::crm {

/// The place and those within it; elements and finishes in them; pieces, finds, marks, labels, samples,
/// examinations and events of these; the phases and works of the places. Throws Error(invalid) when the
/// record is no place of this reading.
std::set<Uuid> scope_of(const Snapshot& archive, const Uuid& place);

}  // namespace lathbook::crm
