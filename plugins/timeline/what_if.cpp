// Leaves out the statements of a reason one by one, then all together.
#include "plugins/timeline/what_if.hpp"

#include <algorithm>

namespace lathbook::timeline {

// The network solved without some claims.
struct WhatIf::Answer {
  Answer(const Claims& claims, const Words& words, const Solution& before, const Options& options,
         std::uint8_t level)
      : solution(solve_again(before, options)), reasons(claims, words, solution, level) {}
  Solution solution;
  Reasons reasons;
};

WhatIf::WhatIf(const Claims& claims, const Words& words, const Solution& solution, const Options& options,
               std::uint8_t level)
    : claims_(claims), words_(words), solution_(solution), options_(options), level_(level) {
  for (std::uint32_t index = 0; index < claims.facts().all().size(); ++index)
    facts_.emplace(claims.facts().at(index).statement.id, index);
  for (Cause cause = 1; cause <= claims.size(); ++cause)
    for (const std::uint32_t fact : claims.at(cause).facts) causes_[fact].push_back(cause);
}

WhatIf::~WhatIf() = default;

std::vector<Cause> WhatIf::causes_of(const std::vector<Digest>& statements) const {
  std::vector<Cause> causes;
  for (const Digest& statement : statements) {
    const auto fact = facts_.find(statement);
    if (fact == facts_.end()) continue;
    const auto found = causes_.find(fact->second);
    if (found != causes_.end()) causes.insert(causes.end(), found->second.begin(), found->second.end());
  }
  std::sort(causes.begin(), causes.end());
  causes.erase(std::unique(causes.begin(), causes.end()), causes.end());
  return causes;
}

const WhatIf::Answer& WhatIf::without(std::vector<Cause> causes) {
  std::unique_ptr<Answer>& kept = answers_[causes];
  if (!kept) {
    Options options = options_;
    options.leave_out.insert(options.leave_out.end(), causes.begin(), causes.end());
    kept = std::make_unique<Answer>(claims_, words_, solution_, options, level_);
  }
  return *kept;
}

void WhatIf::fill(Bound& bound, Var var, Side side) {
  std::vector<Digest> statements;
  for (const ReasonStep& step : bound.reason)
    if (step.statement != Digest{}) statements.push_back(step.statement);
  if (statements.empty()) return;
  for (const Digest& statement : statements) {
    const Bound other = without(causes_of({statement})).reasons.bound(var, side);
    bound.lacking.push_back({statement, other.known, other.known ? other.day : 0});
  }
  const Bound other = without(causes_of(statements)).reasons.bound(var, side);
  Otherwise& otherwise = bound.otherwise.emplace();
  otherwise.known = other.known;
  if (!other.known) return;
  otherwise.day = other.day;
  otherwise.level = other.level;
  otherwise.reason = other.reason;
}

void WhatIf::fill(Span& span, Var var, const RecordInfo& record, Event event) {
  const auto fact_of = [&](const Digest& statement) -> const Fact* {
    const auto found = facts_.find(statement);
    return found == facts_.end() ? nullptr : &claims_.facts().at(found->second);
  };
  for (const Side side : {Side::earliest, Side::latest}) {
    Bound& bound = side == Side::earliest ? span.earliest : span.latest;
    if (!bound.known) continue;
    fill(bound, var, side);
    bound.words = bound_sentence(words_, record, event, side, bound, fact_of);
  }
}

}  // namespace lathbook::timeline
