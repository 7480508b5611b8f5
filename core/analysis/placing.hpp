// The typed result of allocating surviving pieces to the cells of their field.
#pragma once

#include <cstddef>
#include <string>
#include <vector>

#include "core/analysis/draft.hpp"
#include "core/evidence/reader.hpp"

namespace lathbook {

/// A surviving piece that would serve better in another cell than its own.
struct PlacedPiece {
  RecordInfo piece;
  int from_row = 0, from_column = 0;
  int row = 0, column = 0;
  int soundness = 0;               ///< 1 damaged to 4 sound
  int from_view = 0, in_view = 0;  ///< prominence of the two cells, 0 hidden to 100
};

/// A piece that goes back to its own cell whatever that cell is worth, and why, without a full stop.
struct KeptPiece {
  RecordInfo piece;
  std::string why;
};

struct FieldPlacing {
  RecordInfo element;
  std::size_t survivors = 0;       ///< pieces out of their bed that can be laid again
  std::size_t cells = 0;           ///< empty cells they can be laid in
  std::vector<PlacedPiece> moves;  ///< by row from the top, column; empty when each is best where it was
  std::vector<KeptPiece> kept;
  double before = 0;  ///< soundness times prominence, summed, when each goes back to its own cell
  double after = 0;   ///< the same for the proposal: the greatest sum there is
};

struct Placing {
  RecordInfo scope;
  Reading reading;
  std::vector<FieldPlacing> fields;
  std::vector<Draft> proposals;  ///< goes-to, one for each move
};

}  // namespace lathbook
