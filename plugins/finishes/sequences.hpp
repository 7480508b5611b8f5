// Reads the layers of elements from an archive: one sequence for each element and sample.
#pragma once

#include <vector>

#include "core/analysis/finish_layers.hpp"
#include "core/base/munsell.hpp"
#include "core/plugin/plugin.hpp"
#include "core/view/snapshot.hpp"
#include "plugins/finishes/align.hpp"

namespace lathbook::finishes {

/// A sequence with what the comparison needs beside the words.
struct ReadSequence {
  FinishSequence told;
  std::vector<std::size_t> compared;  ///< indices of told.coats that take part, from the substrate outward
  std::vector<ComparedCoat> coats;    ///< the same ones, as align() sees them
  bool top_lost = false;              ///< a stripped zone is its last layer
  bool examined = false;              ///< stripping was looked for and not found
  Confidence sure = Confidence::certain;  ///< of the weakest statement about a layer
  std::vector<Citation> citations;        ///< of what was said of the substrate
};

/// Sequences of these elements that have any layer, in the order given; within an element by sample. Each has
/// its refusal set as far as it shows by itself (none of those that need a neighbour).
std::vector<ReadSequence> read_sequences(const Snapshot& archive, const std::vector<Uuid>& elements,
                                         const AnalysisRequest& request);

/// "woodwork", "plaster", "metal" or "other", by the broad class of an element.
std::string family_of(const std::string& element_class);

}  // namespace lathbook::finishes
