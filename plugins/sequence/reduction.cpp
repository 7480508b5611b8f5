// Settles arcs from the cheapest test to the dearest.
#include "plugins/sequence/reduction.hpp"

#include <algorithm>
#include <array>
#include <random>

namespace lathbook::sequence {

namespace {

constexpr std::size_t kLabels = 3;
constexpr std::uint32_t kBudget = 300;  // nodes looked at for one arc
constexpr std::size_t kColumns = 512;   // ends told apart in one sweep

// Numbers of a walk through the whole graph, deepest first.
struct Walk {
  std::vector<std::uint32_t> before;  // by first visit
  std::vector<std::uint32_t> last;    // one past the numbers of what hangs below in the spanning tree
  std::vector<std::uint32_t> after;   // by last visit
  std::vector<std::uint32_t> low;     // least 'after' of all that can be reached
};

// Visits the nodes in the order of `roots`; the children of each from `offset` on, round to it again.
Walk walk(const Digraph& graph, const std::vector<Node>& roots, std::uint32_t offset) {
  const Node size = graph.size();
  Walk made{std::vector<std::uint32_t>(size, kNoNode), std::vector<std::uint32_t>(size),
            std::vector<std::uint32_t>(size), std::vector<std::uint32_t>(size)};
  struct Frame {
    Node node;
    std::size_t next;
  };
  std::vector<Frame> frames;
  std::uint32_t before = 0, after = 0;
  for (const Node root : roots) {
    if (made.before[root] != kNoNode) continue;
    made.before[root] = before++;
    frames.push_back({root, 0});
    while (!frames.empty()) {
      Frame& frame = frames.back();
      const Node node = frame.node;
      const auto next = graph.next(node);
      if (frame.next < next.size()) {
        const Node to = next[(frame.next++ + offset) % next.size()];
        if (made.before[to] != kNoNode) continue;
        made.before[to] = before++;
        frames.push_back({to, 0});
        continue;
      }
      made.last[node] = before;
      made.after[node] = made.low[node] = after++;
      for (const Node to : next) made.low[node] = std::min(made.low[node], made.low[to]);
      frames.pop_back();
    }
  }
  return made;
}

class Reducer {
public:
  explicit Reducer(const Digraph& graph)
      : graph_(graph), height_(heights(graph)), redundant_(graph.arcs(), false) {}

  std::vector<bool> reduce() {
    by_tree();
    make_labels();
    by_search();
    by_bits();
    return std::move(redundant_);
  }

private:
  // Whatever has something above it is met after that.
  std::vector<Node> from_the_top() const {
    std::vector<Node> roots(graph_.size());
    for (Node node = 0; node < graph_.size(); ++node) roots[node] = graph_.size() - 1 - node;
    return roots;
  }

  bool is_step(Node from, Node to) const { return height_[from] == height_[to] + 1; }

  // An arc into what already hangs below another child of the same node.
  void by_tree() {
    const Walk tree = walk(graph_, from_the_top(), 0);
    std::vector<std::size_t> order;
    for (Node node = 0; node < graph_.size(); ++node) {
      const auto next = graph_.next(node);
      order.resize(next.size());
      for (std::size_t at = 0; at < order.size(); ++at) order[at] = at;
      std::sort(order.begin(), order.end(),
                [&](std::size_t a, std::size_t b) { return tree.before[next[a]] < tree.before[next[b]]; });
      std::uint32_t covered = 0;
      for (const std::size_t at : order) {
        const Node to = next[at];
        if (tree.before[to] < covered)
          redundant_[graph_.first(node) + at] = true;
        else
          covered = tree.last[to];
      }
    }
  }

  void make_labels() {
    std::mt19937 random(20240518);
    for (Walk& label : labels_) {
      std::vector<Node> roots = from_the_top();
      for (std::size_t at = roots.size(); at > 1; --at) std::swap(roots[at - 1], roots[random() % at]);
      label = walk(graph_, roots, random() % 1024 + 1);
    }
  }

  bool may_reach(Node from, Node to) const {
    if (height_[from] <= height_[to]) return false;
    return std::all_of(labels_.begin(), labels_.end(), [&](const Walk& label) {
      return label.low[from] <= label.low[to] && label.after[to] <= label.after[from];
    });
  }

  enum class Found : std::uint8_t { yes, no, gave_up };

  Found search(Node from, Node to) {
    stack_.clear();
    ++stamp_;
    for (const Node child : graph_.next(from))
      if (child != to && may_reach(child, to)) push(child);
    std::uint32_t visits = 0;
    while (!stack_.empty()) {
      const Node node = stack_.back();
      stack_.pop_back();
      ++spent_;
      if (++visits > kBudget) return Found::gave_up;
      for (const Node next : graph_.next(node)) {
        if (next == to) return Found::yes;
        if (may_reach(next, to)) push(next);
      }
    }
    return Found::no;
  }
  void push(Node node) {
    if (seen_[node] == stamp_) return;
    seen_[node] = stamp_;
    stack_.push_back(node);
  }

