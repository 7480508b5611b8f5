// The temporal network against published worked examples, in whole units (one tick to the unit).
#include <algorithm>
#include <catch2/catch.hpp>

#include "core/base/error.hpp"
#include "plugins/timeline/network.hpp"

using namespace lathbook::timeline;

namespace {

// low <= x[to] - x[from] <= high as one claim.
void between(Network& network, Var from, Var to, Tick low, Tick high, Cause cause) {
  network.add_constraint({from, to, high, cause, kCertain});
  network.add_constraint({to, from, -low, cause, kCertain});
}

// R. Dechter, I. Meiri, J. Pearl, 'Temporal constraint networks', Artificial Intelligence 49, 1991,
// Example 1.1: x0 is 7:00, John leaves (x1) and arrives (x2), Fred leaves (x3) and arrives (x4), minutes.
Network commuting(bool john_by_car, bool fred_by_carpool) {
  Network network;
  network.add_variables(4);
  between(network, 0, 1, 10, 20, 1);
  if (john_by_car)
    between(network, 1, 2, 30, 40, 2);
  else
    network.add_constraint({2, 1, -60, 2, kCertain});
  between(network, 3, 2, 10, 20, 3);
  if (fred_by_carpool)
    between(network, 3, 4, 40, 50, 4);
  else
    between(network, 3, 4, 20, 30, 4);
  between(network, 0, 4, 60, 70, 5);
  return network;
}

}  // namespace

TEST_CASE("Dechter, Meiri and Pearl 1991, Example 1.1: the matrix of shortest distances") {
  const Network network = commuting(true, true);
  const Solution solution = solve(network);
  REQUIRE(solution.conflicts().empty());
  const Tick published[5][5] = {{0, 20, 50, 30, 70},
                                {-10, 0, 40, 20, 60},
                                {-40, -30, 0, -10, 30},
                                {-20, -10, 20, 0, 50},
                                {-60, -50, -20, -40, 0}};
  for (Var from = 0; from < 5; ++from) {
    const std::vector<Tick> row = solution.distances_from(from, kCertain);
    const std::vector<Tick> column = solution.distances_to(from, kCertain);
    for (Var to = 0; to < 5; ++to) {
      INFO("from x" << from << " to x" << to);
      CHECK(row[to] == published[from][to]);
      CHECK(column[to] == published[to][from]);
      CHECK(solution.distance(from, to, kCertain) == published[from][to]);
    }
  }
  CHECK(solution.bounds(1, kCertain) == Bounds{10, 20});
  CHECK(solution.bounds(2, kCertain) == Bounds{40, 50});
  CHECK(solution.bounds(3, kCertain) == Bounds{20, 30});
  CHECK(solution.bounds(4, kCertain) == Bounds{60, 70});
}

TEST_CASE("Dechter, Meiri and Pearl 1991, Example 1.1: the other three labellings") {
  SECTION("both by car") {
    const Network network = commuting(true, false);
    const Solution solution = solve(network);
    CHECK(solution.conflicts().empty());
    CHECK(solution.bounds(2, kCertain) == Bounds{40, 60});
    CHECK(solution.bounds(3, kCertain) == Bounds{30, 50});
    CHECK(solution.distance(2, 4, kCertain) == 20);
    CHECK(solution.distance(4, 2, kCertain) == 0);
  }
  SECTION("John by bus, Fred by car: one point") {
    const Network network = commuting(false, false);
    const Solution solution = solve(network);
    CHECK(solution.conflicts().empty());
    CHECK(solution.bounds(1, kCertain) == Bounds{10, 10});
    CHECK(solution.bounds(2, kCertain) == Bounds{70, 70});
    CHECK(solution.bounds(3, kCertain) == Bounds{50, 50});
    CHECK(solution.bounds(4, kCertain) == Bounds{70, 70});
  }
  SECTION("John by bus, Fred by carpool: impossible") {
    const Network network = commuting(false, true);
    const Solution solution = solve(network);
    REQUIRE(solution.conflicts().size() == 1);
    CHECK(solution.conflicts()[0].claims == std::vector<Cause>{1, 2, 3, 4, 5});
    // 10 + 60 - 20 + 40 is the earliest arrival of Fred, 90, against 70.
    CHECK(solution.conflicts()[0].clash == 20);
  }
}

TEST_CASE("Dechter, Meiri and Pearl 1991, Example 1.1: as choices the bounds hold the minimal network") {
  Network network;
  network.add_variables(4);
  between(network, 0, 1, 10, 20, 1);
  between(network, 3, 2, 10, 20, 3);
  between(network, 0, 4, 60, 70, 5);
  network.add_choice({{{{1, 2, 40}, {2, 1, -30}}, {{2, 1, -60}}}, 2, kCertain});
  network.add_choice({{{{3, 4, 30}, {4, 3, -20}}, {{3, 4, 50}, {4, 3, -40}}}, 4, kCertain});
  const Solution solution = solve(network);
  REQUIRE(solution.conflicts().empty());
  CHECK(solution.choice_state(0, kCertain) == ChoiceState::open);
  // The minimal network of the article's method: x2 in [40, 60] or at 70, x3 in [20, 50].
  CHECK(solution.bounds(2, kCertain) == Bounds{40, 70});
  CHECK(solution.spans(2, kCertain) == std::vector<Bounds>{{40, 60}, {70, 70}});
  CHECK(solution.bounds(3, kCertain) == Bounds{20, 50});
  CHECK(solution.bounds(1, kCertain) == Bounds{10, 20});
  CHECK(solution.bounds(4, kCertain) == Bounds{60, 70});
  CHECK((solution.remarks(2, kCertain) & (kEarliestWide | kLatestWide)) == 0);
  // By bus and carpool is impossible, which leaves three ways; the latest arrival, by way of x3, has a chain
  // for each, told once where two are the same.
  const std::vector<Step> reason = solution.reason(2, Side::latest, kCertain);
  const auto in_cases =
      std::find_if(reason.begin(), reason.end(), [](const Step& step) { return step.cases != kNone; });
  REQUIRE(in_cases != reason.end());
  const auto cases = solution.cases(in_cases->cases);
  CHECK(cases.size() >= 2);
  CHECK(cases.size() <= 3);
}

