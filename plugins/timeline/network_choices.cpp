// Either-or rows on current bounds only: sound and polynomial, never dropped, perhaps wider than exact.
#include "plugins/timeline/network_choices.hpp"

namespace lathbook::timeline {

namespace {

// A ring of choices could narrow a bound tick by tick for ever; after this many the wider bound stays,
// which is still right.
constexpr std::uint32_t kNarrowings = 64;

}  // namespace

const Network::AlternativeRow& ChoiceRules::row(std::uint32_t choice, std::uint32_t alternative) const {
  const Network& network = state_.network();
  return network.alternatives()[network.choices()[choice].first_alternative + alternative];
}

bool ChoiceRules::is_refuted(std::uint32_t choice, std::uint32_t alternative) const {
  for (const Refuted& refuted : state_.choices[choice].refuted)
    if (refuted.alternative == alternative) return true;
  return false;
}

bool ChoiceRules::is_open(std::uint32_t choice, std::uint8_t level) const {
  const auto& choice_row = state_.network().choices()[choice];
  return state_.is_believed(choice_row.cause, level) && state_.choices[choice].chosen_since > level;
}

// An alternative is out when one of its constraints contradicts the bounds of its two ends.
bool ChoiceRules::rule_out(std::uint32_t choice, std::uint32_t alternative, std::uint8_t level) {
  const Network& network = state_.network();
  const auto& options = row(choice, alternative);
  for (std::uint32_t option = options.first_option; option < options.end_option; ++option) {
    const Constraint& constraint = network.options()[option];
    const Link link = static_cast<Link>(network.constraints().size()) + option;
    Refuted refuted{choice, alternative, level, {link}, {}, {}};
    if (constraint.from != constraint.to) {
      if (latest(constraint.from) + constraint.weight + to_origin(constraint.to) >= 0) continue;
      std::vector<Link> walk = chain_of(state_, values_[0], constraint.from, Side::latest);
      walk.push_back(link);
      const std::vector<Link> back = chain_of(state_, values_[1], constraint.to, Side::earliest);
      walk.insert(walk.end(), back.begin(), back.end());
      refuted.loop = simple_loop(state_, walk);
    } else if (constraint.weight >= 0) {
      continue;
    }
    for (const Link used : refuted.loop)
      if (used != link) add_claims(state_, used, refuted.support);
    sort_unique(refuted.support);
    state_.choices[choice].refuted.push_back(std::move(refuted));
    return true;
  }
  return false;
}

void ChoiceRules::impose(std::uint32_t choice, std::uint32_t alternative, std::uint8_t level) {
  state_.choices[choice].chosen = alternative;
  state_.choices[choice].chosen_since = level;
  const auto& options = row(choice, alternative);
  for (std::uint32_t option = options.first_option; option < options.end_option; ++option)
    if (state_.graph.option_arc[option] != kNone)
      state_.graph.arc_since[state_.graph.option_arc[option]] = level;
}

bool ChoiceRules::apply(std::uint32_t component, std::uint8_t level, std::vector<Core>& cores) {
  const Graph& graph = state_.graph;
  bool changed = false;
  std::vector<std::uint32_t> open;
  for (std::uint32_t at = graph.choice_begin[component]; at < graph.choice_begin[component + 1]; ++at) {
    const std::uint32_t choice = graph.choice_order[at];
    if (!is_open(choice, level)) continue;
    const auto& choice_row = state_.network().choices()[choice];
    open.clear();
    for (std::uint32_t k = 0; k < choice_row.end_alternative - choice_row.first_alternative; ++k)
      if (!is_refuted(choice, k) && !rule_out(choice, k, level)) open.push_back(k);
    if (open.empty()) {
      Core core;
      core.choice = choice;
      add_parts(state_.network(), choice_row.cause, core.claims);
      for (const Refuted& refuted : state_.choices[choice].refuted) {
        core.claims.insert(core.claims.end(), refuted.support.begin(), refuted.support.end());
        core.refuted.push_back(refuted);
        for (Refuted& behind : refuted_behind(state_, refuted.loop))
          if (behind.choice != choice) core.refuted.push_back(std::move(behind));
      }
      sort_unique(core.claims);
      cores.push_back(std::move(core));
    } else if (open.size() == 1) {
      impose(choice, open.front(), level);
      changed = true;
    } else if (narrow(choice, open, level)) {
      changed = true;
    }
  }
  return changed;
}

bool ChoiceRules::narrow(std::uint32_t choice, const std::vector<std::uint32_t>& open, std::uint8_t level) {
  bool changed = false;
  const auto& options = row(choice, open.front());
  for (std::uint32_t option = options.first_option; option < options.end_option; ++option) {
    const Constraint& constraint = state_.network().options()[option];
    if (constraint.to != kOrigin) changed |= narrow_one(choice, open, level, constraint.to, Side::latest);
    if (constraint.from != kOrigin)
      changed |= narrow_one(choice, open, level, constraint.from, Side::earliest);
  }
  return changed;
}

// The bound that every open alternative gives `var`, when each of them gives one and the loosest is
// tighter than what is known.
bool ChoiceRules::narrow_one(std::uint32_t choice, const std::vector<std::uint32_t>& open, std::uint8_t level,
                             Var var, Side side) {
  const Network& network = state_.network();
  const bool is_latest = side == Side::latest;
  const Tick known = is_latest ? latest(var) : to_origin(var);
  Derived derived;
  derived.node = state_.graph.place[var];
  derived.side = side;
  derived.since = level;
  derived.choice = choice;
  derived.weight = -kNoBound;
  std::vector<std::uint32_t> best;  // option, by open alternative
  for (const std::uint32_t alternative : open) {
    const auto& options = row(choice, alternative);
    Tick bound = known;
    std::uint32_t by = kNone;
    for (std::uint32_t option = options.first_option; option < options.end_option; ++option) {
      const Constraint& constraint = network.options()[option];
      if ((is_latest ? constraint.to : constraint.from) != var || constraint.from == constraint.to) continue;
      const Tick offer = constraint.weight + (is_latest ? latest(constraint.from) : to_origin(constraint.to));
      if (offer >= bound) continue;
      bound = offer;
      by = option;
    }
    if (by == kNone) return false;
    best.push_back(by);
    derived.weight = std::max(derived.weight, bound);
  }
  if (derived.weight > kFar) return false;
  ChoiceRecord& record = state_.choices[choice];
  if (record.narrowings == kNarrowings) return false;
  ++record.narrowings;
  add_parts(network, network.choices()[choice].cause, derived.support);
  for (const Refuted& refuted : record.refuted)
    derived.support.insert(derived.support.end(), refuted.support.begin(), refuted.support.end());
  for (std::size_t at = 0; at < open.size(); ++at) {
    const Link link = static_cast<Link>(network.constraints().size()) + best[at];
    const Constraint& constraint = network.options()[best[at]];
    Derived::Case one{
        {{choice, open[at]}},
        chain_of(state_, values_[is_latest ? 0 : 1], is_latest ? constraint.from : constraint.to, side)};
    for (const Link used : one.chain) add_claims(state_, used, derived.support);
    if (is_latest)
      one.chain.push_back(link);
    else
      one.chain.insert(one.chain.begin(), link);
    derived.cases.push_back(std::move(one));
  }
  sort_unique(derived.support);
  state_.derived.push_back(std::move(derived));
  return true;
}

void ChoiceRules::undo(std::uint32_t component, std::uint8_t level, std::size_t first_derived) {
  const Graph& graph = state_.graph;
  for (std::size_t at = first_derived; at < state_.derived.size(); ++at)
    if (state_.derived[at].since == level) state_.derived[at].since = kOff;
  for (std::uint32_t at = graph.choice_begin[component]; at < graph.choice_begin[component + 1]; ++at) {
    const std::uint32_t choice = graph.choice_order[at];
    ChoiceRecord& record = state_.choices[choice];
    record.narrowings = 0;
    std::erase_if(record.refuted, [&](const Refuted& refuted) { return refuted.level == level; });
    if (record.chosen_since != level) continue;
    const auto& options = row(choice, record.chosen);
    for (std::uint32_t option = options.first_option; option < options.end_option; ++option)
      if (graph.option_arc[option] != kNone) state_.graph.arc_since[graph.option_arc[option]] = kOff;
    record.chosen_since = kOff;
    record.chosen = kNone;
  }
}

}  // namespace lathbook::timeline
