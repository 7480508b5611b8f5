// The chain of constraints to print for a bound: of those that give the same day, the one easiest to follow.
#pragma once

#include <vector>

#include "plugins/timeline/network.hpp"

namespace lathbook::timeline {

/// The engine's chain is exact to the tick, and a detour that makes a bound a tick tighter changes nothing
/// that is printed. So a plain chain (without 'or' rows) that ends on the same day is taken instead when its
/// statements are surer, or as sure and fewer.
class Chains {
public:
  /// Network and solution must outlive it.
  Chains(const Network& network, const Solution& solution, std::uint8_t level);

  /// From the dated end to the variable; empty when there is no bound.
  std::vector<Step> of(Var var, Side side) const;

private:
  struct Into {
    std::vector<std::uint32_t> begin;        ///< by variable, into `constraints`
    std::vector<std::uint32_t> constraints;  ///< that can give this bound of the variable
  };
  struct Search;
  Into index(Side side) const;
  std::vector<Step> plain(Var var, Side side, std::uint8_t most_level) const;
  void expand(Search& search, std::size_t at) const;

  const Network& network_;
  const Solution& solution_;
  std::uint8_t level_;
  Into into_[2];
};

}  // namespace lathbook::timeline
