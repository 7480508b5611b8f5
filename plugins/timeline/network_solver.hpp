// The order of work: component by component, level by level, contradictions set aside until the rest holds.
#pragma once

#include "plugins/timeline/network_choices.hpp"
#include "plugins/timeline/network_cores.hpp"
#include "plugins/timeline/network_cycles.hpp"
#include "plugins/timeline/network_propagate.hpp"

namespace lathbook::timeline {

class Solver {
public:
  explicit Solver(State& state);

  /// Fills state.levels[1..max_level] and state.conflicts.
  void solve();
  /// The first contradiction among all claims of whatever level, not shrunk. False when there is none.
  bool first_core(Core& found);

private:
  void open(std::uint32_t component);
  void solve_component(std::uint32_t component);
  void settle(std::uint32_t component, std::uint8_t level, CoreShrinker& shrinker);
  std::vector<Core> find_cores(std::uint32_t component, std::uint8_t level);
  void find_cyclic(std::uint32_t component, std::uint8_t level, std::vector<Core>& cores);
  void propagate(std::uint32_t component, std::uint8_t level);
  void find_crossed(std::uint32_t component, std::vector<Core>& cores);
  Core core_from(const std::vector<Link>& walk) const;
  void put_aside(Core core, std::uint8_t level, CoreShrinker& shrinker);
  bool brings_news(std::uint32_t component, std::uint8_t level) const;
  void write(std::uint32_t component, std::uint8_t level);
  void copy_down(std::uint32_t component, std::uint8_t level);

  void remark_leaning(std::uint32_t component, std::uint8_t level, CoreShrinker& shrinker);
  void remark_wide(std::uint32_t component, std::uint8_t level);
  void lean_side(std::uint32_t component, std::uint8_t level, Side side,
                 const std::vector<CoreShrinker::Item>& items);
  bool spread_open(std::uint32_t component, std::uint8_t level, Side side, Window<char>& wide);
  Tick offer_of(Var var, Side side) const;

  State& state_;
  std::array<Values, 2> values_;  // latest, earliest (as distance to the origin)
  bool valid_ = false;            // they hold for what is in force, or for less
  Potentials potentials_;
  Values trial_;
  Propagator propagator_;
  CycleFinder cycles_;
  ChoiceRules rules_;
  std::size_t first_derived_ = 0;
  std::vector<Cause> aside_here_;
  std::array<std::size_t, 4> lean_begin_{};
};

}  // namespace lathbook::timeline
