// Takes the network apart, projects and joins it.
#include "plugins/chances/instants.hpp"

#include <algorithm>
#include <numeric>

#include "core/base/error.hpp"

namespace lathbook::chances {

namespace {

constexpr Tick kFarAway = Tick{1} << 50;  // some 700,000 years
constexpr std::size_t kMostTies = 2'000'000;
constexpr std::size_t kMostOrdered = 40;

class Groups {
public:
  explicit Groups(std::size_t size) : above_(size) { std::iota(above_.begin(), above_.end(), Var{0}); }
  Var of(Var var) {
    while (above_[var] != var) var = above_[var] = above_[above_[var]];
    return var;
  }
  void join(Var a, Var b) { above_[of(a)] = of(b); }

private:
  std::vector<Var> above_;
};

}  // namespace

Instants::Instants(const TimelineNetwork& network) : network_(network) {
  for (const NetworkInstant& instant : network_.instants) {
    all_.low.push_back(std::max(instant.earliest, -kFarAway));
    all_.high.push_back(std::min(instant.latest, kFarAway));
  }
  for (const NetworkLink& link : network_.links) {
    if (link.before == 0 || link.after == 0 || link.claim == kByHorizon) continue;
    if (link.claim >= 0 && !network_.claims[static_cast<std::size_t>(link.claim)].kept) continue;
    all_.ties.push_back({link.before, link.after, link.gap});
  }
}

std::optional<std::size_t> Instants::begin(const Uuid& record, int placement) const {
  for (std::size_t at = 0; at < network_.instants.size(); ++at) {
    const NetworkInstant& instant = network_.instants[at];
    if (instant.kind == InstantKind::begins && instant.record == record && instant.placement == placement)
      return at;
  }
  return std::nullopt;
}

bool Instants::is_bounded(std::size_t instant) const {
  return network_.instants[instant].earliest_known && network_.instants[instant].latest_known;
}

// The making of a thing, and what only helps to say something, have no date of their own to be drawn: they
// would push the dates that are asked for.
bool Instants::is_event(std::size_t instant) const {
  switch (network_.instants[instant].kind) {
    case InstantKind::begins:
    case InstantKind::ends:
    case InstantKind::source:
    case InstantKind::works_begin:
    case InstantKind::works_end:
    case InstantKind::phase_opens:
      return true;
    default:
      return false;
  }
}

Tick Instants::least_after(std::size_t from, std::size_t to) const {
  return chances::least_after(all_, static_cast<Var>(from))[to];
}

void Instants::choose(const std::vector<std::size_t>& wanted) {
  const auto size = network_.instants.size();
  Groups joined(size);
  for (const Tie& tie : all_.ties) joined.join(tie.before, tie.after);
  std::vector<bool> is_near(size, false);
  for (const std::size_t at : wanted) is_near[joined.of(static_cast<Var>(at))] = true;

  System system = all_;
  std::vector<bool> drop(size, true);
  std::size_t near = 0;
  for (std::size_t at = 1; at < size; ++at) {
    if (!is_near[joined.of(static_cast<Var>(at))]) continue;
    ++near;
    drop[at] = !is_event(at) || !is_bounded(at);
  }
  system.ties.erase(std::remove_if(system.ties.begin(), system.ties.end(),
                                   [&](const Tie& tie) { return !is_near[joined.of(tie.before)]; }),
                    system.ties.end());
  if (!project(system, drop, kMostTies))
    fail(ErrorKind::unsupported,
         "these things hang together in too many ways to draw their dates; ask for a room, or for two of "
         "them");
  // What is dropped stands still and is tied to nothing.
  for (std::size_t at = 0; at < size; ++at)
    if (drop[at]) system.low[at] = system.high[at] = 0;

  // Once others are out, some may hang together no more.
  Groups left(size);
  for (const Tie& tie : system.ties)
    if (system.low[tie.after] - system.high[tie.before] < tie.gap) left.join(tie.before, tie.after);
  std::vector<bool> is_left(size, false);
  for (const std::size_t at : wanted) is_left[left.of(static_cast<Var>(at))] = true;
  drawn_ = 0;
  for (std::size_t at = 1; at < size; ++at) {
    if (!drop[at] && is_left[left.of(static_cast<Var>(at))]) {
      ++drawn_;
      continue;
    }
    system.low[at] = system.high[at];
  }
  left_out_ = near - drawn_;
  system.ties.erase(std::remove_if(system.ties.begin(), system.ties.end(),
                                   [&](const Tie& tie) {
                                     return !is_left[left.of(tie.before)] || !is_left[left.of(tie.after)];
                                   }),
                    system.ties.end());
  rigid_ = make_rigid(system);
}

std::optional<Instants::Orders> Instants::orders(std::size_t first, std::size_t second) const {
  const auto size = network_.instants.size();
  Groups joined(size);
  for (const Tie& tie : all_.ties) joined.join(tie.before, tie.after);
  const Var group = joined.of(static_cast<Var>(first));
  if (joined.of(static_cast<Var>(second)) != group) return std::nullopt;
  System system;
  system.low.assign(size, -kFarAway);
  system.high.assign(size, kFarAway);
  std::vector<bool> drop(size, false);
  for (std::size_t at = 0; at < size; ++at) drop[at] = network_.instants[at].kind != InstantKind::begins;
  for (const Tie& tie : all_.ties)
    if (joined.of(tie.before) == group) system.ties.push_back(tie);
  if (!project(system, drop, kMostTies)) return std::nullopt;
  const Rigid rigid = make_rigid(system);

  // Only order counts here: that one is at most so many years after another says nothing of it.
  std::vector<Before> pairs;
  Groups ordered(rigid.system.low.size());
  for (const Tie& tie : rigid.system.ties)
    if (tie.gap >= 0) ordered.join(tie.before, tie.after);
  const Var one = rigid.part[first], other = rigid.part[second];
  if (one == other || ordered.of(one) != ordered.of(other)) return std::nullopt;
  std::vector<std::uint32_t> number(rigid.system.low.size(), UINT32_MAX);
  std::uint32_t things = 0;
  for (Var var = 0; var < number.size(); ++var)
    if (ordered.of(var) == ordered.of(one)) number[var] = things++;
  if (things > kMostOrdered) return std::nullopt;
  for (const Tie& tie : rigid.system.ties)
    if (tie.gap >= 0 && number[tie.before] != UINT32_MAX)
      pairs.emplace_back(number[tie.before], number[tie.after]);
  const auto all = count_orders(things, pairs);
  pairs.emplace_back(number[one], number[other]);
  const auto with = count_orders(things, pairs);
  if (!all || !with || *all == 0) return std::nullopt;
  return Orders{*all, *with, things};
}

}  // namespace lathbook::chances
