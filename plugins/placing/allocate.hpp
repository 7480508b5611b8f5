// Which surviving piece in which cell.
#pragma once

#include "core/analysis/piece_accounts.hpp"
#include "core/analysis/placing.hpp"

namespace lathbook::placing {

/// How sound a piece looks: 1 damaged, 2 chipped or bare of glaze, 3 not said, 4 sound; 0 for one that
/// cannot be laid (broken, in fragments, incomplete).
int soundness(const PieceLine& line);

/// How much a cell is in view where nobody said (prominence): its nearness to the middle of the field, 0 to
/// 100 (our own rule).
int nearness(const FieldAccount& field, int row, int column);

/// The assignment with the greatest sum of soundness times view (linear assignment: H. W. Kuhn, 'The
/// Hungarian method for the assignment problem', Naval Research Logistics Quarterly 2, 1955, 83-97; pieces
/// alike and cells alike are taken together), and among those the one that moves fewest pieces; ties by code,
/// row from the top and column. Forbidden: to move what is in place or kept as evidence; to lay a piece of
/// another size than the cell's own; to move one that keeps its cell or that was given one already.
FieldPlacing allocate(const FieldAccount& field);

}  // namespace lathbook::placing
