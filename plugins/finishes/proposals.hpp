// What a comparison offers to enter: relations that the timeline reads, each with its grounds.
#pragma once

#include <vector>

#include "core/analysis/finish_layers.hpp"
#include "core/view/snapshot.hpp"
#include "plugins/finishes/sequences.hpp"

namespace lathbook::finishes {

/// For a concluded alignment: 'put in after the coat' and 'stood when there came the coat'. For every
/// alignment that is not refused: 'is the same coat as' for each pair of coloured coats that is one coat with
/// a probability of 0.9 or more, when two colours match at least. What the archive says already is not
/// offered again. Never certain.
std::vector<Draft> proposals_from(const Snapshot& archive, const std::vector<ReadSequence>& sequences,
                                  const FinishAlignment& alignment);

}  // namespace lathbook::finishes
