// Solving again with other claims left out: the same as solving anew, in everything that can be asked.
#include <catch2/catch.hpp>

#include "tests/timeline/brute_force.hpp"

using namespace brute;

namespace {

// Several small random systems side by side, with no claim in common.
Network side_by_side(unsigned seed, unsigned parts) {
  Network whole;
  Cause first_claim = 0;
  for (unsigned part = 0; part < parts; ++part) {
    Generator generator(seed * 100 + part);
    const Network one = generator.network({7, 40, 2, 1});
    const Var base = whole.add_variables(one.variables() - 1) - 1;
    const auto cause = [&](Cause claim) {
      return claim == kStructural || claim == kHorizon ? claim : claim + first_claim;
    };
    const auto moved = [&](Constraint constraint) {
      if (constraint.from != kOrigin) constraint.from += base;
      if (constraint.to != kOrigin) constraint.to += base;
      constraint.cause = cause(constraint.cause);
      return constraint;
    };
    for (Cause claim = 1; claim < one.causes(); ++claim) {
      if (const auto* of = one.parts_of(claim)) {
        std::vector<Cause> joint;
        for (const Cause each : *of) joint.push_back(cause(each));
        whole.join(cause(claim), joint);
      } else if (one.level_of(claim) != 0) {
        whole.declare(cause(claim), one.level_of(claim));
      }
    }
    for (const Constraint& constraint : one.constraints()) whole.add_constraint(moved(constraint));
    for (const auto& row : one.choices()) {
      Choice choice{{}, cause(row.cause), row.level};
      for (auto k = row.first_alternative; k < row.end_alternative; ++k) {
        auto& alternative = choice.alternatives.emplace_back();
        for (auto at = one.alternatives()[k].first_option; at < one.alternatives()[k].end_option; ++at) {
          Constraint option = one.options()[at];
          option.cause = row.cause;
          option.level = row.level;
          alternative.push_back(moved(option));
        }
      }
      whole.add_choice(choice);
    }
    for (const auto& group : one.groups()) {
      std::vector<Cause> members;
      for (const Cause claim : group.claims) members.push_back(cause(claim));
      whole.add_group(members, group.weight);
    }
    first_claim += one.causes();
  }
  return whole;
}

// A step without the place of its cases, which may differ.
std::vector<Step> plain(std::vector<Step> steps) {
  for (Step& step : steps) step.cases = step.cases == kNone ? kNone : 0;
  return steps;
}

void check_equal(const Network& network, const Solution& again, const Solution& anew) {
  for (std::uint8_t level = 1; level <= 3; ++level) {
    for (Var var = 1; var < network.variables(); ++var) {
      CHECK(again.bounds(var, level) == anew.bounds(var, level));
      CHECK(again.remarks(var, level) == anew.remarks(var, level));
      CHECK(again.spans(var, level) == anew.spans(var, level));
      for (const Side side : {Side::earliest, Side::latest}) {
        CHECK(plain(again.reason(var, side, level)) == plain(anew.reason(var, side, level)));
        CHECK(again.leans_on(var, side, level) == anew.leans_on(var, side, level));
      }
    }
    for (Cause claim = 1; claim < network.causes(); ++claim)
      CHECK(again.is_aside(claim, level) == anew.is_aside(claim, level));
    for (std::uint32_t choice = 0; choice < network.choices().size(); ++choice) {
      CHECK(again.choice_state(choice, level) == anew.choice_state(choice, level));
      CHECK(again.chosen(choice, level) == anew.chosen(choice, level));
      CHECK(again.is_exact(choice, level) == anew.is_exact(choice, level));
      CHECK(again.refuted(choice, level).size() == anew.refuted(choice, level).size());
    }
  }
  REQUIRE(again.conflicts().size() == anew.conflicts().size());
  for (std::size_t at = 0; at < again.conflicts().size(); ++at) {
    const Conflict &one = again.conflicts()[at], &other = anew.conflicts()[at];
    CHECK(one.claims == other.claims);
    CHECK(one.aside == other.aside);
    CHECK(one.level == other.level);
    CHECK(one.clash == other.clash);
    CHECK(one.dispute == other.dispute);
  }
  REQUIRE(again.disputes().size() == anew.disputes().size());
  for (std::size_t at = 0; at < again.disputes().size(); ++at) {
    const Dispute &one = again.disputes()[at], &other = anew.disputes()[at];
    CHECK(one.conflicts == other.conflicts);
    CHECK(one.answers == other.answers);
    CHECK(one.taken == other.taken);
  }
}

void run_cases(unsigned seed, unsigned cases) {
  seed = number_from("LATHBOOK_SEED", seed);
  cases = number_from("LATHBOOK_CASES", cases);
  WARN("seed " << seed << ", " << cases << " cases");
  unsigned with_conflict = 0;
  for (unsigned number = 0; number < cases; ++number) {
    INFO("seed " << seed + number << " (LATHBOOK_SEED repeats it)");
    const Network network = side_by_side(seed + number, 4);
    std::mt19937 random(seed + number);
    Options options;
    Solution solution = solve(network, options);
    with_conflict += solution.conflicts().size() > 1 ? 1 : 0;
    // A chain of edits, each on the answer to the one before.
    for (int edit = 0; edit < 4; ++edit) {
      options.leave_out.clear();
      for (int out = static_cast<int>(random() % 4); out > 0; --out)
        options.leave_out.push_back(1 + static_cast<Cause>(random() % (network.causes() - 1)));
      solution = solve_again(solution, options);
      check_equal(network, solution, solve(network, options));
    }
  }
  if (cases >= 100) CHECK(with_conflict > cases / 4);
}

}  // namespace

TEST_CASE("solving again what a left-out claim touches is the same as solving anew") {
  run_cases(20270101, 250);
}

TEST_CASE("solving again is the same as solving anew, 2,500 chains of edits", "[.long]") {
  run_cases(30270101, 2'500);
}

TEST_CASE("claims added one after another are solved as if all had been there from the start") {
  const unsigned seed = number_from("LATHBOOK_SEED", 40270101), cases = number_from("LATHBOOK_CASES", 60);
  WARN("seed " << seed << ", " << cases << " cases");
  for (unsigned number = 0; number < cases; ++number) {
    INFO("seed " << seed + number << " (LATHBOOK_SEED repeats it)");
    const Network network = side_by_side(seed + number, 3);
    std::mt19937 random(seed + number);
    Options options;
    for (Cause claim = 1; claim < network.causes(); ++claim) options.leave_out.push_back(claim);
    std::shuffle(options.leave_out.begin(), options.leave_out.end(), random);
    Solution solution = solve(network, options);
    CHECK(solution.conflicts().empty());
    while (!options.leave_out.empty()) {
      const std::size_t more = std::min<std::size_t>(options.leave_out.size(), 1 + random() % 3);
      options.leave_out.resize(options.leave_out.size() - more);
      solution = solve_again(solution, options);
      check_equal(network, solution, solve(network, options));
    }
    check_equal(network, solution, solve(network));
  }
}

TEST_CASE("other levels or another answer are solved anew") {
  const Network network = side_by_side(7, 2);
  Options options;
  const Solution first = solve(network, options);
  options.answer = 1;
  check_equal(network, solve_again(first, options), solve(network, options));
}
