// Longest ways from and to the openings of phases, by a queue.
#include "plugins/sequence/phase_reach.hpp"

#include <algorithm>
#include <deque>

namespace lathbook::sequence {

PhaseReach::PhaseReach(const Timeline& timeline) {
  const TimelineNetwork& network = timeline.network;
  for (const TimelinePhase& phase : timeline.phases)
    for (std::uint32_t at = 0; at < network.instants.size(); ++at) {
      if (network.instants[at].kind != InstantKind::phase_opens ||
          network.instants[at].record != phase.record.id)
        continue;
      after_.push_back(least(network, at, true));
      before_.push_back(least(network, at, false));
    }
  if (after_.size() != timeline.phases.size()) after_.clear();  // phases that nothing is joined to
}

// Bounds are links with the origin, so two instants are always that far apart at least.
std::vector<std::int64_t> PhaseReach::least(const TimelineNetwork& network, std::uint32_t from,
                                            bool forward) const {
  std::vector<std::vector<std::pair<std::uint32_t, std::int64_t>>> next(network.instants.size());
  for (const NetworkLink& link : network.links) {
    if (link.claim >= 0 && !network.claims[static_cast<std::size_t>(link.claim)].kept) continue;
    next[forward ? link.before : link.after].emplace_back(forward ? link.after : link.before, link.gap);
  }
  const NetworkInstant& start = network.instants[from];
  std::vector<std::int64_t> found(network.instants.size());
  std::vector<bool> waits(network.instants.size(), true);
  std::deque<std::uint32_t> queue;
  static constexpr std::int64_t kFar = std::int64_t{1} << 60;
  const auto near = [](std::int64_t tick) { return std::max(std::min(tick, kFar), -kFar); };
  for (std::uint32_t at = 0; at < found.size(); ++at) {
    const NetworkInstant& instant = network.instants[at];
    found[at] =
        forward ? near(instant.earliest) - near(start.latest) : near(start.earliest) - near(instant.latest);
    if (at == from) found[at] = 0;
    queue.push_back(at);
  }
  while (!queue.empty()) {
    const std::uint32_t at = queue.front();
    queue.pop_front();
    waits[at] = false;
    for (const auto& [to, gap] : next[at]) {
      if (found[at] + gap <= found[to]) continue;
      found[to] = found[at] + gap;
      if (!waits[to]) queue.push_back(to);
      waits[to] = true;
    }
  }
  return found;
}

std::optional<std::pair<std::size_t, std::size_t>> PhaseReach::of(std::uint32_t instant) const {
  std::optional<std::pair<std::size_t, std::size_t>> range;
  for (std::size_t phase = 0; phase < after_.size(); ++phase) {
    const bool can_be_after = before_[phase][instant] <= 0;
    const bool can_be_before_next = phase + 1 == after_.size() || after_[phase + 1][instant] <= -1;
    if (!can_be_after || !can_be_before_next) continue;
    if (!range) range.emplace(phase, phase);
    range->second = phase;
  }
  return range;
}

}  // namespace lathbook::sequence
