#include "tests/sequence/graphs.hpp"

#include <algorithm>
#include <sstream>

namespace lathbook::test {

using sequence::Arc;
using sequence::Node;

std::vector<Arc> arcs_of(const std::string& text) {
  std::vector<Arc> arcs;
  std::istringstream in(text);
  Node later = 0, earlier = 0;
  char sign = 0;
  while (in >> later >> sign >> earlier) arcs.emplace_back(later - 1, earlier - 1);
  return arcs;
}

std::string text_of(std::vector<Arc> arcs) {
  std::sort(arcs.begin(), arcs.end());
  std::string text;
  for (const auto& [later, earlier] : arcs)
    text += (text.empty() ? "" : " ") + std::to_string(later + 1) + ">" + std::to_string(earlier + 1);
  return text;
}

Topological topological(Node nodes, const std::vector<Arc>& arcs) {
  const sequence::Parts parts = sequence::strong_parts(sequence::Digraph(nodes, arcs));
  Topological made{nodes, {}};
  for (const auto& [later, earlier] : arcs)
    made.arcs.emplace_back(parts.part_of[later], parts.part_of[earlier]);
  return made;
}

std::vector<Arc> reduced(Node nodes, const std::vector<Arc>& arcs) {
  const std::vector<bool> redundant = sequence::redundant_arcs(nodes, topological(nodes, arcs).arcs);
  std::vector<Arc> kept;
  for (std::size_t at = 0; at < arcs.size(); ++at)
    if (!redundant[at]) kept.push_back(arcs[at]);
  std::sort(kept.begin(), kept.end());
  return kept;
}

std::set<Arc> closure(Node nodes, const std::vector<Arc>& arcs) {
  std::vector<std::vector<Node>> next(nodes);
  for (const auto& [later, earlier] : arcs) next[later].push_back(earlier);
  std::set<Arc> pairs;
  for (Node from = 0; from < nodes; ++from) {
    std::vector<Node> stack{from};
    std::vector<bool> seen(nodes, false);
    while (!stack.empty()) {
      const Node node = stack.back();
      stack.pop_back();
      for (const Node to : next[node])
        if (!seen[to]) {
          seen[to] = true;
          pairs.insert({from, to});
          stack.push_back(to);
        }
    }
  }
  return pairs;
}

std::vector<Arc> slowly_reduced(Node nodes, const std::vector<Arc>& arcs) {
  const std::set<Arc> all = closure(nodes, arcs);
  std::vector<Arc> kept;
  for (const Arc& arc : arcs)
    if (std::none_of(arcs.begin(), arcs.end(), [&](const Arc& other) {
          return other.first == arc.first && other.second != arc.second &&
                 all.count({other.second, arc.second}) != 0;
        }))
      kept.push_back(arc);
  std::sort(kept.begin(), kept.end());
  return kept;
}

std::vector<Arc> random_order(std::mt19937& random, Node nodes, std::size_t arcs) {
  std::set<Arc> made;
  for (std::size_t tries = 0; tries < 4 * arcs && made.size() < arcs; ++tries) {
    const Node a = static_cast<Node>(random() % nodes), b = static_cast<Node>(random() % nodes);
    if (a != b) made.insert({std::max(a, b), std::min(a, b)});
  }
  std::vector<Arc> list(made.begin(), made.end());
  for (std::size_t at = list.size(); at > 1; --at) std::swap(list[at - 1], list[random() % at]);
  return list;
}

sequence::Order order_of_text(Node things, const std::string& text, const std::vector<sequence::Same>& same) {
  std::vector<sequence::Relation> relations;
  for (const auto& [later, earlier] : arcs_of(text)) relations.push_back({later, earlier, true, true});
  return sequence::order_of(sequence::Sameness(things, same), relations);
}

}  // namespace lathbook::test
