// Bounds with their reasons: the engine's chains of constraints as chains of statements.
#pragma once

#include <vector>

#include "core/analysis/timeline.hpp"
#include "plugins/timeline/chains.hpp"
#include "plugins/timeline/reasons_words.hpp"

namespace lathbook::timeline {

class Reasons {
public:
  Reasons(const Claims& claims, const Words& words, const Solution& solution, std::uint8_t level)
      : claims_(claims),
        words_(words),
        solution_(solution),
        level_(level),
        chains_(claims.network(), solution, level) {}

  Bound bound(Var var, Side side) const;
  Span span(Var var) const;
  /// The leading fact of the last claim on a bound's chain; null when none.
  const Fact* last_fact(Var var, Side side) const;

private:
  struct Chain;
  void add_step(const Step& step, Chain& chain) const;
  void add_claim(Cause cause, const std::string& before, Chain& chain) const;
  void add_refuted(std::uint32_t choice, Chain& chain) const;

  const Claims& claims_;
  const Words& words_;
  const Solution& solution_;
  std::uint8_t level_;
  Chains chains_;
};

}  // namespace lathbook::timeline
