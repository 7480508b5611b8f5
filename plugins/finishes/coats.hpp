// One layer as it was recorded: role, number, colour by eye or by instrument.
#pragma once

#include <optional>
#include <vector>

#include "core/analysis/finish_layers.hpp"
#include "core/plugin/plugin.hpp"
#include "core/view/snapshot.hpp"
#include "plugins/finishes/align.hpp"

namespace lathbook::finishes {

struct ReadCoat {
  FinishCoat told;
  std::optional<int> number;
  std::optional<ComparedCoat> seen;       ///< of a coat that takes part in the comparison
  std::vector<Uuid> samples;              ///< in which it was seen
  Confidence sure = Confidence::certain;  ///< of the weakest statement used
};

/// Nothing when the reading holds no such record.
std::optional<ReadCoat> read_coat(const Snapshot& archive, const Uuid& finish,
                                  const AnalysisRequest& request);

/// Finish coats, glazes and papers have a colour of their own; primers, undercoats and varnishes have not.
bool has_colour_of_its_own(const std::string& role);

/// Every other compared coat is at least so far away from a marker: 6 Godlove units, or 12 of CIEDE2000.
bool far_apart(const ComparedCoat& a, const ComparedCoat& b);

}  // namespace lathbook::finishes
