// Gathers records into classes along the statements 'is the same record as'.
#include "plugins/timeline/duplicates.hpp"

#include <algorithm>

namespace lathbook::timeline {

Duplicates::Duplicates(const Claims& claims, const Solution& solution, std::uint8_t level) {
  const Facts& facts = claims.facts();
  for (const Fact& fact : facts.all()) {
    if (fact.rule() != "same-record" || fact.level > level || !fact.object) continue;
    if (solution.is_aside(claims.cause_of(fact), level)) continue;
    if (!facts.record(fact.subject()) || !facts.record(*fact.object)) continue;
    const auto class_of = [&](const Uuid& record) {
      const auto [at, is_new] = class_of_.try_emplace(record, classes_.size());
      if (is_new) classes_.push_back({record});
      return at->second;
    };
    const std::size_t one = class_of(fact.subject()), other = class_of(*fact.object);
    if (one == other) continue;
    for (const Uuid& record : classes_[other]) {
      classes_[one].push_back(record);
      class_of_[record] = one;
    }
    classes_[other].clear();
  }
  for (std::vector<Uuid>& one : classes_)
    std::sort(one.begin(), one.end(),
              [&](const Uuid& a, const Uuid& b) { return facts.record(a) < facts.record(b); });
}

std::vector<Uuid> Duplicates::all_of(const Uuid& record) const {
  const auto found = class_of_.find(record);
  return found == class_of_.end() ? std::vector<Uuid>{record} : classes_[found->second];
}

}  // namespace lathbook::timeline
