// The network handed on to others: what is joined to the items shown, in plain values.
#pragma once

#include <unordered_set>

#include "core/analysis/timeline_network.hpp"
#include "plugins/timeline/claims.hpp"

namespace lathbook::timeline {

/// Instants of these records and everything linked to them, origin left out; of every record when the set is
/// empty. Claims above the level are left out.
TimelineNetwork network_of(const Claims& claims, const Solution& solution,
                           const std::unordered_set<Uuid>& records, std::uint8_t level);

}  // namespace lathbook::timeline
