// Walking the reasons of bounds: chains of links, the claims behind them, loops made simple.
#pragma once

#include "plugins/timeline/network_state.hpp"

namespace lathbook::timeline {

/// Claims that cannot hold together, as found: a closed loop of links, or a choice without an alternative.
struct Core {
  std::vector<Link> loop;  ///< sums to less than zero; empty when `choice` is named
  std::uint32_t choice = kNone;
  std::vector<Cause> claims;     ///< ascending
  std::vector<Refuted> refuted;  ///< alternatives ruled out on the way
  bool minimal = true;
};

/// The links of a node's bound in the order of the constraints: origin to variable for latest, variable
/// to origin for earliest. Empty for the origin (`var` 0) and for a variable without a bound.
std::vector<Link> chain_of(const State& state, const Values& values, Var var, Side side);

/// Adds a claim, or the parts of a joint one.
void add_parts(const Network& network, Cause cause, std::vector<Cause>& claims);
/// Adds the claims that a link rests on, with those that ruled out the other alternatives of a choice.
void add_claims(const State& state, Link link, std::vector<Cause>& claims);
std::vector<Cause> claims_of(const State& state, const std::vector<Link>& links);
void sort_unique(std::vector<Cause>& claims);

/// The refutations that the links rely on, and those that these rely on, each once.
std::vector<Refuted> refuted_behind(const State& state, const std::vector<Link>& links);

Tick sum_of(const State& state, const std::vector<Link>& links);

/// A closed walk with a negative sum reduced to a simple loop with a negative sum.
std::vector<Link> simple_loop(const State& state, const std::vector<Link>& walk);

/// Ends of a link as a constraint.
Var from_of(const State& state, Link link);
Var to_of(const State& state, Link link);

}  // namespace lathbook::timeline
