// Builds the arrays by counting; finds strong components without recursion.
#include "plugins/sequence/digraph.hpp"

#include <algorithm>

namespace lathbook::sequence {

Digraph::Digraph(Node nodes, std::span<const Arc> arcs)
    : first_(std::size_t{nodes} + 1, 0), to_(arcs.size()), given_(arcs.size()) {
  for (const Arc& arc : arcs) ++first_[std::size_t{arc.first} + 1];
  for (std::size_t at = 1; at < first_.size(); ++at) first_[at] += first_[at - 1];
  std::vector<std::size_t> place(first_.begin(), first_.end() - 1);
  for (std::size_t at = 0; at < arcs.size(); ++at) {
    const std::size_t to = place[arcs[at].first]++;
    to_[to] = arcs[at].second;
    given_[to] = static_cast<std::uint32_t>(at);
  }
}

namespace {

class PartFinder {
public:
  explicit PartFinder(const Digraph& graph)
      : graph_(graph), index_(graph.size(), kNoNode), low_(graph.size(), 0) {
    parts_.part_of.assign(graph.size(), kNoNode);
  }

  Parts find() {
    for (Node node = 0; node < graph_.size(); ++node)
      if (index_[node] == kNoNode) visit(node);
    return std::move(parts_);
  }

private:
  struct Frame {
    Node node;
    std::size_t next;
  };

  void enter(Node node) {
    index_[node] = low_[node] = counter_++;
    open_.push_back(node);
    frames_.push_back({node, 0});
  }

  void leave(Node node) {
    if (low_[node] == index_[node]) {
      Node member;
      do {
        member = open_.back();
        open_.pop_back();
        parts_.part_of[member] = parts_.count;
      } while (member != node);
      ++parts_.count;
    }
    frames_.pop_back();
    if (!frames_.empty()) {
      const Node above = frames_.back().node;
      low_[above] = std::min(low_[above], low_[node]);
    }
  }

  void visit(Node root) {
    enter(root);
    while (!frames_.empty()) {
      Frame& frame = frames_.back();
      const auto next = graph_.next(frame.node);
      if (frame.next == next.size()) {
        leave(frame.node);
        continue;
      }
      const Node to = next[frame.next++];
      if (index_[to] == kNoNode)
        enter(to);
      else if (parts_.part_of[to] == kNoNode)
        low_[frame.node] = std::min(low_[frame.node], index_[to]);
    }
  }

  const Digraph& graph_;
  std::vector<std::uint32_t> index_;
  std::vector<std::uint32_t> low_;
  std::vector<Node> open_;
  std::vector<Frame> frames_;
  Parts parts_;
  std::uint32_t counter_ = 0;
};

}  // namespace

Parts strong_parts(const Digraph& graph) {
  return PartFinder(graph).find();
}

std::vector<std::uint32_t> heights(const Digraph& graph) {
  std::vector<std::uint32_t> height(graph.size(), 0);
  for (Node node = 0; node < graph.size(); ++node)
    for (const Node to : graph.next(node)) height[node] = std::max(height[node], height[to] + 1);
  return height;
}

}  // namespace lathbook::sequence
