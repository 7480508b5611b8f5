// Union by halving paths; reasons by breadth-first search within a class.
#include "plugins/sequence/sameness.hpp"

#include <algorithm>
#include <numeric>
#include <unordered_map>

namespace lathbook::sequence {

namespace {

std::vector<Arc> both_ways(const std::vector<Same>& said) {
  std::vector<Arc> arcs;
  arcs.reserve(2 * said.size());
  for (const Same& same : said) {
    arcs.emplace_back(same.a, same.b);
    arcs.emplace_back(same.b, same.a);
  }
  return arcs;
}

Node root(std::vector<Node>& above, Node node) {
  while (above[node] != node) node = above[node] = above[above[node]];
  return node;
}

}  // namespace

Sameness::Sameness(Node things, const std::vector<Same>& said)
    : class_of_(things, kNoNode), links_(things, both_ways(said)) {
  std::vector<Node> above(things);
  std::iota(above.begin(), above.end(), Node{0});
  for (const Same& same : said) {
    const Node a = root(above, same.a), b = root(above, same.b);
    above[std::max(a, b)] = std::min(a, b);
    reasons_.push_back(same.reason);
  }
  for (Node thing = 0; thing < things; ++thing) {
    const Node first = root(above, thing);
    class_of_[thing] = first == thing ? classes_++ : class_of_[first];
  }
}

std::vector<std::uint32_t> Sameness::why(Node one, Node other) const {
  if (one == other) return {};
  struct Step {
    Node from;
    std::uint32_t reason;
  };
  std::unordered_map<Node, Step> reached{{other, {other, 0}}};
  std::vector<Node> queue{other};
  for (std::size_t at = 0; at < queue.size() && reached.count(one) == 0; ++at) {
    const Node node = queue[at];
    const auto next = links_.next(node);
    for (std::size_t to = 0; to < next.size(); ++to) {
      const std::uint32_t reason = reasons_[links_.given(links_.first(node) + to) / 2];
      if (reached.emplace(next[to], Step{node, reason}).second) queue.push_back(next[to]);
    }
  }
  std::vector<std::uint32_t> reasons;
  for (auto found = reached.find(one); found != reached.end() && found->first != other;
       found = reached.find(found->second.from))
    reasons.push_back(found->second.reason);
  return reasons;
}

}  // namespace lathbook::sequence
