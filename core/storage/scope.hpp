// Which statements belong to an older state of the archive, and who was current in it.
#pragma once

#include <optional>
#include <vector>

#include "core/base/calendar.hpp"
#include "core/base/digest.hpp"
#include "core/evidence/statement.hpp"
#include "core/storage/database.hpp"

namespace lathbook {

/// A state: its heads, and a temporary table `scope(id, current)` in the connection that reads it.
struct Scope {
  std::vector<Digest> heads;
};

/// The causal closure of this copy's chain up to and including the day (on the writers' wall clocks).
/// A copy that has never written falls back to by_entry_day().
Scope as_known_on(const Database& database, const std::optional<ChainId>& own, Day day);
/// Every statement entered by anyone on or before the day.
Scope by_entry_day(const Database& database, Day day);
/// The state with this fingerprint; throws Error(not_found) when the archive never was in it.
Scope by_fingerprint(const Database& database, const Digest& fingerprint);

/// The heads of the state with this fingerprint, when it can be told.
std::optional<std::vector<Digest>> heads_of(const Database& database, const Digest& fingerprint);

}  // namespace lathbook
