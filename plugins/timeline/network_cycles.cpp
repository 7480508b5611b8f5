// Goldberg and Radzik's ordering of Bellman-Ford: each pass scans its nodes in topological order.
#include "plugins/timeline/network_cycles.hpp"

#include <numeric>

namespace lathbook::timeline {

std::vector<Link> CycleFinder::search(const Block& block, std::uint8_t level, Potentials& potentials) {
  begin_ = block.begin;
  end_ = block.end;
  const std::size_t size = end_ - begin_;
  mark_.assign(size, fresh);
  depth_.assign(size, 0);
  parent_arc_.assign(size, kNone);
  parent_.assign(size, kNone);
  listed_.assign(size, false);
  active_.resize(size);
  std::iota(active_.begin(), active_.end(), begin_);
  std::vector<Link> cycle;
  std::size_t lowered = 0;
  while (!active_.empty()) {
    sorted_.clear();
    for (const Node root : active_) {
      listed_[root - begin_] = false;
      if (mark_[root - begin_] != fresh || !has_negative_arc(root, level, potentials)) continue;
      if (descend(root, level, potentials, cycle)) return cycle;
    }
    lowered += sweep(level, potentials);
    for (const Node node : sorted_) mark_[node - begin_] = fresh;
    active_.swap(upcoming_);
    if (lowered < size) continue;
    lowered = 0;
    cycle = parent_cycle();
    if (!cycle.empty()) return cycle;
  }
  return cycle;
}

bool CycleFinder::has_negative_arc(Node node, std::uint8_t level, const Potentials& potentials) const {
  for (std::uint32_t arc = graph_.arc_onward[node]; arc < graph_.arc_begin[node + 1]; ++arc)
    if (in_use(arc, level) && potentials[node] + graph_.arcs[arc].weight < potentials[graph_.arcs[arc].to])
      return true;
  return false;
}

// Depth-first along arcs that would lower or just keep their head. A way back onto the path that holds a
// lowering arc is a negative cycle; one without is ignored.
bool CycleFinder::descend(Node root, std::uint8_t level, const Potentials& potentials,
                          std::vector<Link>& cycle) {
  const auto enter = [&](Node node, std::uint32_t arc, std::uint32_t negative) {
    mark_[node - begin_] = on_path;
    depth_[node - begin_] = static_cast<std::uint32_t>(path_.size());
    path_.push_back({node, graph_.arc_onward[node], arc, negative});
  };
  path_.clear();
  enter(root, kNone, 0);
  while (!path_.empty()) {
    Frame& top = path_.back();
    if (top.next == graph_.arc_begin[top.node + 1]) {
      mark_[top.node - begin_] = waiting;
      sorted_.push_back(top.node);
      path_.pop_back();
      continue;
    }
    const std::uint32_t at = top.next++;
    if (!in_use(at, level)) continue;
    const Arc& arc = graph_.arcs[at];
    const Tick reduced = potentials[top.node] + arc.weight - potentials[arc.to];
    if (reduced > 0) continue;
    const std::uint32_t negative = top.negative + (reduced < 0 ? 1 : 0);
    if (mark_[arc.to - begin_] == fresh) {
      enter(arc.to, at, negative);
    } else if (mark_[arc.to - begin_] == on_path) {
      const std::uint32_t start = depth_[arc.to - begin_];
      if (negative == path_[start].negative) continue;
      for (std::size_t step = start + 1; step < path_.size(); ++step)
        cycle.push_back(graph_.arcs[path_[step].entered].link);
      cycle.push_back(arc.link);
      return true;
    }
  }
  return false;
}

std::uint32_t CycleFinder::sweep(std::uint8_t level, Potentials& potentials) {
  std::uint32_t lowered = 0;
  upcoming_.clear();
  for (auto node = sorted_.rbegin(); node != sorted_.rend(); ++node) {
    mark_[*node - begin_] = scanned;
    for (std::uint32_t at = graph_.arc_onward[*node]; at < graph_.arc_begin[*node + 1]; ++at) {
      if (!in_use(at, level)) continue;
      const Arc& arc = graph_.arcs[at];
      const Tick offer = potentials[*node] + arc.weight;
      if (offer >= potentials[arc.to]) continue;
      potentials[arc.to] = offer;
      const std::uint32_t to = arc.to - begin_;
      parent_[to] = *node;
      parent_arc_[to] = at;
      ++lowered;
      if (mark_[to] == waiting || listed_[to]) continue;
      listed_[to] = true;
      upcoming_.push_back(arc.to);
    }
  }
  return lowered;
}

std::vector<Link> CycleFinder::parent_cycle() {
  std::vector<std::uint32_t> seen(end_ - begin_, 0);
  std::vector<Link> cycle;
  std::uint32_t walk = 0;
  for (Node start = begin_; start < end_; ++start) {
    ++walk;
    Node at = start;
    while (at != kNone && seen[at - begin_] == 0) {
      seen[at - begin_] = walk;
      at = parent_[at - begin_];
    }
    if (at == kNone || seen[at - begin_] != walk) continue;
    const Node first = at;
    do {
      cycle.push_back(graph_.arcs[parent_arc_[at - begin_]].link);
      at = parent_[at - begin_];
    } while (at != first);
    std::reverse(cycle.begin(), cycle.end());
    return cycle;
  }
  return cycle;
}

}  // namespace lathbook::timeline
