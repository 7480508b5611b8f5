// The answer: bounds, reasons, distances and choices, read from what the solver left.
#include <numeric>
#include <tuple>

#include "plugins/timeline/network_solver.hpp"

namespace lathbook::timeline {

struct Solution::Impl {
  Impl(const Network& network, const std::vector<Cause>& leave_out) : state(network, leave_out) {}

  const LevelResult& at(std::uint8_t level) const { return state.levels.at(level); }
  Bounds raw(Var var, std::uint8_t level) const {
    return var == kOrigin ? Bounds{0, 0} : at(level).bounds.at(state.graph.place.at(var));
  }
  std::vector<Tick> spread(Var from, Side side, std::uint8_t level) const;

  State state;
};

namespace {

bool is_bounded(Tick distance) {
  return distance < kFar;
}

Tick shown(Tick distance) {
  return is_bounded(distance) ? distance : kUnbounded;
}

}  // namespace

Solution::Solution(std::unique_ptr<Impl> impl) : impl_(std::move(impl)) {}
Solution::Solution(Solution&&) noexcept = default;
Solution& Solution::operator=(Solution&&) noexcept = default;
Solution::~Solution() = default;

Solution solve(const Network& network, const Options& options) {
  auto impl = std::make_unique<Solution::Impl>(network, options.leave_out);
  impl->state.max_level = options.max_level;
  impl->state.answer = options.answer;
  Solver(impl->state).solve();
  return Solution(std::move(impl));
}

Solution solve_again(const Solution& before, const Options& options) {
  const State& known = before.impl().state;
  if (known.max_level != options.max_level || known.answer != options.answer)
    return solve(known.network(), options);
  auto impl = std::make_unique<Solution::Impl>(before.impl());
  const auto changed = impl->state.graph.leave_out(options.leave_out);
  Solver(impl->state).solve_again(changed);
  return Solution(std::move(impl));
}

std::uint8_t Solution::max_level() const {
  return impl_->state.max_level;
}

Bounds Solution::bounds(Var var, std::uint8_t level) const {
  const Bounds raw = impl_->raw(var, level);
  return {-shown(-raw.earliest), shown(raw.latest)};
}

std::vector<Bounds> Solution::spans(Var var, std::uint8_t level) const {
  const auto& gaps = impl_->at(level).gaps;
  const auto found =
      std::lower_bound(gaps.begin(), gaps.end(), var,
                       [](const LevelResult::Gap& gap, Var wanted) { return gap.var < wanted; });
  if (found == gaps.end() || found->var != var) return {bounds(var, level)};
  std::vector<Bounds> spans = found->parts;
  for (Bounds& span : spans) span = {-shown(-span.earliest), shown(span.latest)};
  return spans;
}

std::uint8_t Solution::remarks(Var var, std::uint8_t level) const {
  return var == kOrigin ? 0 : impl_->at(level).remarks.at(impl_->state.graph.place.at(var));
}

std::vector<Step> Solution::reason(Var var, Side side, std::uint8_t level) const {
  const auto& links = impl_->at(level).links[static_cast<std::size_t>(side)];
  std::vector<Step> steps;
  while (var != kOrigin) {
    const Link link = links.at(impl_->state.graph.place.at(var));
    if (link == kNone) return {};
    steps.push_back(impl_->state.describe(link));
    var = impl_->state.before(link, side);
  }
  std::reverse(steps.begin(), steps.end());
  return steps;
}

const std::vector<Conflict>& Solution::conflicts() const {
  return impl_->state.conflicts;
}

const std::vector<Dispute>& Solution::disputes() const {
  return impl_->state.disputes;
}

bool Solution::is_aside(Cause cause, std::uint8_t level) const {
  return cause < impl_->state.aside.size() && impl_->state.aside[cause] <= level;
}

Cause Solution::leans_on(Var var, Side side, std::uint8_t level) const {
  const auto& leans = impl_->at(level).leans;
  const auto found = std::lower_bound(leans.begin(), leans.end(), std::tie(var, side),
                                      [](const LevelResult::Lean& lean, const auto& wanted) {
                                        return std::tie(lean.var, lean.side) < wanted;
                                      });
  return found != leans.end() && found->var == var && found->side == side ? found->cause : kStructural;
}

// All latest dates together satisfy every constraint in force, so they serve as potentials.
std::vector<Tick> Solution::Impl::spread(Var from, Side side, std::uint8_t level) const {
  const Graph& graph = state.graph;
  const auto& bounds = at(level).bounds;
  std::vector<Tick> result(state.network().variables());
  const bool is_latest = side == Side::latest;
  const Bounds start = raw(from, level);
  for (Var var = 0; var < result.size(); ++var) {
    const Bounds other = raw(var, level);
    result[var] = is_latest ? other.latest - start.earliest : start.latest - other.earliest;
  }
  result[from] = 0;
  if (from != kOrigin) {
    const std::uint32_t component = graph.component_of(graph.place[from]);
    Values values;
    Potentials potentials;
    values.open(graph, component, {});
    potentials.open(graph, component, 0);
    const Node begin = graph.component_begin[component], end = graph.component_begin[component + 1];
    for (Node node = begin; node < end; ++node) potentials[node] = bounds[node].latest;
    values[graph.place[from]] = {0, 0, kNone};
    Propagator(state).run(values, component, level, side, potentials, Propagator::Start::offered);
    for (Node node = begin; node < end; ++node) {
      Tick& known = result[graph.order[node]];
      known = std::min(known, values[node].dist);
    }
  }
  for (Tick& distance : result) distance = shown(distance);
  return result;
}

std::vector<Tick> Solution::distances_from(Var from, std::uint8_t level) const {
  return impl_->spread(from, Side::latest, level);
}

std::vector<Tick> Solution::distances_to(Var to, std::uint8_t level) const {
  return impl_->spread(to, Side::earliest, level);
}

Tick Solution::distance(Var from, Var to, std::uint8_t level) const {
  return distances_from(from, level).at(to);
}

ChoiceState Solution::choice_state(std::uint32_t choice, std::uint8_t level) const {
  const State& state = impl_->state;
  if (!state.is_believed(state.network().choices().at(choice).cause, level)) return ChoiceState::unused;
  return state.choices[choice].chosen_since <= level ? ChoiceState::decided : ChoiceState::open;
}

std::uint32_t Solution::chosen(std::uint32_t choice, std::uint8_t level) const {
  return choice_state(choice, level) == ChoiceState::decided ? impl_->state.choices[choice].chosen : kNone;
}

bool Solution::is_exact(std::uint32_t choice, std::uint8_t level) const {
  return choice_state(choice, level) == ChoiceState::open && impl_->state.choices[choice].exact;
}

std::vector<Refutation> Solution::refuted(std::uint32_t choice, std::uint8_t level) const {
  std::vector<Refutation> found;
  for (const Refuted& refuted : impl_->state.choices.at(choice).refuted)
    if (refuted.level <= level) found.push_back(impl_->state.describe(refuted));
  return found;
}

std::vector<Solution::Case> Solution::cases(std::uint32_t index) const {
  const Derived& derived = impl_->state.derived.at(index);
  std::vector<Case> found;
  for (const Derived::Case& one : derived.cases) {
    Case& words = found.emplace_back(Case{kNone, one.assumed, {}});
    if (one.assumed.size() == 1) words.alternative = one.assumed.front().alternative;
    for (const Link link : one.chain) words.steps.push_back(impl_->state.describe(link));
    if (derived.side == Side::earliest) std::reverse(words.steps.begin(), words.steps.end());
  }
  return found;
}

}  // namespace lathbook::timeline
