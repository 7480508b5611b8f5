// The tests of membership. All of them have the same form: some t with max(lower ends) <= t < min(upper ends)
// exists in some solution if and only if, for every lower end l and upper end u, u - l can be 1 tick or more.
// (Adding the edges u -> l of weight -1 makes a loop too tight only if one pair is: a loop through several of
// them is a sum of such pairs.)
#include "plugins/timeline/phases.hpp"

#include <algorithm>

namespace lathbook::timeline {

PhaseMembership::PhaseMembership(const Solution& solution, std::uint8_t level, std::vector<PhaseVars> phases,
                                 Day known)
    : solution_(solution), level_(level), vars_(std::move(phases)), known_(last_tick(known)) {
  const auto measured = [&](std::optional<Var> var) {
    if (!var) return Boundary{};
    return Boundary{*var, solution.distances_from(*var, level), solution.distances_to(*var, level)};
  };
  for (const PhaseVars& phase : vars_) {
    boundaries_.push_back(measured(phase.opens));
    works_begin_.push_back(measured(phase.works_begin));
    works_end_.push_back(measured(phase.works_end));
  }
}

// Of the last phase the end of the known day is the beginning of the next.
Tick PhaseMembership::before_next(Var instant, const Phase& phase) const {
  if (phase.next) return phase.next->to[instant];
  const Tick earliest = solution_.bounds(instant, level_).earliest;
  return earliest == -kUnbounded ? kUnbounded : known_ + 1 - earliest;
}

Tick PhaseMembership::after_next(Var instant, const Phase& phase) const {
  if (phase.next) return phase.next->from[instant];
  const Tick latest = solution_.bounds(instant, level_).latest;
  return latest == kUnbounded ? kUnbounded : latest - known_ - 1;
}

Membership PhaseMembership::happened(Var instant, const Phase& phase) const {
  const Boundary& start = *phase.start;
  if (start.from[instant] < 0 || before_next(instant, phase) < 1 || before_next(start.var, phase) < 1)
    return Membership::no;
  const bool certain = start.to[instant] <= 0 && after_next(instant, phase) <= -1;
  return certain ? Membership::certain : Membership::possible;
}

Membership PhaseMembership::present(const Standing& item, const Phase& phase) const {
  const Boundary& start = *phase.start;
  if (start.from[item.end] < 1 || before_next(item.begin, phase) < 1 || before_next(start.var, phase) < 1)
    return Membership::no;
  const bool certain = start.from[item.begin] <= 0 && before_next(item.end, phase) <= 0;
  return certain ? Membership::certain : Membership::possible;
}

// That a cover went away without anybody noting it is not reckoned with.
bool PhaseMembership::can_outlast(Var cover_end, Var item_end) const {
  if ((solution_.remarks(cover_end, level_) & kLatestNoEvidence) != 0) return false;
  return solution_.distance(cover_end, item_end, level_) >= 1;
}

// Surely to be seen for a day of the phase at least: from the later of its own and the phase's beginning
// until the first of its end, the phase's end and every covering. All pairs of a lower and an upper end are
// tried.
bool PhaseMembership::surely_seen(const Standing& item, const std::vector<Standing>& covers,
                                  const Phase& phase) const {
  const Boundary& start = *phase.start;
  const auto a_day_after_start = [&](Var later) { return start.to[later] <= -kTicksPerDay; };
  const Tick begun = solution_.bounds(item.begin, level_).latest;
  const auto a_day_after_begin = [&](Var later) {
    // The dates tell most, and the network need not be asked.
    return solution_.bounds(later, level_).earliest - kTicksPerDay >= begun ||
           solution_.distance(later, item.begin, level_) <= -kTicksPerDay;
  };
  if (after_next(item.begin, phase) > -kTicksPerDay || after_next(start.var, phase) > -kTicksPerDay)
    return false;
  if (!a_day_after_start(item.end) || !a_day_after_begin(item.end)) return false;
  return std::all_of(covers.begin(), covers.end(), [&](const Standing& cover) {
    // A cover that had gone before the phase began, or that comes after it, hides nothing in it.
    if (start.from[cover.end] <= 0) return true;
    if (before_next(cover.begin, phase) <= 0) return true;
    return a_day_after_start(cover.begin) && a_day_after_begin(cover.begin);
  });
}

Membership PhaseMembership::visible(const Standing& item, const std::vector<Standing>& covers,
                                    const Phase& phase, Membership present) const {
  if (present == Membership::no) return Membership::no;
  for (const Standing& cover : covers) {
    const bool before = phase.start->from[cover.begin] >= 1;
    const bool after = before_next(cover.end, phase) >= 1 && can_outlast(cover.end, item.end);
    if (!before && !after) return Membership::no;
  }
  return surely_seen(item, covers, phase) ? Membership::certain : Membership::possible;
}

// Only what is not itself surely put over another cover that is still there hides the item anew.
Membership PhaseMembership::covered(const std::vector<Standing>& covers, const Phase& phase) const {
  Membership most = Membership::no;
  for (const Standing& cover : covers) {
    const auto under_another = [&](const Standing& other) {
      return other.begin != cover.begin && solution_.distance(cover.begin, other.begin, level_) <= -1 &&
             solution_.distance(other.end, cover.begin, level_) <= 0;
    };
    if (std::any_of(covers.begin(), covers.end(), under_another)) continue;
    most = std::max(most, happened(cover.begin, phase));
  }
  return most;
}

bool PhaseMembership::is_piecemeal(Var begin, std::size_t phase) const {
  const Boundary& first = works_begin_[phase];
  const Boundary& last = works_end_[phase];
  const bool after = !last.to.empty() && last.to[begin] <= 0;
  const bool before = !first.from.empty() && first.from[begin] <= -1;
  return after || before;
}

std::vector<PhasePart> PhaseMembership::parts(const Standing& item,
                                              const std::vector<std::vector<Standing>>& views) const {
  std::vector<PhasePart> parts;
  for (std::size_t at = 0; at < boundaries_.size(); ++at) {
    const Phase phase{&boundaries_[at], at + 1 < boundaries_.size() ? &boundaries_[at + 1] : nullptr};
    PhasePart part;
    part.phase = at;
    part.installed = happened(item.begin, phase);
    part.removed = happened(item.end, phase);
    part.present = present(item, phase);
    for (const std::vector<Standing>& covers : views) {
      part.visible = std::max(part.visible, visible(item, covers, phase, part.present));
      if (part.present != Membership::no) part.covered = std::max(part.covered, covered(covers, phase));
    }
    if (part.installed != Membership::no && is_piecemeal(item.begin, at)) part.how = "piecemeal";
    const bool any =
        part.installed != Membership::no || part.removed != Membership::no || part.present != Membership::no;
    if (any) parts.push_back(std::move(part));
  }
  return parts;
}

}  // namespace lathbook::timeline
