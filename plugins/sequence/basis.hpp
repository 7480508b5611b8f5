// On whose word a relation stands.
#pragma once

#include <string>

#include "core/analysis/sequence.hpp"
#include "core/view/snapshot.hpp"

namespace lathbook::sequence {

/// "3fa9c2d1-12: S-47 Bench notebook, p. 31; certain": every statement with its citations and its confidence.
std::string basis_of(const Snapshot& archive, const SequenceRelation& relation);

}  // namespace lathbook::sequence
