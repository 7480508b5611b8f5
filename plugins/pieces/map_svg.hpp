// A field drawn piece by piece, as seen from the room or mirrored for the back.
#pragma once

#include <ostream>
#include <string>
#include <vector>

#include "core/analysis/piece_accounts.hpp"

namespace lathbook::pieces {

/// What the drawing tells of each piece beside its number.
enum class MapShows { number, state, condition, container };

/// Rows or columns to draw, both ends counted; 0 = from the first, to the last.
struct Part {
  int first = 0;
  int last = 0;
  int count() const { return last - first + 1; }
  bool holds(int number) const { return first <= number && number <= last; }
};

struct MapOptions {
  MapShows shows = MapShows::state;
  bool back = false;  ///< seen from behind: columns run the other way, for work at the bench
  int scale = 0;      ///< 1 : scale on paper; 0 = the largest of 1:2 to 1:100 that fits 180 mm
  Part rows, columns;
  std::vector<std::string> stops;  ///< lines that say where work is stopped
};

/// What tells a piece from the others of its field: "14" for N-203.14 in N-203 and for H1-14 in H1; the whole
/// code where it does not begin with the element's.
std::string short_code(const std::string& code, const std::string& element);

/// Cells smaller than 5 mm on paper carry no numbers: one letter tells what is not as usual, the edges tell
/// rows and columns. Throws Error(invalid) for an element without a map, or whose pieces have no cells, and
/// for a part that the map does not have.
void write_map(const FieldAccount& field, const MapOptions& options, std::ostream& out);

}  // namespace lathbook::pieces
