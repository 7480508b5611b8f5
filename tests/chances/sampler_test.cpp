// Draws against exact values. Of n instants spread evenly over a box, every order of them is as likely, so
// the exact shares are ratios of counts of linear extensions (R. Stanley, 'Two poset polytopes', Discrete and
// Computational Geometry 1, 1986, 9-23); means of the k-th of n in [0, T] are kT/(n+1).
#include <catch2/catch.hpp>

#include "tests/chances/systems.hpp"

using namespace lathbook;
using namespace lathbook::test;
using chances::Plan;

namespace {

constexpr Plan kQuick{4, 300, 2500, false};
constexpr Plan kQuickForests{4, 60, 500, true};

}  // namespace

TEST_CASE("one before another, a third free") {
  for (const Plan& plan : {kQuick, kQuickForests}) {
    const auto draws = draws_of(box(3, 1'000'000, {{0, 1, 1}}), plan);
    CHECK(mean_of(draws[0]) == Approx(1e6 / 3).epsilon(0.03));
    CHECK(mean_of(draws[1]) == Approx(2e6 / 3).epsilon(0.03));
    CHECK(mean_of(draws[2]) == Approx(1e6 / 2).epsilon(0.05));
    CHECK(share_before(draws[0], draws[2]) == Approx(2.0 / 3).margin(0.03));
    // Exact: the first has density 2(1 - x), so 95 in 100 lie below 1 - sqrt(0.05) = 0.7764.
    CHECK(chances::narrowest(draws[0], 0.95).high == Approx(776'400).epsilon(0.03));
    CHECK(chances::narrowest(draws[1], 0.95).low == Approx(223'600).epsilon(0.08));
    CHECK(chances::has_mixed(draws[0]) ==
          (plan.draws == kQuick.draws || chances::effective_draws(draws[0], true) >= 400));
  }
}

TEST_CASE("1800 to 1900 and 1850 to 1950") {
  // Exact: without a relation the first is the earlier with 1 - 50*50/2/10,000 = 0.875; with it the means are
  // 1845.238 and 1904.762 (the centroid of the square less its corner triangle).
  constexpr Tick year = 10'000;
  const auto free = draws_of(system_of({1800 * year, 1850 * year}, {1900 * year, 1950 * year}, {}), kQuick);
  CHECK(share_before(free[0], free[1]) == Approx(0.875).margin(0.015));
  const auto tied =
      draws_of(system_of({1800 * year, 1850 * year}, {1900 * year, 1950 * year}, {{0, 1, 0}}), kQuick);
  CHECK(mean_of(tied[0]) / year == Approx(1845.238).margin(1));
  CHECK(mean_of(tied[1]) / year == Approx(1904.762).margin(1));
}

TEST_CASE("an order in the shape of an N") {
  // a < c, b < c, b < d has 5 linear extensions; a before d in 4, a before b in 2, c before d in 2.
  for (const Plan& plan : {kQuick, kQuickForests}) {
    const auto draws = draws_of(box(4, 1'000'000, {{0, 2, 1}, {1, 2, 1}, {1, 3, 1}}), plan);
    CHECK(share_before(draws[0], draws[3]) == Approx(0.8).margin(0.03));
    CHECK(share_before(draws[0], draws[1]) == Approx(0.4).margin(0.04));
    CHECK(share_before(draws[2], draws[3]) == Approx(0.4).margin(0.04));
  }
}

TEST_CASE("sets of four under inclusion") {
  // 1,680,384 linear extensions (OEIS A046873); {1} before {2,3} in a share of 0.928816 of them.
  std::vector<Tie> ties;
  for (Var a = 0; a < 16; ++a)
    for (Var bit = 1; bit < 16; bit *= 2)
      if ((a & bit) == 0) ties.push_back({a, a | bit, 1});
  const auto draws = draws_of(box(16, 100'000'000, ties), kQuick);
  CHECK(share_before(draws[1], draws[6]) == Approx(0.9288).margin(0.015));
}

TEST_CASE("a chain of thirty") {
  std::vector<Tie> ties;
  for (Var at = 0; at + 1 < 30; ++at) ties.push_back({at, at + 1, 1});
  const auto draws = draws_of(box(30, 1'000'000, ties), kQuickForests);
  CHECK(mean_of(draws[0]) == Approx(32'258).epsilon(0.12));
  CHECK(mean_of(draws[15]) == Approx(516'129).epsilon(0.02));
}

TEST_CASE("a chain of a hundred: plain sweeps do not mix and say so, forests do") {
  // In whole units from 0 to 1000, equal ones allowed: the k-th has mean k * 1101 / 101 - k exactly, which is
  // 9.901 for the first and 504.95 for the 51st.
  std::vector<Tie> ties;
  for (Var at = 0; at + 1 < 100; ++at) ties.push_back({at, at + 1, 0});
  const System system = box(100, 1000, ties);
  const auto slow = draws_of(system, {4, 100, 600, false});
  CHECK(chances::split_r_hat(slow[50]) > 1.1);
  CHECK_FALSE(chances::has_mixed(slow[50]));
  const auto good = draws_of(system, {4, 40, 300, true});
  CHECK(chances::split_r_hat(good[50]) < 1.03);
  CHECK(mean_of(good[0]) == Approx(9.901).margin(0.8));
  CHECK(mean_of(good[50]) == Approx(504.95).margin(6));
}

TEST_CASE("windows on both sides: within so many years of one another") {
  // Exact: (x, y) evenly in [0,100]^2 with |x - y| <= 10: the strip has area 1900 of 10,000; the mean of x is
  // 50 by symmetry, and y - x is spread over [-10, 10] so that |y - x| <= 5 in (2*5*100 - 25)/1900 = 0.5132.
  const System system = box(2, 100'000, {{0, 1, -10'000}, {1, 0, -10'000}});
  for (const Plan& plan : {Plan{4, 500, 5000, false}, Plan{4, 100, 1500, true}}) {
    const auto draws = draws_of(system, plan);
    double near = 0, count = 0;
    for (std::size_t chain = 0; chain < draws[0].size(); ++chain)
      for (std::size_t at = 0; at < draws[0][chain].size(); ++at) {
        near += std::abs(draws[0][chain][at] - draws[1][chain][at]) <= 5000 ? 1 : 0;
        ++count;
      }
    CHECK(near / count == Approx(0.5132).margin(0.025));
    CHECK(mean_of(draws[0]) == Approx(50'000).epsilon(0.06));
  }
}

TEST_CASE("every draw satisfies every tie and bound") {
  std::mt19937 random(3);
  for (int round = 0; round < 40; ++round) {
    const Var size = 2 + static_cast<Var>(random() % 12);
    std::vector<Tie> ties;
    for (Var k = 0; k < 2 * size; ++k) {
      const Var a = static_cast<Var>(random() % size), b = static_cast<Var>(random() % size);
      if (a < b) ties.push_back({a, b, static_cast<Tick>(random() % 60) - 20});
      if (a > b) ties.push_back({a, b, -static_cast<Tick>(100 + random() % 200)});
    }
    const System system = box(size, 1000, ties);
    chances::Chain chain(system, 0.5, random());
    for (int sweep = 0; sweep < 30; ++sweep) {
      chain.sweep_forest();
      chain.sweep();
      for (Var var = 0; var < size; ++var) {
        REQUIRE(chain.state()[var] >= system.low[var]);
        REQUIRE(chain.state()[var] <= system.high[var]);
      }
      for (const Tie& tie : ties) REQUIRE(chain.state()[tie.after] - chain.state()[tie.before] >= tie.gap);
    }
  }
}

TEST_CASE("equal seeds draw equal figures") {
  const System system = box(3, 1'000'000, {{0, 1, 1}});
  CHECK(draws_of(system, {2, 10, 50, true}, 5) == draws_of(system, {2, 10, 50, true}, 5));
  CHECK(draws_of(system, {2, 10, 50, true}, 5) != draws_of(system, {2, 10, 50, true}, 6));
}

TEST_CASE("what cannot move apart is joined, however long the way round") {
  // 0 = 1 + 5; 2 <= 3 <= 4 <= 2; 5 free.
  const System system = box(6, 1000, {{0, 1, -5}, {1, 0, 5}, {2, 3, 0}, {3, 4, 0}, {4, 2, 0}});
  const chances::Rigid rigid = chances::make_rigid(system);
  CHECK(rigid.system.size() == 3);
  CHECK(rigid.part[0] == rigid.part[1]);
  CHECK(rigid.offset[0] - rigid.offset[1] == 5);
  CHECK(rigid.part[2] == rigid.part[4]);
  CHECK(rigid.system.ties.empty());
}

TEST_CASE("taking instants out keeps what they say of the others") {
  System system = box(4, 1000, {{0, 1, 3}, {1, 2, 4}, {1, 3, -2}});
  REQUIRE(chances::project(system, {false, true, false, false}, 100));
  REQUIRE(system.ties.size() == 2);
  CHECK((system.ties[0].before == 0 && system.ties[0].after == 2 && system.ties[0].gap == 7));
  CHECK((system.ties[1].before == 0 && system.ties[1].after == 3 && system.ties[1].gap == 1));
  CHECK(chances::least_after(system, 0)[2] == 7);
}
