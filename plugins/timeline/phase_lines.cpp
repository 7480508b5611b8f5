// Sorts the phases by place and number.
#include "plugins/timeline/phase_lines.hpp"

#include <algorithm>
#include <cstdlib>
#include <map>

namespace lathbook::timeline {

PhaseLines::PhaseLines(const Facts& facts) {
  std::map<Uuid, PhaseLine> by_place;
  for (const RecordInfo& record : facts.records()) {
    if (record.kind != Kind::phase) continue;
    const Fact* number = facts.best(record.id, "phase-number");
    const Fact* place = facts.best(record.id, "phase-of");
    if (!number || number->level == kNever || !place || !place->object) continue;
    PhaseLine& line = by_place[*place->object];
    line.place = *place->object;
    line.phases.push_back({record.id,
                           static_cast<int>(std::strtol(number->content().value.c_str(), nullptr, 10)),
                           facts.index_of(*number)});
  }
  for (auto& [place, line] : by_place) {
    std::stable_sort(line.phases.begin(), line.phases.end(),
                     [](const NumberedPhase& a, const NumberedPhase& b) { return a.number < b.number; });
  }
  for (const RecordInfo& record : facts.records()) {
    const auto found = by_place.find(record.id);
    if (found == by_place.end()) continue;
    lines_.push_back(std::move(found->second));
    by_place.erase(found);
  }
}

const PhaseLine* PhaseLines::of(const Uuid& place) const {
  for (const PhaseLine& line : lines_)
    if (line.place == place) return &line;
  return nullptr;
}

const NumberedPhase* PhaseLines::after(const Uuid& phase) const {
  for (const PhaseLine& line : lines_) {
    const auto& phases = line.phases;
    const auto here = std::find_if(phases.begin(), phases.end(),
                                   [&](const NumberedPhase& one) { return one.phase == phase; });
    if (here == phases.end()) continue;
    const auto next =
        std::find_if(here, phases.end(), [&](const NumberedPhase& one) { return one.number > here->number; });
    return next == phases.end() ? nullptr : &*next;
  }
  return nullptr;
}

}  // namespace lathbook::timeline
