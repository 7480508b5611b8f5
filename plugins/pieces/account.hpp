// The books: every piece in one state, whole + broken + missing = laid, what does not fit named.
#pragma once

#include "core/analysis/piece_accounts.hpp"

namespace lathbook::pieces {

/// What is bought beside what is missing.
struct Buying {
  double rejects = 0;      ///< per cent of salvage that is turned down on looking at it
  std::size_t spares = 0;  ///< per field
};

/// Sorts the lines, counts them and names every mismatch: two pieces in a cell, cells without a piece,
/// pieces outside the map or in a gap, a container without the state, the state without a container,
/// fragments away from their piece, no state said.
void count(FieldAccount& field);

/// What to buy: a cell for each missing piece and each broken one. Call after count().
void order_missing(FieldAccount& field, const Buying& buying);

}  // namespace lathbook::pieces
