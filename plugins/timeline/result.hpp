// The whole way: from an archive to its Timeline.
#pragma once

#include "core/analysis/timeline.hpp"
#include "core/plugin/plugin.hpp"

namespace lathbook::timeline {

/// The network is always that of the whole archive, so that evidence from next door counts; the scope only
/// picks what is shown. The same archive and request always give the same result.
Timeline make_timeline(const Snapshot& archive, const AnalysisRequest& request, Services& services);

}  // namespace lathbook::timeline
