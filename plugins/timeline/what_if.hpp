// Each link of a reason tried: what a bound would be without it, and what else gives the bound.
#pragma once

#include <map>
#include <memory>
#include <vector>

#include "plugins/timeline/reasons.hpp"
#include "plugins/timeline/sentences.hpp"

namespace lathbook::timeline {

/// Solves again, for every statement of a reason, what hangs together with it; for a few dates at a time.
class WhatIf {
public:
  /// `solution` is the one with these options.
  WhatIf(const Claims& claims, const Words& words, const Solution& solution, const Options& options,
         std::uint8_t level);
  ~WhatIf();

  /// Fills `words`, `lacking` and `otherwise` of both bounds; `event` says of what (sentences.hpp).
  void fill(Span& span, Var var, const RecordInfo& record, Event event);

private:
  struct Answer;
  void fill(Bound& bound, Var var, Side side);
  std::vector<Cause> causes_of(const std::vector<Digest>& statements) const;
  const Answer& without(std::vector<Cause> causes);

  const Claims& claims_;
  const Words& words_;
  const Solution& solution_;
  const Options& options_;
  std::uint8_t level_;
  std::map<Digest, std::uint32_t> facts_;
  std::map<std::uint32_t, std::vector<Cause>> causes_;
  std::map<std::vector<Cause>, std::unique_ptr<Answer>> answers_;
};

}  // namespace lathbook::timeline
