// Instants between bounds, and least distances between them: the body that dates are drawn from.
#pragma once

#include <cstdint>
#include <vector>

namespace lathbook::chances {

using Var = std::uint32_t;
using Tick = std::int64_t;

/// x[after] - x[before] >= gap.
struct Tie {
  Var before = 0;
  Var after = 0;
  Tick gap = 0;
};

/// Bounds must be tight: all lows together satisfy every tie, and so do all highs (shortest paths are such).
struct System {
  std::vector<Tick> low;
  std::vector<Tick> high;
  std::vector<Tie> ties;

  Var size() const { return static_cast<Var>(low.size()); }
};

/// Variables that move as one: x = value of the representative + offset.
struct Rigid {
  std::vector<Var> part;  ///< of every variable of the old system its variable in the new one
  std::vector<Tick> offset;
  System system;
};

/// Joins what cannot move apart (equalities, however long the way round), as a sampler that moves one at a
/// time could not move it. Ties that the bounds imply, and all but the strongest of one pair, are left out.
Rigid make_rigid(const System& system);

/// Takes variables out (the highest numbers stay put; `drop` is by variable) and keeps what their ties say of
/// the others: the shadow of the body, exactly. Gives false, and changes nothing, when that would take more
/// than `most` ties.
bool project(System& system, const std::vector<bool>& drop, std::size_t most);

/// Least that x[v] - x[from] can be, of every v, counting bounds and ties.
std::vector<Tick> least_after(const System& system, Var from);

}  // namespace lathbook::chances
