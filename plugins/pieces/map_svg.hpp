// A field drawn piece by piece, as seen from the room or mirrored for the back.
#pragma once

#include <ostream>
#include <string>

#include "core/analysis/piece_accounts.hpp"

namespace lathbook::pieces {

/// What the drawing tells of each piece beside its number.
enum class MapShows { number, state, condition, container };

struct MapOptions {
  MapShows shows = MapShows::state;
  bool back = false;  ///< seen from behind: columns run the other way, for work at the bench
  int scale = 0;      ///< 1 : scale on paper; 0 = the largest of 1:2, 1:5, 1:10, 1:20, 1:50 that fits 180 mm
};

/// Throws Error(invalid) for an element without a map, or whose pieces have no cells.
void write_map(const FieldAccount& field, const MapOptions& options, std::ostream& out);

}  // namespace lathbook::pieces