namespace {

struct Inequality {
  Var left;
  Var right;
  Tick bound;
};

// x[left] - x[right] <= bound, each its own claim, and every variable at most 0.
Network from_inequalities(Var variables, const std::vector<Inequality>& rows) {
  Network network;
  network.add_variables(variables);
  for (Var var = 1; var <= variables; ++var) network.add_latest(var, 0, kHorizon, 0);
  Cause cause = 0;
  for (const Inequality& row : rows)
    network.add_constraint({row.right, row.left, row.bound, ++cause, kCertain});
  return network;
}

std::vector<Tick> latest_of(const Network& network) {
  const Solution solution = solve(network);
  CHECK(solution.conflicts().empty());
  std::vector<Tick> latest;
  for (Var var = 1; var < network.variables(); ++var) latest.push_back(solution.bounds(var, kCertain).latest);
  return latest;
}

}  // namespace

// T. H. Cormen, C. E. Leiserson, R. L. Rivest, C. Stein, Introduction to Algorithms, 3rd edition 2009,
// section 24.4, the system of figure 24.8.
TEST_CASE("Cormen et al. 24.4: difference constraints") {
  const Network network = from_inequalities(
      5, {{1, 2, 0}, {1, 5, -1}, {2, 5, 1}, {3, 1, 5}, {4, 1, 4}, {4, 3, -1}, {5, 3, -3}, {5, 4, -3}});
  CHECK(latest_of(network) == std::vector<Tick>{-5, -3, 0, -1, -4});
}

TEST_CASE("Cormen et al., exercise 24.4-1") {
  const Network network = from_inequalities(6, {{1, 2, 1},
                                                {1, 4, -4},
                                                {2, 3, 2},
                                                {2, 5, 7},
                                                {2, 6, 5},
                                                {3, 6, 10},
                                                {4, 2, 2},
                                                {5, 1, -1},
                                                {5, 4, 3},
                                                {6, 3, -8}});
  CHECK(latest_of(network) == std::vector<Tick>{-5, -3, 0, -1, -6, -8});
}

TEST_CASE("Cormen et al., exercise 24.4-2: no solution, and the cycle that shows it") {
  const Network network = from_inequalities(5, {{1, 2, 4},
                                                {1, 5, 5},
                                                {2, 4, -6},
                                                {3, 2, 1},
                                                {4, 1, 3},
                                                {4, 3, 5},
                                                {4, 5, 10},
                                                {5, 3, -4},
                                                {5, 4, -8}});
  const Solution solution = solve(network);
  REQUIRE(solution.conflicts().size() == 1);
  const Conflict& conflict = solution.conflicts()[0];
  CHECK(conflict.clash == 1);
  CHECK(conflict.claims == std::vector<Cause>{2, 3, 4, 5, 8});
  REQUIRE(conflict.loop.size() == 5);
  Tick sum = 0;
  for (std::size_t at = 0; at < 5; ++at) {
    sum += conflict.loop[at].weight;
    CHECK(conflict.loop[at].to == conflict.loop[(at + 1) % 5].from);
  }
  CHECK(sum == -1);
}

TEST_CASE("a network refuses what it cannot carry, in a sentence") {
  Network network;
  const Var x = network.add_variable();
  CHECK_THROWS_AS(network.add_constraint({x, 7, 0, 1, kCertain}), lathbook::Error);
  CHECK_THROWS_AS(network.add_constraint({0, 0, 0, 1, kCertain}), lathbook::Error);
  CHECK_THROWS_AS(network.add_constraint({0, x, 0, kHorizon, kCertain}), lathbook::Error);
  CHECK_THROWS_AS(network.add_constraint({0, x, 0, 1, 0}), lathbook::Error);
  CHECK_THROWS_AS(network.add_latest(x, Tick{1} << 60, 1, kCertain), lathbook::Error);
  CHECK_THROWS_AS(network.add_choice({{}, 1, kCertain}), lathbook::Error);
  network.add_latest(x, 5, 1, kCertain);
  CHECK_THROWS_WITH(network.add_earliest(x, 5, 1, kPossible),
                    "Claim 1 is given two levels of confidence; make it two claims");
}

TEST_CASE("structure that contradicts itself is a fault of the program") {
  Network network;
  const Var x = network.add_variable();
  network.add_latest(x, 5, kHorizon, 0);
  network.add_earliest(x, 6, kHorizon, 0);
  CHECK_THROWS_AS(solve(network), std::logic_error);
}

TEST_CASE("an empty network, and a variable without bounds") {
  Network network;
  CHECK(solve(network).conflicts().empty());
  const Var x = network.add_variable();
  const Solution solution = solve(network);
  CHECK(solution.bounds(x, kCertain) == Bounds{-kUnbounded, kUnbounded});
  CHECK(solution.bounds(kOrigin, kCertain) == Bounds{0, 0});
  CHECK(solution.remarks(x, kPossible) == (kEarliestNoEvidence | kLatestNoEvidence));
  CHECK(solution.reason(x, Side::latest, kCertain).empty());
  CHECK(solution.distance(x, kOrigin, kCertain) == kUnbounded);
}
