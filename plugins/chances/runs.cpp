// One chain after another, each from a corner of its own.
#include "plugins/chances/runs.hpp"

#include "plugins/chances/sampler.hpp"

namespace lathbook::chances {

bool has_mixed(const Draws& draws) {
  return split_r_hat(draws) <= kGreatestRHat && effective_draws(draws, true) >= kFewestDraws;
}

std::vector<Draws> run_chains(const System& system, const std::vector<Var>& wanted, const Plan& plan,
                              std::uint64_t seed, const std::function<bool()>& stop) {
  std::vector<Draws> found(wanted.size(), Draws(static_cast<std::size_t>(plan.chains)));
  for (int number = 0; number < plan.chains; ++number) {
    // 0, 1, 1/2, 1/4, 3/4 ... of the way from one corner to the other.
    constexpr double shares[] = {0, 1, 0.5, 0.25, 0.75, 0.125, 0.875};
    Chain chain(system, shares[number % 7], seed + static_cast<std::uint64_t>(number) * 0x9e3779b97f4a7c15);
    for (Draws& draws : found)
      draws[static_cast<std::size_t>(number)].reserve(static_cast<std::size_t>(plan.draws));
    for (int sweep = -plan.thrown_away; sweep < plan.draws; ++sweep) {
      if (stop()) return {};
      if (plan.forests) chain.sweep_forest();
      chain.sweep();
      if (sweep < 0) continue;
      for (std::size_t at = 0; at < wanted.size(); ++at)
        found[at][static_cast<std::size_t>(number)].push_back(static_cast<double>(chain.state()[wanted[at]]));
    }
  }
  return found;
}

}  // namespace lathbook::chances
