// Which records a timeline is about, and which phases divide it.
#pragma once

#include <vector>

#include "plugins/timeline/phase_lines.hpp"

namespace lathbook::timeline {

struct Scope {
  RecordInfo record;                  ///< nil id for the whole archive
  std::vector<Uuid> items;            ///< elements and finishes
  std::vector<Uuid> perhaps;          ///< elements that may have been here or elsewhere; not among `items`
  std::vector<Uuid> pieces;           ///< pieces whose making bears on an item, or is said by itself
  std::vector<Uuid> places;           ///< the place, those within it and those it was made of; else empty
  bool is_room = false;               ///< a place with no other within it
  const PhaseLine* phases = nullptr;  ///< null when no phases are numbered for it
};

/// A room takes in the rooms it was split from or made of; finishes go with their elements. A piece, a
/// source, a campaign or a phase is taken by itself. Throws Error(not_found) for an unknown record and
/// Error(invalid) for one that has no dates.
Scope scope_of(const Snapshot& archive, const Facts& facts, const PhaseLines& lines, const Uuid& scope);

}  // namespace lathbook::timeline
