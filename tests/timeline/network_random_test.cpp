// The temporal network against brute force over all whole-number assignments of small random systems: bounds,
// reasons, distances, nesting, minimal contradictions, best ways out with all ties, cases of choices.
#include <catch2/catch.hpp>
#include <map>

#include "tests/timeline/brute_force.hpp"

using namespace brute;

namespace {

void check_reason(const Solution& solution, Var var, Side side, std::uint8_t level) {
  const std::vector<Step> steps = solution.reason(var, side, level);
  REQUIRE_FALSE(steps.empty());
  Tick sum = 0;
  Var at = kOrigin;
  bool linked = true, believed = true;
  for (const Step& step : steps) {
    linked = linked && (side == Side::latest ? step.from : step.to) == at;
    at = side == Side::latest ? step.to : step.from;
    sum += step.weight;
    believed = believed && step.level <= level && (step.level == 0 || !solution.is_aside(step.cause, level));
  }
  CHECK(linked);
  CHECK(believed);
  CHECK(at == var);
  const Bounds bounds = solution.bounds(var, level);
  CHECK(sum == (side == Side::latest ? bounds.latest : -bounds.earliest));
}

Mask mask_of(const std::vector<Cause>& claims) {
  Mask mask = 0;
  for (const Cause claim : claims) mask |= bit(claim);
  return mask;
}

void check_conflicts(const Network& network, const Solution& solution, const Table& table) {
  for (const Conflict& conflict : solution.conflicts()) {
    const Mask core = mask_of(conflict.claims);
    CHECK_FALSE(table.is_possible(core));
    CHECK(conflict.minimal);
    for (const Cause spared : conflict.claims) {
      CHECK(network.parts_of(spared) == nullptr);
      CHECK(table.is_possible(core & ~bit(spared)));
    }
    CHECK(conflict.clash > 0);
    CHECK_FALSE(conflict.aside.empty());
    for (const Cause claim : conflict.aside) CHECK(solution.is_aside(claim, conflict.level));
    Tick sum = 0;
    for (std::size_t at = 0; at < conflict.loop.size(); ++at) {
      sum += conflict.loop[at].weight;
      CHECK(conflict.loop[at].to == conflict.loop[(at + 1) % conflict.loop.size()].from);
    }
    if (conflict.choice == kNone) CHECK(sum == -conflict.clash);
    REQUIRE(conflict.dispute < solution.disputes().size());
    CHECK(solution.disputes()[conflict.dispute].level == conflict.level);
  }
}

using Answers = std::set<std::pair<std::vector<Cause>, std::vector<std::uint32_t>>>;

std::vector<Cause> fallen_with(const Network& network, std::uint32_t group, std::uint8_t level,
                               const std::function<bool(Cause)>& stands) {
  std::vector<Cause> fallen;
  for (const Cause claim : network.groups()[group].claims)
    if (network.level_of(claim) >= level && stands(claim)) fallen.push_back(claim);
  return fallen;
}

// Every way of giving up claims (and groups) of the level that leaves the rest possible, of least weight.
Answers best_answers(const Network& network, const Table& table, std::uint8_t level, Cause claims,
                     const std::function<bool(Cause)>& stands, std::uint64_t& least) {
  Mask kept = 0, open = 0;
  for (Cause claim = 1; claim <= claims; ++claim) {
    if (!stands(claim) || network.level_of(claim) > level) continue;
    (network.level_of(claim) == level ? open : kept) |= bit(claim);
  }
  Answers best;
  least = UINT64_MAX;
  const std::uint32_t groups = std::uint32_t{1} << network.groups().size();
  for (std::uint32_t picked = 0; picked < groups; ++picked) {
    std::vector<Cause> with_groups;
    std::vector<std::uint32_t> names;
    std::uint64_t group_weight = 0;
    for (std::uint32_t group = 0; group < network.groups().size(); ++group) {
      if ((picked >> group & 1U) == 0) continue;
      const auto fallen = fallen_with(network, group, level, stands);
      with_groups.insert(with_groups.end(), fallen.begin(), fallen.end());
      names.push_back(group);
      group_weight += network.groups()[group].weight;
    }
    const Mask covered = mask_of(with_groups);
    const Mask single = open & ~covered;
    for (Mask out = single;; out = (out - 1) & single) {
      std::uint64_t weight = group_weight;
      std::set<Cause> fallen(with_groups.begin(), with_groups.end());
      for (Cause claim = 1; claim <= claims; ++claim) {
        if ((out & bit(claim)) == 0) continue;
        weight += network.weight_of(claim);
        fallen.insert(claim);
      }
      if (weight <= least && table.is_possible((kept | open) & ~out & ~covered)) {
        if (weight < least) best.clear();
        least = weight;
        best.insert({std::vector<Cause>(fallen.begin(), fallen.end()), names});
      }
      if (out == 0) break;
    }
  }
  return best;
}

// The combinations of the answers to all disputes of a level.
Answers combined(const Solution& solution, std::uint8_t level, std::uint64_t& weight) {
  Answers all = {{{}, {}}};
  weight = 0;
  for (const Dispute& dispute : solution.disputes()) {
    if (dispute.level != level) continue;
    CHECK(dispute.is_best);
    CHECK(dispute.all_listed);
    CHECK(dispute.at_least == dispute.weight);
    weight += dispute.weight;
    Answers next;
    for (const auto& so_far : all)
      for (const Dispute::Answer& answer : dispute.answers) {
        std::set<Cause> claims(so_far.first.begin(), so_far.first.end());
        claims.insert(answer.claims.begin(), answer.claims.end());
        std::set<std::uint32_t> groups(so_far.second.begin(), so_far.second.end());
        groups.insert(answer.groups.begin(), answer.groups.end());
        next.insert({{claims.begin(), claims.end()}, {groups.begin(), groups.end()}});
      }
    all = std::move(next);
  }
  return all;
}

void check_disputes(const Network& network, const Solution& solution, const Table& table, Cause claims,
                    std::uint32_t wanted) {
  for (std::uint8_t level = 1; level <= 3; ++level) {
    const auto stands = [&](Cause claim) {
      return level == 1 || !solution.is_aside(claim, static_cast<std::uint8_t>(level - 1));
    };
    std::uint64_t least = 0, weight = 0;
    const Answers best = best_answers(network, table, level, claims, stands, least);
    CHECK(combined(solution, level, weight) == best);
    CHECK(weight == least);
    std::set<Cause> out;
    for (const Dispute& dispute : solution.disputes()) {
      if (dispute.level != level) continue;
      const auto count = static_cast<std::uint32_t>(dispute.answers.size());
      const std::uint32_t taken = count == 1 ? 0 : wanted == 0 ? kNone : std::min(wanted, count) - 1;
      CHECK(dispute.taken == taken);
      for (std::uint32_t at = 0; at < count; ++at)
        if (taken == kNone || taken == at)
          out.insert(dispute.answers[at].claims.begin(), dispute.answers[at].claims.end());
    }
    for (Cause claim = 1; claim <= claims; ++claim)
      if (stands(claim)) CHECK(solution.is_aside(claim, level) == (out.count(claim) != 0));
  }
}

void check_distances(const Solution& solution, std::uint8_t level, const std::vector<const Point*>& all,
                     Var vars) {
  for (Var from = 0; from <= vars; ++from) {
    const std::vector<Tick> row = solution.distances_from(from, level);
    const std::vector<Tick> column = solution.distances_to(from, level);
    for (Var to = 0; to <= vars; ++to) {
      Tick most = -100, back = -100;
      for (const Point* x : all) {
        most = std::max(most, (*x)[to] - (*x)[from]);
        back = std::max(back, (*x)[from] - (*x)[to]);
      }
      CHECK(row[to] == most);
      CHECK(column[to] == back);
    }
  }
}

void check_choices(const Network& network, const Solution& solution, std::uint8_t level,
                   const std::vector<const Point*>& all) {
  for (std::uint32_t choice = 0; choice < network.choices().size(); ++choice) {
    const auto& row = network.choices()[choice];
    const bool used = network.level_of(row.cause) <= level && !solution.is_aside(row.cause, level);
    CHECK((solution.choice_state(choice, level) == ChoiceState::unused) == !used);
    if (!used) continue;
    std::set<std::uint32_t> out;
    for (const Refutation& refutation : solution.refuted(choice, level)) out.insert(refutation.alternative);
    std::uint32_t held = 0;
    bool says_nothing = false;
    for (auto k = row.first_alternative; k < row.end_alternative; ++k) {
      const auto count = std::count_if(all.begin(), all.end(),
                                       [&](const Point* x) { return alternative_holds(network, k, *x); });
      says_nothing = says_nothing || count == static_cast<std::ptrdiff_t>(all.size());
      held += count > 0 ? 1 : 0;
      if (count > 0) CHECK(out.count(k - row.first_alternative) == 0);
    }
    // A choice that is fulfilled whatever is chosen need not be gone through.
    if (says_nothing) continue;
    CHECK(out.size() + held == row.end_alternative - row.first_alternative);
    CHECK((solution.choice_state(choice, level) == ChoiceState::decided) == (held == 1));
  }
}

// Bounds of one level are exact, and the spans they fall into hold every solution.
void check_level(const Network& network, const Solution& solution, const Table& table, std::uint8_t level,
                 Cause claims, Var vars) {
  Mask believed = 0;
  for (Cause claim = 1; claim <= claims; ++claim)
    if (network.level_of(claim) <= level && !solution.is_aside(claim, level)) believed |= bit(claim);
  const std::vector<const Point*> all = table.points(believed);
  REQUIRE_FALSE(all.empty());
  for (Var var = 1; var <= vars; ++var) {
    const Bounds bounds = solution.bounds(var, level);
    check_reason(solution, var, Side::latest, level);
    check_reason(solution, var, Side::earliest, level);
    if (level > 1) {
      const Bounds outer = solution.bounds(var, static_cast<std::uint8_t>(level - 1));
      CHECK(outer.earliest <= bounds.earliest);
      CHECK(bounds.latest <= outer.latest);
    }
    std::set<Tick> values;
    for (const Point* x : all) values.insert((*x)[var]);
    CHECK(bounds == Bounds{*values.begin(), *values.rbegin()});
    CHECK((solution.remarks(var, level) & (kEarliestWide | kLatestWide)) == 0);
    std::set<Tick> spanned;
    for (const Bounds& span : solution.spans(var, level))
      for (Tick tick = span.earliest; tick <= span.latest; ++tick) spanned.insert(tick);
    CHECK(std::includes(spanned.begin(), spanned.end(), values.begin(), values.end()));
    if (network.choices().size() <= 1) CHECK(spanned == values);
  }
  if (network.choices().empty()) check_distances(solution, level, all, vars);
  check_choices(network, solution, level, all);
}

void run_cases(const Wish& most, unsigned seed, unsigned cases) {
  cases = number_from("LATHBOOK_CASES", cases);
  seed = number_from("LATHBOOK_SEED", seed);
  WARN("seed " << seed << ", " << cases << " cases");
  unsigned with_conflict = 0, with_ties = 0;
  for (unsigned number = 0; number < cases; ++number) {
    INFO("seed " << seed + number << " (LATHBOOK_SEED repeats it)");
    Generator generator(seed + number);
    Wish wish = most;
    wish.claims = static_cast<unsigned>(generator.pick(1, most.claims));
    wish.joints = static_cast<unsigned>(generator.pick(0, most.joints));
    wish.groups = static_cast<unsigned>(generator.pick(0, most.groups));
    const Network network = generator.network(wish);
    Options options;
    options.answer = static_cast<std::uint32_t>(generator.pick(0, 2));
    const Solution solution = solve(network, options);
    const Table table(network, generator.top());
    with_conflict += solution.conflicts().empty() ? 0 : 1;
    for (const Dispute& dispute : solution.disputes()) with_ties += dispute.answers.size() > 1 ? 1 : 0;
    check_conflicts(network, solution, table);
    check_disputes(network, solution, table, wish.claims, options.answer);
    for (std::uint8_t level = 1; level <= 3; ++level)
      check_level(network, solution, table, level, wish.claims, generator.vars());
  }
  // Both kinds must really have been tried, and ties.
  if (cases >= 100) {
    CHECK(with_conflict > cases / 10);
    CHECK(with_conflict < cases - cases / 10);
    CHECK(with_ties > cases / 20);
  }
}

}  // namespace

TEST_CASE("random systems agree with brute force in bounds, levels, contradictions and ways out") {
  run_cases({9, 0, 2, 0}, 20260101, 1000);
}

TEST_CASE("random systems with choices agree with brute force in everything, case by case") {
  run_cases({9, 40, 2, 0}, 20260701, 1000);
}

TEST_CASE("random systems with sources that fall as a whole agree with brute force") {
  run_cases({8, 20, 1, 2}, 20261101, 300);
}

TEST_CASE("10,000 random systems of each kind agree with brute force", "[.long]") {
  run_cases({9, 0, 2, 0}, 30260101, 10'000);
  run_cases({9, 40, 2, 0}, 30260701, 10'000);
  run_cases({8, 20, 1, 2}, 30261101, 10'000);
}

TEST_CASE("leaving claims out gives the same as never having made them") {
  for (unsigned seed = 1; seed <= 200; ++seed) {
    INFO("seed " << seed);
    Generator generator(seed);
    const Network whole = generator.network({8, 20, 0, 0});
    Network without;
    without.add_variables(generator.vars());
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
      for (Var var = 1; var <= generator.vars(); ++var)
        CHECK(left.bounds(var, level) == right.bounds(var, level));
  }
}
