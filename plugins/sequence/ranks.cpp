// Ranks upward in topological order, then lets what hangs loose below come up to what it carries.
#include "plugins/sequence/ranks.hpp"

#include <algorithm>
#include <numeric>
#include <set>

#include "plugins/sequence/digraph.hpp"

namespace lathbook::sequence {

namespace {

class Ranker {
public:
  explicit Ranker(const Sequence& sequence)
      : sequence_(sequence), size_(static_cast<Node>(sequence.things.size())) {}

  Ranks make() {
    const std::vector<Arc> arcs = ordering();
    const Digraph down(size_, arcs);
    std::vector<Arc> turned;
    for (const Arc& arc : arcs) turned.emplace_back(arc.second, arc.first);
    const Digraph up(size_, turned);
    sort(down);
    const auto bands = static_cast<std::uint32_t>(std::max<std::size_t>(sequence_.phases.size(), 1));
    ranks_.band.assign(size_, 0);
    within_.assign(size_, 0);
    std::vector<std::uint32_t> height(bands, 1);
    for (const Node node : sorted_) {
      place(node, down);
      height[ranks_.band[node]] = std::max(height[ranks_.band[node]], within_[node] + 1);
    }
    ranks_.first.assign(bands + 1, 0);
    for (std::uint32_t at = 0; at < bands; ++at) ranks_.first[at + 1] = ranks_.first[at] + height[at];
    ranks_.rank.resize(size_);
    for (Node node = 0; node < size_; ++node)
      ranks_.rank[node] = ranks_.first[ranks_.band[node]] + within_[node];
    for (auto node = sorted_.rbegin(); node != sorted_.rend(); ++node)
      if (down.next(*node).empty()) lift(*node, up);
    return std::move(ranks_);
  }

private:
  // Orders, and coats where these do not go round with them; ends in a circle are left to stand side by side.
  std::vector<Arc> ordering() const {
    std::vector<Arc> arcs;
    for (const SequenceRelation& relation : sequence_.relations)
      if (relation.kept && relation.later != relation.earlier &&
          (relation.bond == SequenceBond::order || relation.bond == SequenceBond::coat))
        arcs.emplace_back(relation.later, relation.earlier);
    const Parts parts = strong_parts(Digraph(size_, arcs));
    arcs.erase(
        std::remove_if(arcs.begin(), arcs.end(),
                       [&](const Arc& arc) { return parts.part_of[arc.first] == parts.part_of[arc.second]; }),
        arcs.end());
    return arcs;
  }

  void sort(const Digraph& down) {
    const Parts parts = strong_parts(down);
    sorted_.resize(size_);
    std::iota(sorted_.begin(), sorted_.end(), Node{0});
    std::stable_sort(sorted_.begin(), sorted_.end(),
                     [&](Node a, Node b) { return parts.part_of[a] < parts.part_of[b]; });
  }

  void place(Node node, const Digraph& down) {
    std::uint32_t band = 0, within = 0;
    if (sequence_.things[node].first_phase)
      band = static_cast<std::uint32_t>(*sequence_.things[node].first_phase);
    for (const Node below : down.next(node)) band = std::max(band, ranks_.band[below]);
    for (const Node below : down.next(node))
      if (ranks_.band[below] == band) within = std::max(within, within_[below] + 1);
    ranks_.band[node] = band;
    within_[node] = within;
  }

  // Nothing below holds it down: it comes up to the lowest of what stands on it, within its band; what has
  // no phase said, into any.
  void lift(Node node, const Digraph& up) {
    if (up.next(node).empty()) return;
    std::uint32_t top = UINT32_MAX;
    for (const Node above : up.next(node)) top = std::min(top, ranks_.rank[above]);
    if (top == 0) return;
    --top;
    if (sequence_.things[node].first_phase) top = std::min(top, ranks_.first[ranks_.band[node] + 1] - 1);
    ranks_.rank[node] = std::max(ranks_.rank[node], top);
    while (ranks_.first[ranks_.band[node] + 1] <= ranks_.rank[node]) ++ranks_.band[node];
  }

  const Sequence& sequence_;
  Node size_;
  std::vector<Node> sorted_;
  std::vector<std::uint32_t> within_;
  Ranks ranks_;
};

}  // namespace

Ranks rank_things(const Sequence& sequence) {
  return Ranker(sequence).make();
}

namespace {

// Finish and element, where below the finish lies another that coats the same element: one line to the lowest
// of the stack is enough.
std::set<Arc> coats_on_coats(const Sequence& sequence) {
  constexpr std::size_t kMostLooked = 2000;
  std::vector<Arc> below;
  std::set<Arc> coats;
  for (const SequenceRelation& relation : sequence.relations) {
    if (relation.relation == "finish-on") coats.insert({relation.later, relation.earlier});
    if (relation.bond == SequenceBond::order && relation.kept)
      below.emplace_back(relation.later, relation.earlier);
  }
  const Digraph graph(static_cast<Node>(sequence.things.size()), below);
  std::set<Arc> found;
  for (const auto& [finish, element] : coats) {
    std::vector<Node> stack{finish};
    std::set<Node> seen{finish};
    while (!stack.empty() && seen.size() < kMostLooked) {
      const Node node = stack.back();
      stack.pop_back();
      if (node != finish && coats.count({node, element}) != 0) {
        found.insert({finish, element});
        break;
      }
      for (const Node next : graph.next(node))
        if (seen.insert(next).second) stack.push_back(next);
    }
  }
  return found;
}

}  // namespace

std::vector<std::uint32_t> drawn_relations(const Sequence& sequence, bool all) {
  const std::set<Arc> on_another = coats_on_coats(sequence);
  std::vector<std::uint32_t> drawn;
  std::set<std::tuple<SequenceBond, bool, Node, Node>> seen;
  for (std::uint32_t at = 0; at < sequence.relations.size(); ++at) {
    const SequenceRelation& relation = sequence.relations[at];
    if (relation.bond == SequenceBond::same || relation.later == relation.earlier) continue;
    if (relation.redundant && !all) continue;
    if (relation.bond == SequenceBond::coat && !all &&
        on_another.count({relation.later, relation.earlier}) != 0)
      continue;
    if (seen.insert({relation.bond, relation.kept, relation.later, relation.earlier}).second)
      drawn.push_back(at);
  }
  return drawn;
}

}  // namespace lathbook::sequence
