// Laying out a network: connected parts by union-find, cycles by Tarjan's algorithm, adjacency by counting
// sort.
#include "plugins/timeline/network_graph.hpp"

#include <algorithm>
#include <numeric>
#include <utility>

namespace lathbook::timeline {

// Between survey and laying out: variables have a slot (grouped by component, but in input order), arcs
// lead from slot to slot.
struct Graph::Draft {
  struct Degree {
    std::uint32_t bounds;  // counts at first, then where the next one goes
    std::uint32_t onward;
  };
  Flat<std::uint32_t> parent;     // union-find over variables
  Flat<Degree> degree;            // by variable
  Flat<Degree> next;              // slot -> where its next arcs go
  Flat<std::uint32_t> component;  // variable -> component
  Flat<Var> var_at;               // slot -> variable
  Flat<std::uint32_t> slot;       // variable -> slot
  Flat<std::uint32_t> begin;      // slot -> first arc
  Flat<std::uint32_t> onward;     // slot -> first arc to another slot
  Flat<Arc> arcs;                 // `to` is a slot or a code, with the level in the two top bits
  Flat<Node> node_of_slot;
  std::vector<Link> loops;

  std::uint32_t find(std::uint32_t at) {
    while (parent[at] != at) {
      parent[at] = parent[parent[at]];
      at = parent[at];
    }
    return at;
  }
  void join(std::uint32_t a, std::uint32_t b) {
    a = find(a);
    b = find(b);
    if (a != b) parent[std::max(a, b)] = std::min(a, b);
  }
};

namespace {

// Arcs of the draft: 30 bits of slot, or of the code less the two top bits, and two of level.
constexpr std::uint32_t kSlotMask = (std::uint32_t{1} << 30) - 1;
constexpr std::uint32_t kNodesAhead = 8;
constexpr std::uint32_t kStretch = 1 << 13;  // slots
constexpr std::uint32_t kFirstCode = kFirstBound & kSlotMask;

std::uint32_t count(std::size_t size) {
  return static_cast<std::uint32_t>(size);
}

bool is_onward(const Constraint& constraint) {
  return constraint.from != kOrigin && constraint.to != kOrigin && constraint.from != constraint.to;
}

Var some_var(const Constraint& constraint) {
  return constraint.from == kOrigin ? constraint.to : constraint.from;
}

// Turns counts stored one place on into starting offsets.
void accumulate(std::vector<std::uint32_t>& begin) {
  for (std::size_t at = 1; at < begin.size(); ++at) begin[at] += begin[at - 1];
}

}  // namespace

Graph::Graph(const Network& network, const std::vector<Cause>& leave_out) : network_(&network) {
  left_out_ = with_joints(leave_out);
  Draft draft;
  survey(draft);
  number_slots(draft);
  spread(draft);
  condense(draft);
  lay_out(draft);
  place_choices(draft);
  turn_blocks();
}

// By claim; empty when nothing is left out. A joint claim goes with any of its parts.
std::vector<bool> Graph::with_joints(const std::vector<Cause>& leave_out) const {
  std::vector<bool> out;
  if (!leave_out.empty()) out.resize(network_->causes(), false);
  for (const Cause cause : leave_out)
    if (cause != kStructural && cause < out.size()) {
      out[cause] = true;
      if (const auto* joints = network_->joints_of(cause))
        for (const Cause joint : *joints) out[joint] = true;
    }
  return out;
}

std::vector<std::uint32_t> Graph::leave_out(const std::vector<Cause>& claims) {
  const std::vector<bool> before = std::exchange(left_out_, with_joints(claims));
  std::vector<std::uint32_t> changed;
  for (Cause cause = 0; cause < network_->causes(); ++cause) {
    const bool was_out = !before.empty() && before[cause];
    if (was_out != is_left_out(cause) && holder[cause] != kNone) changed.push_back(component_of_claim(cause));
  }
  std::sort(changed.begin(), changed.end());
  changed.erase(std::unique(changed.begin(), changed.end()), changed.end());
  for (const std::uint32_t component : changed) put_in_force(component);
  return changed;
}

// As when the network was laid out: no option is in force.
void Graph::put_in_force(std::uint32_t component) {
  const Node begin = component_begin[component], end = component_begin[component + 1];
  for (std::uint32_t arc = arc_begin[begin]; arc < arc_begin[end]; ++arc) {
    const Link link = arcs[arc].link;
    const Constraint& told = constraint(link);
    arc_since[arc] = is_option(link) || is_left_out(told.cause) ? kOff : told.level;
  }
}

// `soon` is told of each constraint a little before `use` is.
template <typename Use, typename Soon>
void Graph::for_each_link(Use use, Soon soon) const {
  constexpr std::size_t ahead = 16;
  Link link = 0;
  for (const auto* rows : {&network_->constraints(), &network_->options()})
    for (std::size_t at = 0; at < rows->size(); ++at) {
      if (at + ahead < rows->size()) soon((*rows)[at + ahead]);
      use(link++, (*rows)[at]);
    }
}

// A component is what hangs together through constraints, choices or a common claim: setting a claim
// aside must not reach beyond it.
void Graph::survey(Draft& draft) {
  const std::uint32_t variables = network_->variables();
  draft.parent.resize(variables);
  std::iota(draft.parent.begin(), draft.parent.end(), 0U);
  draft.degree.assign(variables, {0, 0});
  holder.assign(network_->causes(), kNone);
  const auto hold = [&](Cause cause, Var var) {
    Var& held = holder[cause];
    if (held == kNone)
      held = var;
    else
      draft.join(held, var);
  };
  const bool joints = network_->has_joints();
  const auto survey_one = [&](Link link, const Constraint& constraint) {
    const Var var = some_var(constraint);
    if (is_onward(constraint)) {
      draft.join(constraint.from, constraint.to);
      ++draft.degree[var].onward;
    } else if (constraint.from != constraint.to) {
      ++draft.degree[var].bounds;
    } else if (constraint.weight < 0 && !is_option(link)) {
      draft.loops.push_back(link);
    }
    if (constraint.level == 0) return;
    hold(constraint.cause, var);
    if (!joints) return;
    if (const auto* parts = network_->parts_of(constraint.cause))
      for (const Cause part : *parts) hold(part, var);
  };
  for_each_link(survey_one, [&](const Constraint& constraint) {
    fetch_ahead(&draft.parent[constraint.from]);
    fetch_ahead(&draft.parent[constraint.to]);
    fetch_ahead(&draft.degree[some_var(constraint)]);
    if (constraint.level != 0) fetch_ahead(&holder[constraint.cause]);
  });
  for (const Network::Group& group : network_->groups()) {
    Var first = kNone;
    for (const Cause claim : group.claims) {
      if (holder[claim] == kNone) continue;
      if (first == kNone) first = holder[claim];
      draft.join(first, holder[claim]);
    }
  }
}

void Graph::number_slots(Draft& draft) {
  const std::uint32_t variables = network_->variables();
  draft.component.assign(variables, kNone);
  std::vector<std::uint32_t> next(1, 0);
  for (Var var = 1; var < variables; ++var) {
    const Var root = draft.find(var);
    if (draft.component[root] == kNone) {
      draft.component[root] = count(next.size() - 1);
      next.push_back(0);
    }
    draft.component[var] = draft.component[root];
    ++next[draft.component[var] + 1];
  }
  accumulate(next);
  component_begin = next;
  draft.slot.resize(variables);
  draft.var_at.resize(variables - 1);
  for (Var var = 1; var < variables; ++var) {
    const std::uint32_t slot = next[draft.component[var]]++;
    draft.slot[var] = slot;
    draft.var_at[slot] = var;
  }
  draft.parent = {};
  draft.begin.reserve(variables);
  draft.onward.reserve(variables);
  draft.next.reserve(variables);
  std::uint32_t total = 0;
  for (const Var var : draft.var_at) {
    const Draft::Degree degree = draft.degree[var];
    draft.begin.push_back(total);
    draft.onward.push_back(total + degree.bounds);
    draft.next.push_back({total, total + degree.bounds});
    total += degree.bounds + degree.onward;
  }
  draft.begin.push_back(total);
  draft.degree = {};
}

// In two steps, so that a large network is never written to all over: first into stretches of slots that each
// fit the processor's cache, then within each stretch.
void Graph::spread(Draft& draft) {
  struct Row {
    Arc arc;
    std::uint32_t slot;
  };
  const std::uint32_t slots = count(draft.var_at.size());
  std::vector<std::uint32_t> next;  // stretch -> where its next row goes
  for (std::uint32_t slot = 0; slot < slots; slot += kStretch) next.push_back(draft.begin[slot]);
  Flat<Row> rows(draft.begin.back());
  const auto spread_one = [&](Link link, const Constraint& constraint) {
    if (constraint.from == constraint.to) return;
    Node to = constraint.cause == kHorizon ? (constraint.to == kOrigin ? kLowerHorizon : kUpperHorizon)
                                           : (constraint.to == kOrigin ? kLower : kUpper);
    if (is_onward(constraint)) to = draft.slot[constraint.to];
    const std::uint32_t slot = draft.slot[some_var(constraint)];
    rows[next[slot / kStretch]++] = {
        {constraint.weight, (to & kSlotMask) | std::uint32_t{constraint.level} << 30, link}, slot};
  };
  for_each_link(spread_one, [&](const Constraint& constraint) {
    fetch_ahead(&draft.slot[constraint.from]);
    fetch_ahead(&draft.slot[constraint.to]);
  });
  draft.arcs.resize(draft.begin.back());
  for (const Row& row : rows) {
    Draft::Degree& free = draft.next[row.slot];
    const bool bound = (row.arc.to & kSlotMask) >= kFirstCode;
    draft.arcs[bound ? free.bounds++ : free.onward++] = row.arc;
  }
  draft.next = {};
}

// Tarjan's algorithm without recursion. Blocks come out last first, so each component is numbered from
// its end; DFS order also keeps what belongs together close in memory.
void Graph::condense(Draft& draft) {
  const std::uint32_t slots = count(draft.var_at.size());
  struct Visit {  // in one place, since slots are met in no order
    std::uint32_t index = 0;
    std::uint32_t low = 0;
    std::uint32_t next = 0;  ///< arc
    std::uint32_t end = 0;
  };
  Flat<Visit> at_slot(slots, Visit{});
  Flat<std::uint32_t> path, work;
  draft.node_of_slot.assign(slots, kNone);
  std::uint32_t visits = 0;
  for (std::uint32_t component = 0; component < components(); ++component) {
    Node free = component_begin[component + 1];
    const std::size_t first_block = blocks.size();
    block_begin.push_back(count(first_block));
    const auto enter = [&](std::uint32_t slot) {
      ++visits;
      at_slot[slot] = {visits, visits, draft.onward[slot], draft.begin[slot + 1]};
      for (std::uint32_t arc = draft.onward[slot]; arc < draft.begin[slot + 1]; ++arc)
        fetch_ahead(&at_slot[draft.arcs[arc].to & kSlotMask]);
      path.push_back(slot);
      work.push_back(slot);
    };
    for (std::uint32_t root = component_begin[component]; root < component_begin[component + 1]; ++root) {
      if (at_slot[root].index != 0) continue;
      enter(root);
      while (!work.empty()) {
        Visit& at = at_slot[work.back()];
        if (at.next < at.end) {
          const std::uint32_t to = draft.arcs[at.next++].to & kSlotMask;
          if (at_slot[to].index == 0)
            enter(to);
          else if (draft.node_of_slot[to] == kNone)
            at.low = std::min(at.low, at_slot[to].index);
          continue;
        }
        const std::uint32_t slot = work.back();
        work.pop_back();
        if (!work.empty()) at_slot[work.back()].low = std::min(at_slot[work.back()].low, at.low);
        if (at.low != at.index) continue;
        const Node end = free;
        std::uint32_t member = kNone;
        do {
          member = path.back();
          path.pop_back();
          draft.node_of_slot[member] = --free;
        } while (member != slot);
        if (end - free > 1) blocks.push_back({free, end, 0});
      }
    }
    std::reverse(blocks.begin() + static_cast<std::ptrdiff_t>(first_block), blocks.end());
  }
  block_begin.push_back(count(blocks.size()));
}

void Graph::lay_out(Draft& draft) {
  const std::uint32_t total = count(draft.var_at.size());
  order.resize(total);
  place.assign(std::size_t{total} + 1, kNone);
  Flat<std::uint32_t> slot_at(total);
  for (std::uint32_t slot = 0; slot < total; ++slot) {
    const Node node = draft.node_of_slot[slot];
    slot_at[node] = slot;
    order[node] = draft.var_at[slot];
    place[draft.var_at[slot]] = node;
  }
  option_arc.assign(network_->options().size(), kNone);
  const Link first_option = count(network_->constraints().size());
  arc_begin.reserve(std::size_t{total} + 1);
  arc_onward.reserve(total);
  arcs.reserve(draft.begin.back());
  arc_since.reserve(draft.begin.back());
  for (Node node = 0; node < total; ++node) {
    arc_begin.push_back(count(arcs.size()));
    const std::uint32_t slot = slot_at[node];
    if (node + 2 * kNodesAhead < total) {
      const std::uint32_t far = slot_at[node + 2 * kNodesAhead], soon = slot_at[node + kNodesAhead];
      fetch_ahead(draft.arcs.data() + draft.begin[far]);
      fetch_ahead(draft.arcs.data() + draft.begin[far + 1]);
      for (std::uint32_t at = draft.onward[soon]; at < draft.begin[soon + 1]; ++at)
        fetch_ahead(&draft.node_of_slot[draft.arcs[at].to & kSlotMask]);
    }
    arc_onward.push_back(count(arcs.size()) + draft.onward[slot] - draft.begin[slot]);
    for (std::uint32_t at = draft.begin[slot]; at < draft.begin[slot + 1]; ++at) {
      const Arc& arc = draft.arcs[at];
      auto since = static_cast<std::uint8_t>(arc.to >> 30);
      if (arc.link >= first_option) {
        option_arc[arc.link - first_option] = count(arcs.size());
        since = kOff;
      } else if (since != 0 && !left_out_.empty() && left_out_[network_->constraints()[arc.link].cause]) {
        since = kOff;
      }
      const std::uint32_t to = arc.to & kSlotMask;
      const Node head = to >= kFirstCode ? to | ~kSlotMask : draft.node_of_slot[to];
      arcs.push_back({arc.weight, head, arc.link});
      arc_since.push_back(since);
    }
  }
  arc_begin.push_back(count(arcs.size()));
  draft.arcs = {};
}

void Graph::place_choices(const Draft& draft) {
  std::vector<std::pair<std::uint32_t, std::uint32_t>> choice_at, loop_at;  // (component, index)
  const auto& rows = network_->choices();
  for (std::uint32_t choice = 0; choice < rows.size(); ++choice) {
    const auto& first = network_->alternatives()[rows[choice].first_alternative];
    const auto& last = network_->alternatives()[rows[choice].end_alternative - 1];
    if (first.first_option == last.end_option) continue;  // every alternative is empty
    choice_at.emplace_back(draft.component[some_var(network_->options()[first.first_option])], choice);
  }
  for (const Link link : draft.loops) loop_at.emplace_back(draft.component[constraint(link).from], link);
  const auto pack = [&](auto& pairs, auto& begin, auto& items) {
    std::sort(pairs.begin(), pairs.end());
    begin.assign(std::size_t{components()} + 1, 0);
    for (const auto& [component, item] : pairs) {
      ++begin[component + 1];
      items.push_back(item);
    }
    accumulate(begin);
  };
  pack(choice_at, choice_begin, choice_order);
  pack(loop_at, loop_begin, loops);
}

void Graph::turn_blocks() {
  for (Block& block : blocks) {
    block.first_inward = count(inward_begin.size());
    const Node size = block.end - block.begin;
    std::vector<std::uint32_t> next(std::size_t{size} + 1, 0);
    const auto each = [&](auto use) {
      for (Node from = block.begin; from < block.end; ++from)
        for (std::uint32_t arc = arc_onward[from]; arc < arc_begin[from + 1]; ++arc)
          if (arcs[arc].to >= block.begin && arcs[arc].to < block.end) use(from, arc);
    };
    each([&](Node, std::uint32_t arc) { ++next[arcs[arc].to - block.begin + 1]; });
    accumulate(next);
    const std::uint32_t base = count(inward.size());
    for (const std::uint32_t offset : next) inward_begin.push_back(base + offset);
    inward.resize(base + next.back());
    each([&](Node from, std::uint32_t arc) {
      inward[base + next[arcs[arc].to - block.begin]++] = {arc, from};
    });
  }
}

std::uint32_t Graph::component_of(Node node) const {
  const auto after = std::upper_bound(component_begin.begin(), component_begin.end(), node);
  return count(static_cast<std::size_t>(after - component_begin.begin())) - 1;
}

std::uint32_t Graph::component_of_claim(Cause claim) const {
  return holder[claim] == kNone ? kNone : component_of(place[holder[claim]]);
}

const Block* Graph::block_of(Node node) const {
  const auto after = std::upper_bound(blocks.begin(), blocks.end(), node,
                                      [](Node wanted, const Block& block) { return wanted < block.end; });
  return after != blocks.end() && after->begin <= node ? &*after : nullptr;
}

}  // namespace lathbook::timeline
