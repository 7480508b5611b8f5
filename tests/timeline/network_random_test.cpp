// The temporal network against brute force over all whole-number assignments of small random systems.
#include <catch2/catch.hpp>
#include <cstdlib>
#include <functional>
#include <random>

#include "plugins/timeline/network.hpp"

using namespace lathbook::timeline;

namespace {

constexpr Tick kTop = 5;  // every variable lies in 0..kTop
constexpr Var kVars = 4;

// LATHBOOK_CASES and LATHBOOK_SEED widen or repeat a run.
unsigned number_from(const char* name, unsigned otherwise) {
  const char* text = std::getenv(name);
  return text != nullptr ? static_cast<unsigned>(std::strtoul(text, nullptr, 10)) : otherwise;
}

class Generator {
public:
  explicit Generator(unsigned seed) : random_(seed) {}
  Tick pick(Tick low, Tick high) { return std::uniform_int_distribution<Tick>(low, high)(random_); }
  Var var(Var low) { return static_cast<Var>(pick(low, kVars)); }
  Constraint constraint() {
    Constraint made;
    do {
      made.from = var(0);
      made.to = var(0);
    } while (made.from == 0 && made.to == 0);
    made.weight = made.from == 0 ? pick(0, kTop) : made.to == 0 ? -pick(0, kTop) : pick(-3, 3);
    return made;
  }
  // Each claim has one to three constraints; some claims are choices.
  Network network(unsigned claims, unsigned percent_choices) {
    Network made;
    made.add_variables(kVars);
    for (Var at = 1; at <= kVars; ++at) {
      made.add_latest(at, kTop, kHorizon, 0);
      made.add_earliest(at, 0, kHorizon, 0);
    }
    if (pick(0, 1) == 0) made.add_constraint({2, 1, -1, kStructural, 0});
    for (Cause cause = 1; cause <= claims; ++cause) {
      const auto level = static_cast<std::uint8_t>(pick(1, 3));
      if (static_cast<unsigned>(pick(1, 100)) <= percent_choices) {
        Choice choice{{}, cause, level};
        for (Tick k = pick(2, 3); k > 0; --k) {
          auto& alternative = choice.alternatives.emplace_back();
          for (Tick m = pick(1, 2); m > 0; --m) alternative.push_back(constraint());
        }
        made.add_choice(choice);
        continue;
      }
      for (Tick k = pick(1, 5) < 4 ? 1 : pick(2, 3); k > 0; --k) {
        Constraint one = constraint();
        one.cause = cause;
        one.level = level;
        made.add_constraint(one);
      }
    }
    return made;
  }

private:
  std::mt19937 random_;
};

using Point = std::vector<Tick>;

bool holds(const Constraint& constraint, const Point& x) {
  return x[constraint.to] - x[constraint.from] <= constraint.weight;
}

// Every assignment that satisfies structure, horizon and the claims for which `believed` is true.
std::vector<Point> solutions(const Network& network, const std::function<bool(Cause)>& believed) {
  std::vector<Point> found;
  Point x(kVars + 1, 0);
  const auto fits = [&] {
    for (const Constraint& constraint : network.constraints())
      if ((constraint.level == 0 || believed(constraint.cause)) && !holds(constraint, x)) return false;
    for (const auto& choice : network.choices()) {
      if (!believed(choice.cause)) continue;
      bool some = false;
      for (auto k = choice.first_alternative; k < choice.end_alternative && !some; ++k) {
        const auto& alternative = network.alternatives()[k];
        some = true;
        for (auto option = alternative.first_option; option < alternative.end_option; ++option)
          some = some && holds(network.options()[option], x);
      }
      if (!some) return false;
    }
    return true;
  };
  for (;;) {
    if (fits()) found.push_back(x);
    Var at = 1;
    while (at <= kVars && x[at] == kTop) x[at++] = 0;
    if (at > kVars) return found;
    ++x[at];
  }
}

void check_reason(const Solution& solution, Var var, Side side, std::uint8_t level) {
  const std::vector<Step> steps = solution.reason(var, side, level);
  REQUIRE_FALSE(steps.empty());
  Tick sum = 0;
  Var at = kOrigin;
  for (const Step& step : steps) {
    CHECK((side == Side::latest ? step.from : step.to) == at);
    at = side == Side::latest ? step.to : step.from;
    sum += step.weight;
    CHECK(step.level <= level);
    if (step.level != 0) CHECK_FALSE(solution.is_aside(step.cause, level));
  }
  CHECK(at == var);
  const Bounds bounds = solution.bounds(var, level);
  CHECK(sum == (side == Side::latest ? bounds.latest : -bounds.earliest));
}

void check_conflicts(const Network& network, const Solution& solution, bool choices) {
  for (const Conflict& conflict : solution.conflicts()) {
    const auto in_core = [&](Cause cause) {
      return std::find(conflict.claims.begin(), conflict.claims.end(), cause) != conflict.claims.end();
    };
    CHECK(solutions(network, in_core).empty());
    CHECK(conflict.clash > 0);
    CHECK_FALSE(conflict.aside.empty());
    for (const Cause cause : conflict.aside) {
      CHECK(network.level_of(cause) == conflict.level);
      CHECK(solution.is_aside(cause, conflict.level));
    }
    Tick sum = 0;
    for (std::size_t at = 0; at < conflict.loop.size(); ++at) {
      sum += conflict.loop[at].weight;
      CHECK(conflict.loop[at].to == conflict.loop[(at + 1) % conflict.loop.size()].from);
    }
    if (conflict.choice == kNone) CHECK(sum == -conflict.clash);
    if (choices) continue;
    for (const Cause spared : conflict.claims)
      CHECK_FALSE(solutions(network, [&](Cause cause) { return cause != spared && in_core(cause); }).empty());
  }
}

void check_distances(const Solution& solution, std::uint8_t level, const std::vector<Point>& all) {
  for (Var from = 0; from <= kVars; ++from) {
    const std::vector<Tick> row = solution.distances_from(from, level);
    const std::vector<Tick> column = solution.distances_to(from, level);
    for (Var to = 0; to <= kVars; ++to) {
      Tick most = -kTop, back = -kTop;
      for (const Point& x : all) {
        most = std::max(most, x[to] - x[from]);
        back = std::max(back, x[from] - x[to]);
      }
      CHECK(row[to] == most);
      CHECK(column[to] == back);
    }
  }
}

// Bounds of one level: exact without choices, sound with them, and exact where not marked as wide.
void check_level(const Network& network, const Solution& solution, std::uint8_t level, bool choices) {
  const auto believed = [&](Cause cause) {
    return network.level_of(cause) <= level && !solution.is_aside(cause, level);
  };
  const std::vector<Point> all = solutions(network, believed);
  if (!choices) REQUIRE_FALSE(all.empty());
  Point first(kVars + 1, 0), last(kVars + 1, 0);
  for (Var var = 1; var <= kVars; ++var) {
    const Bounds bounds = solution.bounds(var, level);
    first[var] = bounds.earliest;
    last[var] = bounds.latest;
    check_reason(solution, var, Side::latest, level);
    check_reason(solution, var, Side::earliest, level);
    if (level > 1) {
      const Bounds outer = solution.bounds(var, static_cast<std::uint8_t>(level - 1));
      CHECK(outer.earliest <= bounds.earliest);
      CHECK(bounds.latest <= outer.latest);
    }
    if (all.empty()) continue;
    Tick low = kTop, high = 0;
    for (const Point& x : all) {
      low = std::min(low, x[var]);
      high = std::max(high, x[var]);
    }
    CHECK(bounds.earliest <= low);
    CHECK(bounds.latest >= high);
    const std::uint8_t remarks = solution.remarks(var, level);
    if (!choices) CHECK((remarks & (kEarliestWide | kLatestWide)) == 0);
    if ((remarks & kEarliestWide) == 0) CHECK(bounds.earliest == low);
    if ((remarks & kLatestWide) == 0) CHECK(bounds.latest == high);
  }
  for (const Constraint& constraint : network.constraints()) {
    if (constraint.level != 0 && !believed(constraint.cause)) continue;
    CHECK(holds(constraint, first));
    CHECK(holds(constraint, last));
  }
  if (!choices) check_distances(solution, level, all);
}

void run_cases(unsigned percent_choices, unsigned seed) {
  const unsigned cases = number_from("LATHBOOK_CASES", 1000);
  seed = number_from("LATHBOOK_SEED", seed);
  WARN("seed " << seed << ", " << cases << " cases");
  unsigned with_conflict = 0;
  for (unsigned number = 0; number < cases; ++number) {
    INFO("seed " << seed + number << " (LATHBOOK_SEED repeats it)");
    Generator generator(seed + number);
    const auto claims = static_cast<unsigned>(generator.pick(1, 9));
    const Network network = generator.network(claims, percent_choices);
    const Solution solution = solve(network);
    with_conflict += solution.conflicts().empty() ? 0 : 1;
    check_conflicts(network, solution, percent_choices > 0);
    for (std::uint8_t level = 1; level <= 3; ++level)
      check_level(network, solution, level, percent_choices > 0);
  }
  // Both kinds must really have been tried.
  if (cases >= 100) {
    CHECK(with_conflict > cases / 10);
    CHECK(with_conflict < cases - cases / 10);
  }
}

}  // namespace

