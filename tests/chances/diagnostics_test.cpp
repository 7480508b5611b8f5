// R-hat and effective draws on chains whose truth is known.
#include "plugins/chances/diagnostics.hpp"

#include <catch2/catch.hpp>
#include <cmath>

#include "plugins/chances/dice.hpp"

using namespace lathbook::chances;

namespace {

double normal(Dice& dice) {
  const double u = dice.part() + 1e-12, v = dice.part();
  return std::sqrt(-2 * std::log(u)) * std::cos(6.283185307179586 * v);
}

// x' = rho x + noise, begun from its own spread.
Draws autoregressive(double rho, std::size_t chains, std::size_t length, std::uint64_t seed) {
  Dice dice(seed);
  Draws draws(chains);
  for (auto& chain : draws) {
    double x = normal(dice);
    for (std::size_t at = 0; at < length; ++at) {
      x = rho * x + std::sqrt(1 - rho * rho) * normal(dice);
      chain.push_back(x);
    }
  }
  return draws;
}

}  // namespace

TEST_CASE("independent draws count in full; slow ones as the theory says") {
  const Draws free = autoregressive(0, 4, 2000, 1);
  CHECK(split_r_hat(free) < 1.005);
  CHECK(effective_draws(free, true) == Approx(8000).epsilon(0.1));
  // Exact for a first-order chain: N (1 - rho) / (1 + rho).
  const Draws slow = autoregressive(0.9, 4, 4000, 2);
  CHECK(effective_draws(slow, true) == Approx(16000 * 0.1 / 1.9).epsilon(0.25));
  CHECK(effective_draws(slow, false) == Approx(16000 * 0.1 / 1.9).epsilon(0.25));
}

TEST_CASE("chains in different places, of different width, or drifting are found out") {
  Draws apart = autoregressive(0, 4, 1000, 3);
  for (double& value : apart[3]) value += 1;
  CHECK(split_r_hat(apart) > 1.05);
  Draws wide = autoregressive(0, 4, 1000, 4);
  for (double& value : wide[0]) value *= 3;
  CHECK(split_r_hat(wide) > 1.05);
  Draws drifting = autoregressive(0, 4, 1000, 5);
  for (auto& chain : drifting)
    for (std::size_t at = 0; at < chain.size(); ++at) chain[at] += static_cast<double>(at) / 400;
  CHECK(split_r_hat(drifting) > 1.05);
}

TEST_CASE("what does not vary has no error; draws far apart are no agreement") {
  CHECK(split_r_hat({{1, 1, 1, 1, 1, 1, 1, 1}, {1, 1, 1, 1, 1, 1, 1, 1}}) == 1);
  CHECK(effective_draws({{1, 1, 1, 1, 1, 1, 1, 1}, {1, 1, 1, 1, 1, 1, 1, 1}}, false) == 0);
  CHECK(split_r_hat({{1, 1, 1, 1, 1, 1, 1, 1}, {2, 2, 2, 2, 2, 2, 2, 2}}) > 10);
}

TEST_CASE("the narrowest stretch of even draws on a slope leans to its thick end") {
  Draws draws(1);
  for (int at = 0; at < 1000; ++at) draws[0].push_back(std::sqrt((at + 0.5) / 1000));  // density 2x on [0, 1]
  const Stretch found = narrowest(draws, 0.95);
  CHECK(found.low == Approx(std::sqrt(0.05)).margin(0.002));
  CHECK(found.high > 0.999);
  CHECK(quantile(draws, 0.5) == Approx(std::sqrt(0.5)).margin(0.002));
}

TEST_CASE("dice are fair and the same everywhere") {
  Dice dice(42);
  std::vector<int> counts(6, 0);
  for (int at = 0; at < 60'000; ++at) ++counts[dice.below(6)];
  double chi = 0;
  for (const int count : counts) chi += (count - 10'000.0) * (count - 10'000.0) / 10'000;
  CHECK(chi < 20.5);  // 5 degrees of freedom: one in a thousand lies above
  // The 10,000th number of std::mt19937_64 by default is 9981545732273789042 (ISO C++, [rand.predef]).
  Dice standard(5489);
  std::uint64_t last = 0;
  for (int at = 0; at < 10'000; ++at) last = standard.below(UINT64_MAX);
  CHECK(last == 9981545732273789042ULL);
}
