// The deletion filter over claims; each trial solves the small network of the claims that are left.
#include "plugins/timeline/network_cores.hpp"

#include <unordered_map>

#include "plugins/timeline/network_solver.hpp"

namespace lathbook::timeline {

namespace {

// Claims handed to trials, in all, before a core is taken as it is.
constexpr std::size_t kEffort = 150'000;
// Cores of more claims are first tried with whole halves left out, then quarters, and so on.
constexpr std::size_t kFewClaims = 16;

}  // namespace

// A small network of some claims, with the structure around them, and the way back to the whole.
struct CoreShrinker::Part {
  Network network;
  std::unordered_map<Node, Var> var_of;
  std::vector<Node> nodes;  // variable - 1 -> node
  std::vector<Link> constraint_links;
  std::vector<Link> option_links;
  std::vector<std::uint32_t> choices;

  void touch(const State& state, Var var) {
    if (var != kOrigin) touch_node(state.graph.place[var]);
  }
  void touch_node(Node node) {
    if (!var_of.emplace(node, static_cast<Var>(nodes.size() + 1)).second) return;
    nodes.push_back(node);
    network.add_variable();
  }
  Constraint moved(const State& state, Constraint constraint) const {
    const auto move = [&](Var var) { return var == kOrigin ? kOrigin : var_of.at(state.graph.place[var]); };
    constraint.from = move(constraint.from);
    constraint.to = move(constraint.to);
    return constraint;
  }
  void add(const State& state, Link link) {
    network.add_constraint(moved(state, state.graph.constraint(link)));
    constraint_links.push_back(link);
  }
};

void CoreShrinker::index() {
  if (indexed_) return;
  indexed_ = true;
  const Graph& graph = state_.graph;
  const auto note = [&](Link link, std::uint32_t arc) {
    if (graph.is_option(link)) return;
    const Constraint& constraint = graph.constraint(link);
    if (constraint.level != 0) items_.push_back({constraint.cause, arc, link});
  };
  for (Node node = graph.component_begin[component_]; node < graph.component_begin[component_ + 1]; ++node)
    for (std::uint32_t arc = graph.arc_begin[node]; arc < graph.arc_begin[node + 1]; ++arc) {
      note(graph.arcs[arc].link, arc);
      if (graph.arc_since[arc] == 0 && graph.arcs[arc].to < kFirstBound)
        structure_.push_back({graph.arcs[arc].to, node, arc});
    }
  for (std::uint32_t at = graph.loop_begin[component_]; at < graph.loop_begin[component_ + 1]; ++at)
    note(graph.loops[at], kNone);
  for (std::uint32_t at = graph.choice_begin[component_]; at < graph.choice_begin[component_ + 1]; ++at)
    choices_.emplace_back(state_.network().choices()[graph.choice_order[at]].cause, graph.choice_order[at]);
  std::sort(items_.begin(), items_.end(), [](const Item& a, const Item& b) {
    return a.cause != b.cause ? a.cause < b.cause : a.link < b.link;
  });
  std::sort(choices_.begin(), choices_.end());
  std::sort(structure_.begin(), structure_.end(),
            [](const Incoming& a, const Incoming& b) { return a.to != b.to ? a.to < b.to : a.arc < b.arc; });
}

std::vector<CoreShrinker::Item> CoreShrinker::items_of(Cause cause) {
  index();
  std::vector<Item> found;
  auto at = std::lower_bound(items_.begin(), items_.end(), cause,
                             [](const Item& item, Cause wanted) { return item.cause < wanted; });
  for (; at != items_.end() && at->cause == cause; ++at) found.push_back(*at);
  return found;
}

std::vector<std::uint32_t> CoreShrinker::choices_of(Cause cause) {
  index();
  std::vector<std::uint32_t> found;
  auto at = std::lower_bound(choices_.begin(), choices_.end(), std::pair<Cause, std::uint32_t>{cause, 0});
  for (; at != choices_.end() && at->first == cause; ++at) found.push_back(at->second);
  return found;
}

// The claims (ascending) and the joint ones of which every part is among them.
std::vector<Cause> CoreShrinker::speaking(const std::vector<Cause>& claims) const {
  std::vector<Cause> causes = claims;
  if (!state_.network().has_joints()) return causes;
  for (const Cause claim : claims) {
    const auto* joints = state_.network().joints_of(claim);
    if (!joints) continue;
    for (const Cause joint : *joints) {
      const auto& parts = *state_.network().parts_of(joint);
      if (std::includes(claims.begin(), claims.end(), parts.begin(), parts.end())) causes.push_back(joint);
    }
  }
  sort_unique(causes);
  return causes;
}

void CoreShrinker::set_in_force(Cause cause, bool in_force) {
  for (const Item& item : items_of(cause))
    if (item.arc != kNone)
      state_.graph.arc_since[item.arc] = in_force ? state_.graph.constraint(item.link).level : kOff;
  if (in_force) return;
  for (const std::uint32_t choice : choices_of(cause)) {
    const auto& row = state_.network().choices()[choice];
    const auto& alternatives = state_.network().alternatives();
    for (std::uint32_t option = alternatives[row.first_alternative].first_option;
         option < alternatives[row.end_alternative - 1].end_option; ++option)
      if (state_.graph.option_arc[option] != kNone)
        state_.graph.arc_since[state_.graph.option_arc[option]] = kOff;
  }
}

void CoreShrinker::set_aside(Cause claim, std::uint8_t level) {
  state_.aside[claim] = level;
  ever_aside_.push_back(claim);
  set_in_force(claim, false);
  const auto* joints = state_.network().joints_of(claim);
  if (!joints) return;
  for (const Cause joint : *joints) {
    if (state_.aside[joint] != kOff) continue;
    state_.aside[joint] = level;
    ever_aside_.push_back(joint);
    set_in_force(joint, false);
  }
}

std::vector<Cause> CoreShrinker::aside() const {
  std::vector<Cause> causes = ever_aside_;
  sort_unique(causes);
  std::erase_if(causes, [&](Cause cause) { return state_.aside[cause] == kOff; });
  return causes;
}

void CoreShrinker::put_back(Cause claim) {
  state_.aside[claim] = kOff;
  set_in_force(claim, !state_.graph.is_left_out(claim));
  const auto* joints = state_.network().joints_of(claim);
  if (!joints) return;
  for (const Cause joint : *joints) {
    const auto& parts = *state_.network().parts_of(joint);
    std::uint8_t aside = kOff;
    for (const Cause part : parts) aside = std::min(aside, state_.aside[part]);
    state_.aside[joint] = aside;
    set_in_force(joint, aside == kOff && !state_.graph.is_left_out(joint));
  }
}

// The least certain claims, and among them the latest entered, are tried first for being spared.
std::vector<Cause> CoreShrinker::trial_order(const std::vector<Cause>& claims) const {
  std::vector<Cause> order = claims;
  std::sort(order.begin(), order.end(), [&](Cause a, Cause b) {
    const std::uint8_t first = state_.network().level_of(a), second = state_.network().level_of(b);
    return first != second ? first > second : a > b;
  });
  return order;
}

// A simple loop needs each of its constraints, yet fewer claims may do: one claim may give several of them,
// and structure or horizon beside the loop may close a shorter one.
Core CoreShrinker::shrink(Core core) {
  std::size_t effort = kEffort;
  std::size_t share = core.claims.size() > kFewClaims ? core.claims.size() / 2 : 1;
  for (; share > 0; share /= 2) {
    const std::vector<Cause> order = trial_order(core.claims);
    for (std::size_t at = 0; at < order.size(); at += share) {
      std::vector<Cause> spared(
          order.begin() + static_cast<std::ptrdiff_t>(at),
          order.begin() + static_cast<std::ptrdiff_t>(std::min(at + share, order.size())));
      std::sort(spared.begin(), spared.end());
      std::vector<Cause> rest;
      std::set_difference(core.claims.begin(), core.claims.end(), spared.begin(), spared.end(),
                          std::back_inserter(rest));
      if (rest.size() == core.claims.size()) continue;
      const std::size_t cost = rest.size() + 1;
      if (cost > effort) {
        core.minimal = false;
        return core;
      }
      effort -= cost;
      Core smaller;
      if (find_core(rest, smaller)) core = std::move(smaller);
    }
  }
  return core;
}

// Whatever structure hangs on the claims' variables comes along: an end after its beginning, the horizon.
void CoreShrinker::gather(const std::vector<Cause>& claims, Part& part) {
  const Graph& graph = state_.graph;
  const Network& network = state_.network();
  const auto touch_ends = [&](const Constraint& constraint) {
    part.touch(state_, constraint.from);
    part.touch(state_, constraint.to);
  };
  std::vector<Link> wanted;
  for (const Cause cause : speaking(claims)) {
    for (const Item& item : items_of(cause)) {
      wanted.push_back(item.link);
      touch_ends(graph.constraint(item.link));
    }
    for (const std::uint32_t choice : choices_of(cause)) {
      part.choices.push_back(choice);
      const auto& row = network.choices()[choice];
      for (std::uint32_t at = row.first_alternative; at < row.end_alternative; ++at) {
        const auto& alternative = network.alternatives()[at];
        for (std::uint32_t option = alternative.first_option; option < alternative.end_option; ++option)
          touch_ends(network.options()[option]);
      }
    }
  }
  for (std::size_t next = 0; next < part.nodes.size(); ++next) {
    const Node node = part.nodes[next];
    for (std::uint32_t arc = graph.arc_begin[node]; arc < graph.arc_begin[node + 1]; ++arc) {
      if (graph.arc_since[arc] != 0) continue;
      if (graph.arcs[arc].to < kFirstBound) part.touch_node(graph.arcs[arc].to);
      wanted.push_back(graph.arcs[arc].link);
    }
    auto in = std::lower_bound(structure_.begin(), structure_.end(), node,
                               [](const Incoming& one, Node head) { return one.to < head; });
    for (; in != structure_.end() && in->to == node; ++in) part.touch_node(in->from);
  }
  for (const Cause claim : claims) part.network.declare(claim, network.level_of(claim));
  for (const Cause cause : speaking(claims))
    if (const auto* parts = network.parts_of(cause)) part.network.join(cause, *parts);
  for (const Link link : wanted) part.add(state_, link);
  for (const std::uint32_t choice : part.choices) {
    const auto& row = network.choices()[choice];
    Choice copy{{}, row.cause, row.level};
    for (std::uint32_t at = row.first_alternative; at < row.end_alternative; ++at) {
      const auto& alternative = network.alternatives()[at];
      auto& options = copy.alternatives.emplace_back();
      for (std::uint32_t option = alternative.first_option; option < alternative.end_option; ++option) {
        options.push_back(part.moved(state_, network.options()[option]));
        part.option_links.push_back(static_cast<Link>(network.constraints().size()) + option);
      }
    }
    part.network.add_choice(copy);
  }
}

bool CoreShrinker::find_core(const std::vector<Cause>& claims, Core& found) {
  Part part;
  gather(claims, part);
  State inner(part.network, {});
  if (!Solver(inner).first_core(found)) return false;
  bring_home(part, inner, found);
  return true;
}

// Links of the small network are turned into links of the whole; a derived bound is copied, out of force,
// so that its cases can still be shown.
Link CoreShrinker::home_link(const Part& part, const State& inner, Link link, std::vector<Link>& known) {
  const std::size_t plain = part.constraint_links.size();
  if (link < plain) return part.constraint_links[link];
  if (!inner.is_derived(link)) return part.option_links[link - plain];
  const std::size_t at = link - inner.graph.first_derived();
  if (known[at] != kNone) return known[at];
  Derived copy = inner.derived[at];
  copy.node = part.nodes[inner.graph.order[copy.node] - 1];
  copy.choice = part.choices[copy.choice];
  copy.since = kOff;
  for (Derived::Case& one : copy.cases) {
    for (Decision& decision : one.assumed) decision.choice = part.choices[decision.choice];
    for (Link& used : one.chain) used = home_link(part, inner, used, known);
  }
  state_.derived.push_back(std::move(copy));
  return known[at] = state_.graph.first_derived() + static_cast<Link>(state_.derived.size() - 1);
}

void CoreShrinker::bring_home(const Part& part, const State& inner, Core& core) {
  std::vector<Link> known(inner.derived.size(), kNone);
  for (Link& link : core.loop) link = home_link(part, inner, link, known);
  if (core.choice != kNone) core.choice = part.choices[core.choice];
  for (Refuted& refuted : core.refuted) {
    refuted.choice = part.choices[refuted.choice];
    for (Decision& decision : refuted.assumed) decision.choice = part.choices[decision.choice];
    for (Link& link : refuted.loop) link = home_link(part, inner, link, known);
  }
}

}  // namespace lathbook::timeline
