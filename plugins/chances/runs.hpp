// Runs several chains and keeps what they drew of the quantities wanted.
#pragma once

#include <functional>
#include <vector>

#include "plugins/chances/diagnostics.hpp"
#include "plugins/chances/system.hpp"

namespace lathbook::chances {

struct Plan {
  int chains = 4;
  int thrown_away = 1000;  ///< sweeps of each chain before its first draw
  int draws = 4000;        ///< of each chain
  bool forests = false;    ///< a joint draw of a forest with every sweep
};

/// Plain sweeps first; forests when these did not mix.
inline constexpr Plan kPlain{4, 1000, 4000, false};
inline constexpr Plan kForests{4, 250, 1250, true};

/// A quantity mixed when its split R-hat is at most 1.01 and it has 400 effective draws or more (A. Vehtari
/// and others, 2021, as in diagnostics.hpp).
inline constexpr double kGreatestRHat = 1.01;
inline constexpr double kFewestDraws = 400;
bool has_mixed(const Draws& draws);

/// Draws of each of the variables, in their order. The chains start from all lows, all highs and between.
/// Equal input and seed give equal draws. Returns early, with nothing, when `stop` says so.
std::vector<Draws> run_chains(const System& system, const std::vector<Var>& wanted, const Plan& plan,
                              std::uint64_t seed, const std::function<bool()>& stop);

}  // namespace lathbook::chances
