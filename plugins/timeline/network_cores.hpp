// Contradictions made small: which claims are needed for one, found by leaving each out in turn.
#pragma once

#include "plugins/timeline/network_reasons.hpp"

namespace lathbook::timeline {

/// Works within one component; its tables are built when the first contradiction turns up.
class CoreShrinker {
public:
  CoreShrinker(State& state, std::uint32_t component) : state_(state), component_(component) {}

  /// A subset of the core's claims of which none can be spared, with a loop through them. Very long cores
  /// come back shortened as far as a limit of work allows, and not called minimal.
  Core shrink(Core core);
  /// Takes all constraints and choices of a claim, and of the joint claims it is part of, out of force.
  void set_aside(Cause claim, std::uint8_t level);
  /// The opposite. Conclusions of choices must be drawn anew.
  void put_back(Cause claim);
  /// All claims and joint claims out of force now, ascending.
  std::vector<Cause> aside() const;
  /// The constraints of a claim (not of the joint ones it is part of); one of a variable with itself has
  /// kNone as arc.
  struct Item {
    Cause cause;
    std::uint32_t arc;
    Link link;
  };
  std::vector<Item> items_of(Cause cause);

private:
  struct Incoming {
    Node to;
    Node from;
    std::uint32_t arc;
  };
  struct Part;
  void index();
  std::vector<std::uint32_t> choices_of(Cause cause);
  std::vector<Cause> trial_order(const std::vector<Cause>& claims) const;
  std::vector<Cause> speaking(const std::vector<Cause>& claims) const;
  void set_in_force(Cause cause, bool in_force);
  bool find_core(const std::vector<Cause>& claims, Core& found);
  void gather(const std::vector<Cause>& claims, Part& part);
  void bring_home(const Part& part, const State& inner, Core& core);
  Link home_link(const Part& part, const State& inner, Link link, std::vector<Link>& known);

  State& state_;
  std::uint32_t component_;
  std::vector<Cause> ever_aside_;  // with repeats
  bool indexed_ = false;
  std::vector<Item> items_;                               // by cause
  std::vector<std::pair<Cause, std::uint32_t>> choices_;  // by cause
  std::vector<Incoming> structure_;                       // by head
};

}  // namespace lathbook::timeline
