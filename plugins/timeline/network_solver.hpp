// The order of work: component by component, level by level, contradictions set aside until the rest holds.
#pragma once

#include "plugins/timeline/network_choices.hpp"
#include "plugins/timeline/network_cores.hpp"
#include "plugins/timeline/network_cycles.hpp"
#include "plugins/timeline/network_disputes.hpp"
#include "plugins/timeline/network_propagate.hpp"
#include "plugins/timeline/network_worlds.hpp"

namespace lathbook::timeline {

class Solver {
public:
  explicit Solver(State& state);

  /// Fills state.levels[1..max_level] and state.conflicts.
  void solve();
  /// The same after Graph::leave_out() for the components it returned: the others stay as they are.
  void solve_again(const std::vector<std::uint32_t>& components);
  /// The first contradiction among all claims of whatever level, not shrunk. False when there is none.
  bool first_core(Core& found);

private:
  void open(std::uint32_t component);
  void solve_component(std::uint32_t component);
  std::optional<Core> settle(std::uint32_t component, std::uint8_t level, CoreShrinker& shrinker,
                             std::vector<Core>& known);
  void go_back(std::uint32_t component, std::uint8_t from, std::uint8_t to, CoreShrinker& shrinker);
  std::vector<Core> find_cores(std::uint32_t component, std::uint8_t level);
  void find_cyclic(std::uint32_t component, std::uint8_t level, std::vector<Core>& cores);
  void propagate(std::uint32_t component, std::uint8_t level);
  void find_crossed(std::uint32_t component, std::vector<Core>& cores);
  Core core_from(const std::vector<Link>& walk) const;
  bool brings_news(std::uint32_t component, std::uint8_t level) const;
  void finish();
  void sort_conflicts();
  void forget(const std::vector<std::uint32_t>& components);
  void forget_conflicts(const std::vector<bool>& gone);
  void write(std::uint32_t component, std::uint8_t level);
  void copy_down(std::uint32_t component, std::uint8_t level);

  void remark_leaning(std::uint32_t component, std::uint8_t level, CoreShrinker& shrinker);
  void remark_wide(std::uint32_t component, std::uint8_t level);
  void lean_side(std::uint32_t component, std::uint8_t level, Side side,
                 const std::vector<CoreShrinker::Item>& items);
  bool is_unsettled(std::uint32_t choice, std::uint8_t level, const std::array<Window<char>, 2>& wide) const;
  bool spread_open(std::uint32_t component, std::uint8_t level, Side side, std::array<Window<char>, 2>& both);
  Tick offer_of(Var var, Side side) const;

  State& state_;
  std::array<Values, 2> values_;  // latest, earliest (as distance to the origin)
  bool valid_ = false;            // they hold for what is in force, or for less
  Potentials potentials_;
  Values trial_;
  Propagator propagator_;
  CycleFinder cycles_;
  ChoiceRules rules_;
  Worlds worlds_;
  std::size_t first_derived_ = 0;
  // Where the entries of this component start in the lists of the state, by level.
  struct Begin {
    std::size_t leans, gaps, conflicts, disputes;
  };
  std::array<Begin, 4> begin_{};
};

}  // namespace lathbook::timeline
