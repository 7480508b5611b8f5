// From a timeline and its archive to a sequence.
#pragma once

#include "core/analysis/sequence.hpp"
#include "core/view/snapshot.hpp"

namespace lathbook::sequence {

/// The things the timeline shows, and those elsewhere that tie two of them. For a single element or finish
/// its neighbours at most `steps` relations away count as shown.
Sequence make_sequence(const Snapshot& archive, const Timeline& timeline, int steps);

}  // namespace lathbook::sequence
