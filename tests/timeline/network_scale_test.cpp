// The temporal network at sizes no house reaches: long chains, long cycles, many claims about one thing.
#include <algorithm>
#include <catch2/catch.hpp>
#include <numeric>
#include <random>

#include "plugins/timeline/network.hpp"

using namespace lathbook::timeline;

namespace {

std::vector<Var> shuffled(std::uint32_t count, unsigned seed) {
  std::vector<Var> order(count);
  std::iota(order.begin(), order.end(), 1U);
  std::shuffle(order.begin(), order.end(), std::mt19937(seed));
  return order;
}

}  // namespace

TEST_CASE("a chain of 1,000,000 relations, in shuffled order") {
  constexpr std::uint32_t count = 1'000'000;
  Network network;
  network.add_variables(count);
  for (const Var var : shuffled(count - 1, 1)) network.add_constraint({var + 1, var, -1, var, kCertain});
  network.add_earliest(1, 1000, count, kCertain);
  const Solution solution = solve(network);
  CHECK(solution.conflicts().empty());
  CHECK(solution.bounds(count, kCertain).earliest == 1000 + count - 1);
  CHECK(solution.bounds(count, kCertain).latest == kUnbounded);
  const std::vector<Step> reason = solution.reason(count, Side::earliest, kPossible);
  REQUIRE(reason.size() == count);
  CHECK(reason.front().cause == count);
  CHECK(reason.back().cause == count - 1);
}

TEST_CASE("a contradiction through 100,000 elements that cover one another in a ring") {
  constexpr std::uint32_t count = 100'000;
  Network network;
  network.add_variables(count);
  for (const Var var : shuffled(count, 2)) network.add_constraint({var % count + 1, var, -1, var, kCertain});
  const Solution solution = solve(network);
  REQUIRE(solution.conflicts().size() == 1);
  CHECK(solution.conflicts()[0].claims.size() == count);
  CHECK(solution.conflicts()[0].clash == count);
  CHECK(solution.conflicts()[0].loop.size() == count);
}

TEST_CASE("a chain of 100,000 closed by a longest duration, every variable within the horizon") {
  // Ordinary Bellman-Ford needs a pass for each link here.
  constexpr std::uint32_t count = 100'000;
  Network network;
  network.add_variables(count);
  for (const Var var : shuffled(count, 3)) {
    network.add_earliest(var, 0, kHorizon, 0);
    network.add_latest(var, 1'000'000, kHorizon, 0);
    if (var < count) network.add_constraint({var + 1, var, var % 2 == 0 ? 0 : -1, var, kCertain});
  }
  network.add_constraint({1, count, 2 * Tick{count}, count, kCertain});
  const Solution solution = solve(network);
  CHECK(solution.conflicts().empty());
  CHECK(solution.bounds(count, kCertain) == Bounds{count / 2, 1'000'000});
  CHECK(solution.bounds(1, kCertain) == Bounds{0, 1'000'000 - count / 2});
  CHECK(solution.distance(1, count, kCertain) == 2 * Tick{count});
  CHECK(solution.distance(count, 1, kCertain) == -Tick{count / 2});
}

TEST_CASE("a large random cyclic system built around a known solution") {
  constexpr std::uint32_t count = 20'000;
  std::mt19937 random(4);
  const auto pick = [&](Tick low, Tick high) {
    return std::uniform_int_distribution<Tick>(low, high)(random);
  };
  Network network;
  network.add_variables(count);
  std::vector<Tick> known(count + 1, 0);
  for (Var var = 1; var <= count; ++var) known[var] = pick(0, 100'000);
  for (Cause cause = 1; cause <= 5 * count; ++cause) {
    const auto from = static_cast<Var>(pick(1, count)), to = static_cast<Var>(pick(1, count));
    network.add_constraint({from, to, known[to] - known[from] + pick(0, 50), cause, kCertain});
  }
  network.add_latest(1, known[1] + 3, 5 * count + 1, kCertain);
  network.add_earliest(1, known[1] - 3, 5 * count + 2, kCertain);
  const Solution solution = solve(network);
  REQUIRE(solution.conflicts().empty());
  bool earliest_fits = true, latest_fits = true, known_fits = true;
  for (Var var = 1; var <= count; ++var) {
    const Bounds bounds = solution.bounds(var, kCertain);
    known_fits = known_fits && bounds.earliest <= known[var] && known[var] <= bounds.latest;
  }
  for (const Constraint& constraint : network.constraints()) {
    if (constraint.from == kOrigin || constraint.to == kOrigin) continue;
    const Bounds from = solution.bounds(constraint.from, kCertain),
                 to = solution.bounds(constraint.to, kCertain);
    if (to.earliest != -kUnbounded)
      earliest_fits = earliest_fits && to.earliest - from.earliest <= constraint.weight;
    if (from.latest != kUnbounded) latest_fits = latest_fits && to.latest - from.latest <= constraint.weight;
  }
  CHECK(known_fits);
  CHECK(earliest_fits);
  CHECK(latest_fits);

  // One relation two years too tight somewhere in the middle: found, and the rest stands.
  const Var from = 500, to = 7000;
  const Tick most = solution.distance(from, to, kCertain);
  REQUIRE(most != kUnbounded);
  network.add_constraint({to, from, -most - 2, 5 * count + 3, kProbable});
  const Solution again = solve(network);
  REQUIRE(again.conflicts().size() == 1);
  CHECK(again.conflicts()[0].clash == 2);
  CHECK(again.conflicts()[0].aside == std::vector<Cause>{5 * count + 3});
  CHECK(again.bounds(to, kPossible) == solution.bounds(to, kPossible));
}

TEST_CASE("1,000 claims about one element, half of them against the other half") {
  Network network;
  const Var x = network.add_variable();
  for (Cause cause = 1; cause <= 500; ++cause) {
    network.add_earliest(x, 1900 + cause, 2 * cause, kProbable);
    network.add_latest(x, 1900 - Tick{cause}, 2 * cause + 1, kProbable);
  }
  const Solution solution = solve(network);
  CHECK(solution.conflicts().size() == 500);
  CHECK(solution.bounds(x, kPossible) == Bounds{-kUnbounded, kUnbounded});
}

TEST_CASE("a wrong date in a long dated chain costs one contradiction, not a thousand") {
  constexpr std::uint32_t count = 50'000;
  Network network;
  network.add_variables(count);
  for (Var var = 1; var < count; ++var) network.add_constraint({var + 1, var, -1, var, kCertain});
  network.add_earliest(1, 0, count, kCertain);
  network.add_latest(count, 200'000, count + 1, kCertain);
  network.add_latest(count / 2, 10, count + 2, kPossible);
  const Solution solution = solve(network);
  REQUIRE(solution.conflicts().size() == 1);
  CHECK(solution.conflicts()[0].aside == std::vector<Cause>{count + 2});
  CHECK(solution.conflicts()[0].clash == count / 2 - 1 - 10);
  CHECK_FALSE(solution.conflicts()[0].minimal);
}
