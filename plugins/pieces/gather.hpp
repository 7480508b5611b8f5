// Reads the pieces of a scope in one pass: lines of elements, and what containers hold.
#pragma once

#include <map>
#include <vector>

#include "core/analysis/piece_accounts.hpp"
#include "core/plugin/plugin.hpp"

namespace lathbook::pieces {

/// The elements of the scope that have pieces or a piece map, by code, their lines filled and not yet
/// counted; and the containers that hold any of these pieces. Throws Error(invalid) for a scope that is
/// neither place nor element.
PieceAccounts gather(const Snapshot& archive, const Uuid& scope, Services& services);

}  // namespace lathbook::pieces