  // Searches cost what they cost; a sweep over bits settles 512 ends at a known price.
  void by_search() {
    seen_.assign(graph_.size(), 0);
    const std::size_t sweep = graph_.arcs() / 4 + graph_.size() / 8 + 1;
    for (Node node = 0; node < graph_.size(); ++node) {
      const auto next = graph_.next(node);
      if (next.size() < 2) continue;
      for (std::size_t at = 0; at < next.size(); ++at) {
        const std::size_t arc = graph_.first(node) + at;
        if (redundant_[arc] || is_step(node, next[at])) continue;
        Found found = Found::gave_up;
        if (spent_ <= sweep * (left_.size() / kColumns + 1)) found = search(node, next[at]);
        if (found == Found::gave_up) left_.push_back({node, arc, next[at]});
        redundant_[arc] = found == Found::yes;
      }
    }
  }

  struct Left {
    Node from;
    std::size_t arc;
    Node to;
  };
  using Bits = std::array<std::uint64_t, kColumns / 64>;

  void by_bits() {
    std::sort(left_.begin(), left_.end(),
              [](const Left& a, const Left& b) { return a.to != b.to ? a.to < b.to : a.arc < b.arc; });
    std::vector<Bits> reach(left_.empty() ? 0 : graph_.size());
    std::vector<std::uint32_t> column(reach.size(), kNoNode);
    for (std::size_t first = 0; first < left_.size();) {
      std::size_t end = first;
      std::uint32_t columns = 0;
      Node low = graph_.size(), high = 0;
      for (; end < left_.size(); ++end) {
        if (column[left_[end].to] == kNoNode) {
          if (columns == kColumns) break;
          column[left_[end].to] = columns++;
        }
        low = std::min(low, left_[end].to);
        high = std::max(high, left_[end].from);
      }
      sweep(reach, column, low, high);
      for (std::size_t at = first; at < end; ++at) settle(left_[at], reach, column);
      for (std::size_t at = first; at < end; ++at) column[left_[at].to] = kNoNode;
      first = end;
    }
  }

  // Arcs lead to lower numbers: what lies below `low` reaches none of the ends.
  void sweep(std::vector<Bits>& reach, const std::vector<std::uint32_t>& column, Node low, Node high) const {
    for (Node node = low; node <= high; ++node) {
      Bits bits{};
      for (const Node to : graph_.next(node)) {
        if (to < low) continue;
        for (std::size_t word = 0; word < bits.size(); ++word) bits[word] |= reach[to][word];
      }
      if (column[node] != kNoNode) bits[column[node] / 64] |= std::uint64_t{1} << (column[node] % 64);
      reach[node] = bits;
    }
  }

  void settle(const Left& left, const std::vector<Bits>& reach, const std::vector<std::uint32_t>& column) {
    const std::uint32_t at = column[left.to];
    for (const Node child : graph_.next(left.from)) {
      if (child <= left.to || (reach[child][at / 64] >> (at % 64) & 1) == 0) continue;
      redundant_[left.arc] = true;
      return;
    }
  }

  const Digraph& graph_;
  std::vector<std::uint32_t> height_;
  std::vector<bool> redundant_;
  std::array<Walk, kLabels> labels_;
  std::vector<Node> stack_;
  std::vector<std::uint32_t> seen_;
  std::uint32_t stamp_ = 0;
  std::size_t spent_ = 0;
  std::vector<Left> left_;
};

}  // namespace

std::vector<bool> redundant_arcs(Node nodes, const std::vector<Arc>& arcs) {
  std::vector<std::uint32_t> order(arcs.size());
  for (std::size_t at = 0; at < arcs.size(); ++at) order[at] = static_cast<std::uint32_t>(at);
  // The highest child first: it is the nearest, and the spanning tree then runs along the longest ways.
  const std::vector<std::uint32_t> height = heights(Digraph(nodes, arcs));
  std::stable_sort(order.begin(), order.end(), [&](std::uint32_t a, std::uint32_t b) {
    return height[arcs[a].second] > height[arcs[b].second];
  });
  std::vector<Arc> nearest;
  nearest.reserve(arcs.size());
  for (const std::uint32_t at : order) nearest.push_back(arcs[at]);
  const Digraph graph(nodes, nearest);
  const std::vector<bool> found = Reducer(graph).reduce();
  std::vector<bool> redundant(arcs.size(), false);
  for (std::size_t at = 0; at < found.size(); ++at)
    if (found[at]) redundant[order[graph.given(at)]] = true;
  return redundant;
}

}  // namespace lathbook::sequence
