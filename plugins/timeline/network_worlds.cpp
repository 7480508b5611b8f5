// Depth-first through the ways of settling a group of choices; every step moves only the bounds it reaches.
#include "plugins/timeline/network_worlds.hpp"

#include <functional>
#include <set>
#include <tuple>

namespace lathbook::timeline {

namespace {

constexpr std::size_t kMostWorlds = 256;
// Constraints looked at in one component and level; some tenth of a second.
constexpr std::size_t kMostWork = 4'000'000;

}  // namespace

void Worlds::open(std::uint32_t component) {
  const Graph& graph = state_.graph;
  gaps_.clear();
  if (component != component_) indexed_ = false;
  component_ = component;
  for (std::uint32_t at = graph.choice_begin[component]; at < graph.choice_begin[component + 1]; ++at)
    state_.choices[graph.choice_order[at]].exact = false;
}

// An alternative that holds whatever is chosen makes the choice say nothing.
bool Worlds::matters(std::uint32_t choice) const {
  const Network& network = state_.network();
  const auto& row = network.choices()[choice];
  for (std::uint32_t k = row.first_alternative; k < row.end_alternative; ++k) {
    const auto& alternative = network.alternatives()[k];
    bool holds = true;
    for (std::uint32_t option = alternative.first_option; option < alternative.end_option && holds;
         ++option) {
      const Constraint& constraint = network.options()[option];
      if (constraint.from == constraint.to)
        holds = constraint.weight >= 0;
      else
        holds = at(Side::latest, constraint.to) + at(Side::earliest, constraint.from) <= constraint.weight;
    }
    if (holds) return false;
  }
  return true;
}

// Arcs by their heads; those of options are among them and take part while they are imposed.
void Worlds::index(std::uint32_t component) {
  if (indexed_) return;
  indexed_ = true;
  const Graph& graph = state_.graph;
  const Node begin = graph.component_begin[component], end = graph.component_begin[component + 1];
  inward_begin_.assign(std::size_t{end} - begin + 1, 0);
  const auto each = [&](auto use) {
    for (Node from = begin; from < end; ++from)
      for (std::uint32_t arc = graph.arc_onward[from]; arc < graph.arc_begin[from + 1]; ++arc) use(from, arc);
  };
  each([&](Node, std::uint32_t arc) { ++inward_begin_[graph.arcs[arc].to - begin + 1]; });
  for (std::size_t node = 1; node < inward_begin_.size(); ++node)
    inward_begin_[node] += inward_begin_[node - 1];
  inward_.resize(inward_begin_.back());
  std::vector<std::uint32_t> next(inward_begin_.begin(), inward_begin_.end() - 1);
  each([&](Node from, std::uint32_t arc) { inward_[next[graph.arcs[arc].to - begin]++] = {arc, from}; });
}

std::vector<Worlds::Group> Worlds::open_choices() {
  const Graph& graph = state_.graph;
  std::vector<Group> groups;
  bool copied = false;
  for (std::uint32_t at = graph.choice_begin[component_]; at < graph.choice_begin[component_ + 1]; ++at) {
    const std::uint32_t choice = graph.choice_order[at];
    if (!rules_.is_open(choice, level_)) continue;
    if (!copied) values_ = base_;
    copied = true;
    if (matters(choice))
      groups.emplace_back().choices = {choice};
    else
      state_.choices[choice].exact = true;
  }
  return groups;
}

Worlds::Outcome Worlds::explore(std::uint32_t component, std::uint8_t level, std::vector<Core>& cores) {
  open(component);
  level_ = level;
  std::vector<Group> groups = open_choices();
  if (groups.empty()) return Outcome::nothing;
  index(component);
  for (auto& touch : touch_) touch.open(state_.graph, component, 0);
  work_ = 0;
  list_starts(groups);
  for (std::size_t at = 0; at < groups.size(); ++at) {
    if (groups[at].merged) continue;
    if (!groups[at].complete) enumerate(groups[at]);
    if (!groups[at].complete) continue;
    if (groups[at].worlds.empty()) {
      cores.push_back(core_of(groups[at]));
      return Outcome::nothing;
    }
    join_neighbour(groups, at);
  }
  bool settled = false, narrowed = false;
  for (const Group& group : groups) {
    if (group.merged || !group.complete) continue;
    for (const std::uint32_t choice : group.choices) state_.choices[choice].exact = group.exact;
    settled |= rule_out(group);
    narrowed |= narrow(group);
  }
  note_gaps(groups);
  return settled ? Outcome::settled : narrowed ? Outcome::bounds : Outcome::nothing;
}

// ---- groups that interfere ----

// Where the constraints of each choice start: a lower latest matters at their tails, a higher earliest at
// their heads.
void Worlds::list_starts(const std::vector<Group>& groups) {
  const Network& network = state_.network();
  starts_.clear();
  group_of_.clear();
  for (std::uint32_t at = 0; at < groups.size(); ++at) {
    const std::uint32_t choice = groups[at].choices.front();
    group_of_[choice] = at;
    const auto& row = network.choices()[choice];
    for (std::uint32_t k = row.first_alternative; k < row.end_alternative; ++k) {
      if (rules_.is_refuted(choice, k - row.first_alternative)) continue;
      const auto& alternative = network.alternatives()[k];
      for (std::uint32_t option = alternative.first_option; option < alternative.end_option; ++option) {
        const Constraint& constraint = network.options()[option];
        if (constraint.from != kOrigin)
          starts_.push_back({state_.graph.place[constraint.from], Side::latest, choice});
        if (constraint.to != kOrigin)
          starts_.push_back({state_.graph.place[constraint.to], Side::earliest, choice});
      }
    }
  }
  std::sort(starts_.begin(), starts_.end(), [](const Start& a, const Start& b) {
    return std::tie(a.side, a.node, a.choice) < std::tie(b.side, b.node, b.choice);
  });
}

// Joins the group with one that it interferes with, as a new group at the end. When the worlds of both
// together are too many, each by itself is still sound, though perhaps wider than necessary.
void Worlds::join_neighbour(std::vector<Group>& groups, std::size_t at) {
  groups[at].exact = true;
  std::set<std::uint32_t> tried = {static_cast<std::uint32_t>(at)};
  for (std::size_t touch = 0; touch < groups[at].touched.size(); ++touch) {
    const Touch moved = groups[at].touched[touch];
    auto start = std::lower_bound(starts_.begin(), starts_.end(), moved, [](const Start& a, const Touch& b) {
      return std::tie(a.side, a.node) < std::tie(b.side, b.node);
    });
    for (; start != starts_.end() && start->node == moved.node && start->side == moved.side; ++start) {
      const std::uint32_t other = group_of_[start->choice];
      if (!tried.insert(other).second) continue;
      Group both;
      both.choices = groups[other].choices;
      both.choices.insert(both.choices.end(), groups[at].choices.begin(), groups[at].choices.end());
      enumerate(both);
      if (!both.complete) {
        groups[at].exact = groups[other].exact = false;
        groups[other].bounded = true;
        continue;
      }
      groups[at].merged = groups[other].merged = true;
      for (const std::uint32_t choice : both.choices)
        group_of_[choice] = static_cast<std::uint32_t>(groups.size());
      groups.push_back(std::move(both));
      return;
    }
  }
  groups[at].exact = groups[at].exact && !groups[at].bounded;
}

// ---- one group ----

std::size_t Worlds::live(std::uint32_t choice) const {
  const Network& network = state_.network();
  const auto& row = network.choices()[choice];
  std::size_t count = 0;
  for (std::uint32_t k = row.first_alternative; k < row.end_alternative; ++k) {
    if (rules_.is_refuted(choice, k - row.first_alternative)) continue;
    const auto& alternative = network.alternatives()[k];
    bool can = true;
    for (std::uint32_t option = alternative.first_option; option < alternative.end_option && can; ++option) {
      const Constraint& constraint = network.options()[option];
      can = constraint.from == constraint.to
                ? constraint.weight >= 0
                : at(Side::latest, constraint.from) + constraint.weight + at(Side::earliest, constraint.to) >=
                      0;
    }
    count += can ? 1 : 0;
  }
  return count;
}

// The choice with the fewest alternatives left.
std::uint32_t Worlds::next_choice(const Group& group, const std::vector<Frame>& path) const {
  std::uint32_t best = kNone;
  std::size_t fewest = SIZE_MAX;
  for (const std::uint32_t choice : group.choices) {
    const bool taken =
        std::any_of(path.begin(), path.end(), [&](const Frame& frame) { return frame.choice == choice; });
    if (taken) continue;
    const std::size_t count = live(choice);
    if (count >= fewest) continue;
    best = choice;
    fewest = count;
  }
  return best;
}

std::vector<Decision> Worlds::decisions(const std::vector<Frame>& path) {
  std::vector<Decision> taken;
  for (const Frame& frame : path) taken.push_back({frame.choice, frame.next - 1});
  return taken;
}

void Worlds::enumerate(Group& group) {
  std::vector<Frame> path;
  bool deeper = true;
  while (group.worlds.size() <= kMostWorlds && work_ < kMostWork) {
    if (deeper) {
      work_ += 4 * group.choices.size();
      const std::uint32_t choice = next_choice(group, path);
      if (choice == kNone)
        note_world(group, path);
      else
        path.push_back({choice, 0, trail_.size(), imposed_.size()});
    }
    while (!path.empty() && !advance(group, path)) path.pop_back();
    if (path.empty()) {
      group.complete = true;
      break;
    }
    deeper = true;
  }
  retreat(0, 0);
  std::sort(group.touched.begin(), group.touched.end(), [](const Touch& a, const Touch& b) {
    return a.side != b.side ? a.side < b.side : a.node < b.node;
  });
  for (const Touch& touch : group.touched) touch_[static_cast<std::size_t>(touch.side)][touch.node] = 0;
}

// Takes the next alternative of the last choice that leads somewhere; false when there is none.
bool Worlds::advance(Group& group, std::vector<Frame>& path) {
  Frame& frame = path.back();
  const auto& row = state_.network().choices()[frame.choice];
  const std::uint32_t count = row.end_alternative - row.first_alternative;
  retreat(frame.trail, frame.imposed);
  while (frame.next < count) {
    const std::uint32_t alternative = frame.next++;
    if (rules_.is_refuted(frame.choice, alternative)) continue;
    std::vector<Link> loop;
    if (impose(frame.choice, alternative, loop)) return true;
    group.dead.push_back({decisions(path), std::move(loop)});
    retreat(frame.trail, frame.imposed);
  }
  return false;
}

void Worlds::note_world(Group& group, const std::vector<Frame>& path) {
  group.worlds.push_back(decisions(path));
  const auto world = static_cast<std::uint32_t>(group.worlds.size());
  work_ += trail_.size();
  for (const Change& change : trail_) {
    const Tick dist = values_[static_cast<std::size_t>(change.side)][change.node].dist;
    std::uint32_t& at = touch_[static_cast<std::size_t>(change.side)][change.node];
    if (at == 0) {
      group.touched.push_back({change.node, change.side, 0, 0, dist});
      at = static_cast<std::uint32_t>(group.touched.size());
    }
    Touch& touch = group.touched[at - 1];
    if (touch.last == world) continue;  // the trail may name a bound twice
    touch.last = world;
    ++touch.worlds;
    touch.widest = std::max(touch.widest, dist);
  }
}

// ---- one step ----

bool Worlds::impose(std::uint32_t choice, std::uint32_t alternative, std::vector<Link>& loop) {
  const Network& network = state_.network();
  const auto& row = network.alternatives()[network.choices()[choice].first_alternative + alternative];
  for (std::uint32_t option = row.first_option; option < row.end_option; ++option)
    if (!impose_option(option, loop)) return false;
  return true;
}

bool Worlds::impose_option(std::uint32_t option, std::vector<Link>& loop) {
  const Constraint& constraint = state_.network().options()[option];
  const Link link = static_cast<Link>(state_.network().constraints().size()) + option;
  if (constraint.from == constraint.to) {
    if (constraint.weight >= 0) return true;
    loop = {link};
    return false;
  }
  const std::uint32_t arc = state_.graph.option_arc[option];
  if (state_.graph.arc_since[arc] != level_) {
    state_.graph.arc_since[arc] = level_;
    imposed_.push_back(arc);
  }
  const auto label = [&](Side side, Var var) {
    return var == kOrigin ? 0 : values_[static_cast<std::size_t>(side)][state_.graph.place[var]].label;
  };
  return spread(Side::latest, constraint.to, at(Side::latest, constraint.from) + constraint.weight,
                next_label(label(Side::latest, constraint.from), level_), link, constraint.from, loop) &&
         spread(Side::earliest, constraint.from, at(Side::earliest, constraint.to) + constraint.weight,
                next_label(label(Side::earliest, constraint.to), level_), link, constraint.to, loop);
}

// Offers `dist` to the head of the new constraint and spreads what follows, the greatest gain first: as the
// values before satisfied all other constraints, gains only get smaller on the way and each variable is
// settled once (the increment of S. Cotton and O. Maler, 'Fast and flexible difference constraint propagation
// for DPLL(T)', SAT 2006). Gain at the tail of the new constraint is a loop that is too tight; so is a latest
// date before the earliest.
bool Worlds::spread(Side side, Var head, Tick dist, std::uint64_t label, Link link, Var tail,
                    std::vector<Link>& loop) {
  Values& values = values_[static_cast<std::size_t>(side)];
  if (dist > kFar) return true;
  if (head == kOrigin) {
    if (dist >= 0) return true;
    const Side own = side;
    loop = chain_of(state_, values, tail, own);
    if (own == Side::latest)
      loop.push_back(link);
    else
      loop.insert(loop.begin(), link);
    loop = simple_loop(state_, loop);
    return false;
  }
  heap_.clear();
  push(side, state_.graph.place[head], dist, label, link);
  const Node stop = tail == kOrigin ? kNone : state_.graph.place[tail];
  while (!heap_.empty()) {
    std::pop_heap(heap_.begin(), heap_.end(), std::greater<>());
    const Item item = heap_.back();
    heap_.pop_back();
    Value& value = values[item.node];
    if (item.dist >= value.dist) continue;
    trail_.push_back({value, item.node, side});
    value = {item.dist, item.label, item.link};
    if (item.node == stop) {
      loop = ring_behind(side, item.node);
      return false;
    }
    if (values_[0][item.node].dist + values_[1][item.node].dist < 0) {
      loop = crossing(item.node);
      return false;
    }
    spread_from(side, item.node);
  }
  return true;
}

void Worlds::push(Side side, Node node, Tick dist, std::uint64_t label, Link link) {
  const Tick known = values_[static_cast<std::size_t>(side)][node].dist;
  if (dist >= known) return;
  heap_.push_back({dist - known, label, node, dist, link});
  std::push_heap(heap_.begin(), heap_.end(), std::greater<>());
}

void Worlds::spread_from(Side side, Node node) {
  const Graph& graph = state_.graph;
  const Value from = values_[static_cast<std::size_t>(side)][node];
  const auto offer = [&](Node to, std::uint32_t arc) {
    ++work_;
    const std::uint8_t since = graph.arc_since[arc];
    if (since <= level_)
      push(side, to, from.dist + graph.arcs[arc].weight, next_label(from.label, since), graph.arcs[arc].link);
  };
  if (side == Side::latest) {
    for (std::uint32_t arc = graph.arc_onward[node]; arc < graph.arc_begin[node + 1]; ++arc)
      offer(graph.arcs[arc].to, arc);
    return;
  }
  const std::uint32_t row = node - graph.component_begin[component_];
  for (std::uint32_t at = inward_begin_[row]; at < inward_begin_[row + 1]; ++at)
    offer(inward_[at].from, inward_[at].arc);
}

// A latest date before the earliest: its two reasons make a loop that is too tight. While bounds are being
// spread a reason may already run in a ring, which then is such a loop by itself.
std::vector<Link> Worlds::crossing(Node node) const {
  std::vector<Link> walk;
  for (const Side side : {Side::latest, Side::earliest}) {
    const std::vector<Link> ring = ring_behind(side, node);
    if (!ring.empty()) return ring;
    const std::vector<Link> chain =
        chain_of(state_, values_[static_cast<std::size_t>(side)], state_.graph.order[node], side);
    walk.insert(walk.end(), chain.begin(), chain.end());
  }
  return simple_loop(state_, walk);
}

// The ring that the reason of a bound runs into, in the order of its constraints; empty when it ends at the
// origin.
std::vector<Link> Worlds::ring_behind(Side side, Node node) const {
  const Values& values = values_[static_cast<std::size_t>(side)];
  std::unordered_map<Var, std::size_t> place;
  std::vector<Link> links;
  for (Var var = state_.graph.order[node]; var != kOrigin;) {
    const auto [known, is_new] = place.emplace(var, links.size());
    if (!is_new) {
      links.erase(links.begin(), links.begin() + static_cast<std::ptrdiff_t>(known->second));
      if (side == Side::latest) std::reverse(links.begin(), links.end());
      return links;
    }
    const Link link = values[state_.graph.place[var]].link;
    if (link == kNone) break;
    links.push_back(link);
    var = state_.before(link, side);
  }
  return {};
}

void Worlds::retreat(std::size_t trail, std::size_t imposed) {
  while (trail_.size() > trail) {
    const Change& change = trail_.back();
    values_[static_cast<std::size_t>(change.side)][change.node] = change.before;
    trail_.pop_back();
  }
  while (imposed_.size() > imposed) {
    state_.graph.arc_since[imposed_.back()] = kOff;
    imposed_.pop_back();
  }
}

}  // namespace lathbook::timeline
