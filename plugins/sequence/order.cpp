// Contracts, condenses, levels and reduces.
#include "plugins/sequence/order.hpp"

#include <algorithm>
#include <numeric>

#include "plugins/sequence/loops.hpp"
#include "plugins/sequence/reduction.hpp"

namespace lathbook::sequence {

namespace {

class Orderer {
public:
  Orderer(const Sameness& same, const std::vector<Relation>& relations)
      : same_(same), relations_(relations) {}

  Order make() {
    order_.classes = same_.classes();
    order_.loops = loops_of(same_, relations_);
    gather_edges();
    condense();
    level();
    reduce();
    number_chains();
    return std::move(order_);
  }

private:
  std::uint32_t later(std::uint32_t relation) const { return same_.class_of(relations_[relation].later); }
  std::uint32_t earlier(std::uint32_t relation) const { return same_.class_of(relations_[relation].earlier); }

  void gather_edges() {
    std::vector<std::uint32_t> kept;
    for (std::uint32_t at = 0; at < relations_.size(); ++at)
      if (relations_[at].kept && later(at) != earlier(at)) kept.push_back(at);
    std::stable_sort(kept.begin(), kept.end(), [&](std::uint32_t a, std::uint32_t b) {
      return std::pair(later(a), earlier(a)) < std::pair(later(b), earlier(b));
    });
    for (const std::uint32_t at : kept) {
      if (order_.edges.empty() || order_.edges.back().later != later(at) ||
          order_.edges.back().earlier != earlier(at))
        order_.edges.push_back({later(at), earlier(at), {}, false, false});
      order_.edges.back().relations.push_back(at);
    }
  }

  // Blocks: classes that kept relations lead round; one class each where all is well.
  void condense() {
    std::vector<Arc> arcs;
    arcs.reserve(order_.edges.size());
    for (const Edge& edge : order_.edges) arcs.emplace_back(edge.later, edge.earlier);
    blocks_ = strong_parts(Digraph(order_.classes, arcs));
    for (Edge& edge : order_.edges) edge.within_block = block(edge.later) == block(edge.earlier);
    find_of_one_time();
    for (std::size_t at = 0; at < order_.edges.size(); ++at) {
      const Edge& edge = order_.edges[at];
      if (!edge.within_block) between_.push_back({{block(edge.later), block(edge.earlier)}, at});
    }
    std::sort(between_.begin(), between_.end());
    for (const auto& [arc, edge] : between_)
      if (arcs_.empty() || arcs_.back() != arc) arcs_.push_back(arc);
  }
  std::uint32_t block(std::uint32_t of_class) const { return blocks_.part_of[of_class]; }

  void find_of_one_time() {
    std::vector<std::vector<std::uint32_t>> members(blocks_.count);
    std::vector<bool> is_strict(blocks_.count, false);
    for (const Edge& edge : order_.edges) {
      if (!edge.within_block) continue;
      for (const std::uint32_t relation : edge.relations)
        if (relations_[relation].strict) is_strict[block(edge.later)] = true;
    }
    for (std::uint32_t at = 0; at < order_.classes; ++at) members[block(at)].push_back(at);
    for (std::uint32_t at = 0; at < blocks_.count; ++at)
      if (members[at].size() > 1 && !is_strict[at]) order_.of_one_time.push_back(std::move(members[at]));
    std::sort(order_.of_one_time.begin(), order_.of_one_time.end());
  }

  // Arcs between blocks lead to lower numbers.
  void level() {
    const std::vector<std::uint32_t> base = heights(Digraph(blocks_.count, arcs_));
    std::vector<std::uint32_t> top(blocks_.count, 0);
    for (auto at = arcs_.rbegin(); at != arcs_.rend(); ++at)
      top[at->second] = std::max(top[at->second], top[at->first] + 1);
    order_.from_base.resize(order_.classes);
    order_.from_top.resize(order_.classes);
    for (std::uint32_t at = 0; at < order_.classes; ++at) {
      order_.from_base[at] = base[block(at)];
      order_.from_top[at] = top[block(at)];
      order_.levels = std::max(order_.levels, base[block(at)] + 1);
    }
  }

  void reduce() {
    const std::vector<bool> redundant = redundant_arcs(blocks_.count, arcs_);
    std::size_t arc = 0;
    for (const auto& [ends, edge] : between_) {
      while (arcs_[arc] != ends) ++arc;
      order_.edges[edge].redundant = redundant[arc];
    }
  }

  void number_chains() {
    std::vector<Node> above(order_.classes);
    std::iota(above.begin(), above.end(), Node{0});
    const auto root = [&](Node node) {
      while (above[node] != node) node = above[node] = above[above[node]];
      return node;
    };
    for (const Edge& edge : order_.edges) {
      const Node a = root(edge.later), b = root(edge.earlier);
      above[std::max(a, b)] = std::min(a, b);
    }
    std::vector<std::uint32_t> size(order_.classes, 0);
    for (Node node = 0; node < order_.classes; ++node) ++size[root(node)];
    std::vector<Node> roots;
    for (Node node = 0; node < order_.classes; ++node)
      if (size[node] > 0) roots.push_back(node);
    std::stable_sort(roots.begin(), roots.end(), [&](Node a, Node b) { return size[a] > size[b]; });
    std::vector<std::uint32_t> number(order_.classes, 0);
    for (const Node node : roots) number[node] = order_.chains++;
    order_.chain_of.resize(order_.classes);
    for (Node node = 0; node < order_.classes; ++node) order_.chain_of[node] = number[root(node)];
  }

  const Sameness& same_;
  const std::vector<Relation>& relations_;
  Order order_;
  Parts blocks_;
  std::vector<std::pair<Arc, std::size_t>> between_;  // blocks, edge
  std::vector<Arc> arcs_;                             // between blocks, ascending, each once
};

}  // namespace

Order order_of(const Sameness& same, const std::vector<Relation>& relations) {
  return Orderer(same, relations).make();
}

}  // namespace lathbook::sequence