TEST_CASE("random systems agree with brute force in bounds, distances, levels and contradictions") {
  run_cases(0, 20260101);
}

TEST_CASE("random systems with choices: bounds hold every solution, and are exact where not called wide") {
  run_cases(40, 20260701);
}

TEST_CASE("leaving claims out gives the same as never having made them") {
  for (unsigned seed = 1; seed <= 200; ++seed) {
    INFO("seed " << seed);
    const Network whole = Generator(seed).network(8, 20);
    Network without;
    without.add_variables(kVars);
    for (const Constraint& constraint : whole.constraints())
      if (constraint.cause != 3) without.add_constraint(constraint);
    for (const auto& row : whole.choices()) {
      if (row.cause == 3) continue;
      Choice choice{{}, row.cause, row.level};
      for (auto k = row.first_alternative; k < row.end_alternative; ++k) {
        const auto& alternative = whole.alternatives()[k];
        choice.alternatives.emplace_back(whole.options().begin() + alternative.first_option,
                                         whole.options().begin() + alternative.end_option);
      }
      without.add_choice(choice);
    }
    Options options;
    options.leave_out = {3};
    const Solution left = solve(whole, options), right = solve(without);
    for (std::uint8_t level = 1; level <= 3; ++level)
      for (Var var = 1; var <= kVars; ++var) CHECK(left.bounds(var, level) == right.bounds(var, level));
  }
}
