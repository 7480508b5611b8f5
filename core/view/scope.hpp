// What belongs to a place: everything that an export of one room or building holds.
#pragma once

#include <set>
#include <vector>

#include "core/base/api.hpp"
#include "core/view/snapshot.hpp"

namespace lathbook {

/// The place and those within it; elements and finishes in them; pieces, finds, marks, labels, samples,
/// examinations and events of these; the phases and works of the places. Throws Error(invalid) when the
/// record is no place of this reading.
LATHBOOK_API std::set<Uuid> belongings_of(const Snapshot& archive, const Uuid& place);

/// The records themselves, what they are part or piece of, the places these stand in, and all round those:
/// what is said of any of these for safety holds for the records.
LATHBOOK_API std::set<Uuid> bearing_on(const Snapshot& archive, const std::vector<Uuid>& records);

/// The sources that current statements about these records cite or name as their value, as far as this
/// reading shows them; sources among the records themselves included.
LATHBOOK_API std::set<Uuid> sources_of(const Snapshot& archive, const std::set<Uuid>& records);

}  // namespace lathbook
