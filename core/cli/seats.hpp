// In which cell of its field a piece is laid when it goes back.
#pragma once

#include <map>
#include <string>
#include <utility>
#include <vector>

#include "core/view/snapshot.hpp"
#include "core/view/views.hpp"

namespace lathbook::cli {

struct Seat {
  std::pair<int, int> cell;  ///< row from the bottom, column from the left
  bool to_enter = false;     ///< it must be said: not its own, or it sat in another before
  std::string warning;  ///< without a full stop; empty when it goes where it came from, or where it was to go
};

/// "row 2, column 4".
std::string cell_words(const std::pair<int, int>& cell);

/// Where each piece is laid: in the cell typed ("ROW,COLUMN", of one piece only), else where it is to go,
/// else where it came from; nothing for a piece that has no cell. Throws Error(invalid) in one sentence for a
/// cell that is no cell of the map, and for one that another piece in place takes.
std::map<Uuid, Seat> seats_for(const Snapshot& archive, const std::vector<PieceView>& pieces,
                               const std::string& typed);

}  // namespace lathbook::cli
