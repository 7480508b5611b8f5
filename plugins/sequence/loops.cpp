// Finds the parts, then in each the shortest way back from some of its strict relations.
#include "plugins/sequence/loops.hpp"

#include <algorithm>
#include <map>

namespace lathbook::sequence {

namespace {

class LoopFinder {
public:
  LoopFinder(const Sameness& same, const std::vector<Relation>& relations)
      : same_(same),
        relations_(relations),
        graph_(same.classes(), arcs(same, relations)),
        parts_(strong_parts(graph_)),
        from_(same.classes(), kNoNode) {}

  std::vector<Loop> find() {
    gather();
    for (auto& [part, strict] : strict_) {
      Loop& loop = loops_.emplace_back();
      loop.classes = std::move(members_[part]);
      loop.relations = std::move(within_[part]);
      loop.shortest = shortest(strict);
    }
    std::sort(loops_.begin(), loops_.end(),
              [](const Loop& a, const Loop& b) { return a.classes < b.classes; });
    return std::move(loops_);
  }

private:
  static std::vector<Arc> arcs(const Sameness& same, const std::vector<Relation>& relations) {
    std::vector<Arc> arcs;
    arcs.reserve(relations.size());
    for (const Relation& relation : relations)
      arcs.emplace_back(same.class_of(relation.later), same.class_of(relation.earlier));
    return arcs;
  }
  std::uint32_t part(Node thing) const { return parts_.part_of[same_.class_of(thing)]; }

  // Only of parts that have a strict relation inside.
  void gather() {
    for (std::uint32_t at = 0; at < relations_.size(); ++at) {
      const Relation& relation = relations_[at];
      if (part(relation.later) == part(relation.earlier) && relation.strict)
        strict_[part(relation.later)].push_back(at);
    }
    for (std::uint32_t at = 0; at < relations_.size(); ++at) {
      const std::uint32_t in = part(relations_[at].later);
      if (in == part(relations_[at].earlier) && strict_.count(in) != 0) within_[in].push_back(at);
    }
    for (Node at = 0; at < graph_.size(); ++at)
      if (strict_.count(parts_.part_of[at]) != 0) members_[parts_.part_of[at]].push_back(at);
  }

  std::vector<LoopStep> shortest(const std::vector<std::uint32_t>& strict) {
    std::vector<std::uint32_t> best;
    std::size_t tried = 0;
    for (const std::uint32_t start : strict) {
      if (tried++ > 0 && (tried > kLoopStarts || best.size() == 1 || walked_ > kLoopWalk)) break;
      std::vector<std::uint32_t> circle = way_back(start, best.empty() ? SIZE_MAX : best.size());
      if (!circle.empty()) best = std::move(circle);
    }
    return told(best);
  }

  // The relation and the shortest way from its earlier end to its later; empty unless shorter than `most`.
  std::vector<std::uint32_t> way_back(std::uint32_t start, std::size_t most) {
    const Node goal = same_.class_of(relations_[start].later);
    const Node first = same_.class_of(relations_[start].earlier);
    std::vector<Node> queue{first};
    from_[first] = start;
    bool is_there = first == goal;
    for (std::size_t at = 0; at < queue.size() && !is_there; ++at) {
      const Node node = queue[at];
      const auto next = graph_.next(node);
      for (std::size_t to = 0; to < next.size() && !is_there; ++to) {
        if (from_[next[to]] != kNoNode || parts_.part_of[next[to]] != parts_.part_of[goal]) continue;
        from_[next[to]] = graph_.given(graph_.first(node) + to);
        queue.push_back(next[to]);
        is_there = next[to] == goal;
      }
    }
    std::vector<std::uint32_t> back;
    for (Node node = goal;;) {
      const std::uint32_t by = from_[node];
      back.push_back(by);
      if (by == start || back.size() >= most) break;
      node = same_.class_of(relations_[by].later);
    }
    for (const Node node : queue) from_[node] = kNoNode;
    walked_ += queue.size();
    if (back.size() >= most) return {};
    std::reverse(back.begin(), back.end());
    return back;
  }

  std::vector<LoopStep> told(const std::vector<std::uint32_t>& circle) const {
    std::vector<LoopStep> steps;
    for (std::size_t at = 0; at < circle.size(); ++at) {
      const Relation& next = relations_[circle[(at + 1) % circle.size()]];
      steps.push_back({circle[at], same_.why(relations_[circle[at]].earlier, next.later)});
    }
    return steps;
  }

  const Sameness& same_;
  const std::vector<Relation>& relations_;
  Digraph graph_;
  Parts parts_;
  std::vector<std::uint32_t> from_;  // relation by which a class was reached; of the search at hand
  std::map<std::uint32_t, std::vector<std::uint32_t>> strict_, within_, members_;
  std::vector<Loop> loops_;
  std::size_t walked_ = 0;
};

}  // namespace

std::vector<Loop> loops_of(const Sameness& same, const std::vector<Relation>& relations) {
  return LoopFinder(same, relations).find();
}

}  // namespace lathbook::sequence
