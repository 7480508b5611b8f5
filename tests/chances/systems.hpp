// Small systems for tests: boxes with ties, bounds made tight, and what draws of them say.
#pragma once

#include <algorithm>
#include <functional>
#include <numeric>
#include <vector>

#include "plugins/chances/runs.hpp"
#include "plugins/chances/sampler.hpp"

namespace lathbook::test {

using chances::Draws;
using chances::System;
using chances::Tick;
using chances::Tie;
using chances::Var;

/// Instants from `low` to `high` each, with bounds tightened until they follow from the ties.
inline System system_of(std::vector<Tick> low, std::vector<Tick> high, std::vector<Tie> ties) {
  System system{std::move(low), std::move(high), std::move(ties)};
  for (bool changed = true; changed;) {
    changed = false;
    for (const Tie& tie : system.ties) {
      if (system.low[tie.after] < system.low[tie.before] + tie.gap) {
        system.low[tie.after] = system.low[tie.before] + tie.gap;
        changed = true;
      }
      if (system.high[tie.before] > system.high[tie.after] - tie.gap) {
        system.high[tie.before] = system.high[tie.after] - tie.gap;
        changed = true;
      }
    }
  }
  return system;
}

inline System box(std::size_t instants, Tick high, const std::vector<Tie>& ties) {
  return system_of(std::vector<Tick>(instants, 0), std::vector<Tick>(instants, high), ties);
}

inline std::vector<Draws> draws_of(const System& system, const chances::Plan& plan, std::uint64_t seed = 1) {
  std::vector<Var> all(system.size());
  std::iota(all.begin(), all.end(), Var{0});
  return chances::run_chains(system, all, plan, seed, [] { return false; });
}

inline double mean_of(const Draws& draws) {
  double sum = 0, count = 0;
  for (const auto& chain : draws)
    for (const double value : chain) {
      sum += value;
      ++count;
    }
  return sum / count;
}

/// Share of draws in which one lies below the other.
inline double share_before(const Draws& one, const Draws& other) {
  double before = 0, count = 0;
  for (std::size_t chain = 0; chain < one.size(); ++chain)
    for (std::size_t at = 0; at < one[chain].size(); ++at) {
      before += one[chain][at] < other[chain][at] ? 1 : 0;
      ++count;
    }
  return before / count;
}

}  // namespace lathbook::test
