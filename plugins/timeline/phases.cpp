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

Membership PhaseMembership::happened(Var instant, const Phase& phase) const {
  const Boundary& start = *phase.start;
  bool certain = start.to[instant] <= 0;
  bool possible = start.from[instant] >= 0;
  if (phase.next) {
    certain = certain && phase.next->from[instant] <= -1;
    possible = possible && phase.next->to[instant] >= 1 && start.from[phase.next->var] >= 1;
  } else {
    possible = possible && solution_.bounds(instant, level_).earliest <= known_;
    certain = certain && solution_.bounds(instant, level_).latest <= known_;
  }
  return certain ? Membership::certain : possible ? Membership::possible : Membership::no;
}

Membership PhaseMembership::present(const Standing& item, const Phase& phase) const {
  const Boundary& start = *phase.start;
  bool certain = start.from[item.begin] <= 0;
  bool possible = start.from[item.end] >= 1;
  if (phase.next) {
    certain = certain && phase.next->to[item.end] <= 0;
    possible = possible && phase.next->to[item.begin] >= 1 && start.from[phase.next->var] >= 1;
  } else {
    certain = certain && solution_.bounds(item.end, level_).earliest > known_;
  }
  return certain ? Membership::certain : possible ? Membership::possible : Membership::no;
}

bool PhaseMembership::can_outlast(Var cover_end, Var item_end) const {
  return solution_.distance(cover_end, item_end, level_) >= 1;
}

Membership PhaseMembership::visible(const Standing& item, const std::vector<Standing>& covers,
                                    const Phase& phase, Membership present) const {
  if (present == Membership::no) return Membership::no;
  bool certain = present == Membership::certain;
  for (const Standing& cover : covers) {
    const Boundary& start = *phase.start;
    const bool surely_later = phase.next && phase.next->to[cover.begin] <= 0;
    const bool surely_gone = start.from[cover.end] <= 0;
    certain = certain && (surely_later || surely_gone);
    const bool before = start.from[cover.begin] >= 1;
    const bool after = (!phase.next || phase.next->to[cover.end] >= 1) && can_outlast(cover.end, item.end);
    if (!before && !after) return Membership::no;
  }
  return certain ? Membership::certain : Membership::possible;
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
                                              const std::vector<Standing>& covers) const {
  std::vector<PhasePart> parts;
  for (std::size_t at = 0; at < boundaries_.size(); ++at) {
    const Phase phase{&boundaries_[at], at + 1 < boundaries_.size() ? &boundaries_[at + 1] : nullptr};
    PhasePart part;
    part.phase = at;
    part.installed = happened(item.begin, phase);
    part.removed = happened(item.end, phase);
    part.present = present(item, phase);
    part.visible = visible(item, covers, phase, part.present);
    if (part.present != Membership::no) part.covered = covered(covers, phase);
    if (part.installed != Membership::no && is_piecemeal(item.begin, at)) part.how = "piecemeal";
    const bool any =
        part.installed != Membership::no || part.removed != Membership::no || part.present != Membership::no;
    if (any) parts.push_back(std::move(part));
  }
  return parts;
}

}  // namespace lathbook::timeline
