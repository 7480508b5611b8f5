// What the worlds of a group tell: alternatives that none has, bounds that all have, spans that lie apart.
#include "plugins/timeline/network_worlds.hpp"

namespace lathbook::timeline {

// What a way leads nowhere by, without the cases it takes for true.
void Worlds::add_support(const Group& group, const Dead& dead, std::vector<Cause>& claims) const {
  const auto in_group = [&](std::uint32_t choice) {
    return std::find(group.choices.begin(), group.choices.end(), choice) != group.choices.end();
  };
  for (const Link link : dead.loop)
    if (state_.is_derived(link) || !state_.graph.is_option(link) || !in_group(state_.describe(link).choice))
      add_claims(state_, link, claims);
}

// The choices themselves, and why alternatives ruled out before were not tried.
void Worlds::add_own(const Group& group, std::vector<Cause>& claims) const {
  for (const std::uint32_t choice : group.choices) {
    add_parts(state_.network(), state_.network().choices()[choice].cause, claims);
    for (const Refuted& refuted : state_.choices[choice].refuted)
      claims.insert(claims.end(), refuted.support.begin(), refuted.support.end());
  }
}

Core Worlds::core_of(const Group& group) const {
  Core core;
  core.choice = group.dead.front().path.front().choice;
  add_own(group, core.claims);
  for (const Dead& dead : group.dead) {
    add_support(group, dead, core.claims);
    const Decision first = dead.path.front();
    Refuted refuted{first.choice, first.alternative, level_, dead.loop, {}, {}};
    refuted.assumed.assign(dead.path.begin() + 1, dead.path.end());
    for (Refuted& behind : refuted_behind(state_, dead.loop))
      if (std::find(group.choices.begin(), group.choices.end(), behind.choice) == group.choices.end())
        core.refuted.push_back(std::move(behind));
    core.refuted.push_back(std::move(refuted));
  }
  for (const std::uint32_t choice : group.choices)
    for (const Refuted& refuted : state_.choices[choice].refuted) core.refuted.push_back(refuted);
  sort_unique(core.claims);
  return core;
}

// Rules out alternatives that no world has; imposes the last one left. True when a choice was settled.
bool Worlds::rule_out(const Group& group) {
  bool settled = false;
  for (const std::uint32_t choice : group.choices) {
    const auto& row = state_.network().choices()[choice];
    const std::uint32_t count = row.end_alternative - row.first_alternative;
    std::vector<bool> used(count, false);
    for (const auto& world : group.worlds)
      for (const Decision& decision : world)
        if (decision.choice == choice) used[decision.alternative] = true;
    std::vector<Refuted> found;
    for (std::uint32_t k = 0; k < count; ++k) {
      if (used[k] || rules_.is_refuted(choice, k)) continue;
      Refuted refuted{choice, k, level_, {}, {}, {}};
      add_own(group, refuted.support);
      const Dead* only = nullptr;
      std::size_t ways = 0;
      for (const Dead& dead : group.dead) {
        const bool here = std::any_of(dead.path.begin(), dead.path.end(), [&](const Decision& decision) {
          return decision.choice == choice && decision.alternative != k;
        });
        if (here) continue;
        ++ways;
        only = &dead;
        add_support(group, dead, refuted.support);
      }
      if (ways == 1 && only->path.size() == 1) refuted.loop = only->loop;
      sort_unique(refuted.support);
      std::vector<Cause> own;
      add_parts(state_.network(), state_.network().choices()[choice].cause, own);
      for (const Cause claim : own) std::erase(refuted.support, claim);
      found.push_back(std::move(refuted));
    }
    for (Refuted& refuted : found) state_.choices[choice].refuted.push_back(std::move(refuted));
    const auto left = static_cast<std::size_t>(std::count(used.begin(), used.end(), true));
    if (left != 1) continue;
    const auto last = std::find(used.begin(), used.end(), true) - used.begin();
    rules_.impose(choice, static_cast<std::uint32_t>(last), level_);
    settled = true;
  }
  return settled;
}

// Calls `use` with the number of each world, its bounds being in force.
template <typename Use>
void Worlds::each_world(const Group& group, Use use) {
  std::vector<Link> loop;
  for (std::size_t world = 0; world < group.worlds.size(); ++world) {
    for (const Decision& decision : group.worlds[world]) impose(decision.choice, decision.alternative, loop);
    use(world);
    retreat(0, 0);
  }
}

// True when a constraint from outside every cycle gives this bound already, from what else is known by then.
bool Worlds::follows(const Touch& touch, const std::array<Window<Tick>, 2>& hull) const {
  const Graph& graph = state_.graph;
  const auto side = static_cast<std::size_t>(touch.side);
  const auto gives = [&](Node other, std::uint32_t arc) {
    if (graph.arc_since[arc] > level_) return false;
    const Block* block = graph.block_of(touch.node);
    if (block && other >= block->begin && other < block->end) return false;
    return hull[side][other] + graph.arcs[arc].weight <= touch.widest;
  };
  if (touch.side == Side::earliest) {
    for (std::uint32_t arc = graph.arc_onward[touch.node]; arc < graph.arc_begin[touch.node + 1]; ++arc)
      if (gives(graph.arcs[arc].to, arc)) return true;
    return false;
  }
  const std::uint32_t row = touch.node - graph.component_begin[component_];
  for (std::uint32_t at = inward_begin_[row]; at < inward_begin_[row + 1]; ++at)
    if (gives(inward_[at].from, inward_[at].arc)) return true;
  return false;
}

// Bounds that every world moves become known, with the chain of each world as reason.
bool Worlds::narrow(const Group& group) {
  const Graph& graph = state_.graph;
  std::array<Window<Tick>, 2> hull;
  for (const std::size_t side : {0U, 1U}) {
    hull[side].open(graph, component_, 0);
    for (Node node = graph.component_begin[component_]; node < graph.component_begin[component_ + 1]; ++node)
      hull[side][node] = base_[side][node].dist;
  }
  std::vector<Touch> moved;
  for (const Touch& touch : group.touched) {
    if (touch.worlds < group.worlds.size() || touch.widest > kFar) continue;
    hull[static_cast<std::size_t>(touch.side)][touch.node] = touch.widest;
    moved.push_back(touch);
  }
  std::erase_if(moved, [&](const Touch& touch) { return follows(touch, hull); });
  if (moved.empty()) return false;
  std::vector<Derived> derived(moved.size());
  for (std::size_t at = 0; at < moved.size(); ++at) {
    derived[at].node = moved[at].node;
    derived[at].side = moved[at].side;
    derived[at].weight = moved[at].widest;
    derived[at].since = level_;
    derived[at].choice = group.choices.front();
    add_own(group, derived[at].support);
    for (const Dead& dead : group.dead) add_support(group, dead, derived[at].support);
  }
  each_world(group, [&](std::size_t world) {
    for (Derived& one : derived) {
      Derived::Case found{group.worlds[world], chain_of(state_, values_[static_cast<std::size_t>(one.side)],
                                                        graph.order[one.node], one.side)};
      for (const Link link : found.chain) add_claims(state_, link, one.support);
      const bool known = std::any_of(one.cases.begin(), one.cases.end(),
                                     [&](const Derived::Case& other) { return other.chain == found.chain; });
      if (!known) one.cases.push_back(std::move(found));
    }
  });
  for (Derived& one : derived) {
    sort_unique(one.support);
    state_.derived.push_back(std::move(one));
  }
  return true;
}

// A variable that one group alone moves may be left with separate spans.
void Worlds::note_gaps(const std::vector<Group>& groups) {
  const Graph& graph = state_.graph;
  Window<std::uint32_t> movers;
  movers.open(graph, component_, 0);
  const auto mark = [&](std::uint32_t number, const Group& group) {
    for (const Touch& touch : group.touched) {
      std::uint32_t& mover = movers[touch.node];
      mover = mover == 0 || mover == number ? number : kNone;
    }
  };
  for (std::uint32_t at = 0; at < groups.size(); ++at)
    if (!groups[at].merged && groups[at].complete) mark(at + 1, groups[at]);
  for (std::uint32_t at = 0; at < groups.size(); ++at) {
    const Group& group = groups[at];
    if (group.merged || !group.complete || !group.exact || group.worlds.size() < 2) continue;
    std::vector<Node> nodes;
    for (const Touch& touch : group.touched)
      if (movers[touch.node] == at + 1) nodes.push_back(touch.node);
    std::sort(nodes.begin(), nodes.end());
    nodes.erase(std::unique(nodes.begin(), nodes.end()), nodes.end());
    std::vector<std::vector<Bounds>> spans(nodes.size());
    each_world(group, [&](std::size_t) {
      for (std::size_t node = 0; node < nodes.size(); ++node)
        spans[node].push_back({-values_[1][nodes[node]].dist, values_[0][nodes[node]].dist});
    });
    for (std::size_t node = 0; node < nodes.size(); ++node) {
      std::vector<Bounds> parts = joined(std::move(spans[node]));
      if (parts.size() > 1) gaps_.push_back({graph.order[nodes[node]], std::move(parts)});
    }
  }
}

// Spans in order, those that meet made one.
std::vector<Bounds> Worlds::joined(std::vector<Bounds> spans) {
  std::sort(spans.begin(), spans.end(), [](const Bounds& a, const Bounds& b) {
    return a.earliest != b.earliest ? a.earliest < b.earliest : a.latest < b.latest;
  });
  std::vector<Bounds> parts;
  for (const Bounds& span : spans) {
    if (!parts.empty() && span.earliest <= parts.back().latest + 1)
      parts.back().latest = std::max(parts.back().latest, span.latest);
    else
      parts.push_back(span);
  }
  return parts;
}

}  // namespace lathbook::timeline
