// Gibbs sweeps, and joint draws of forests on a lattice through the present state.
#include "plugins/chances/sampler.hpp"

#include <algorithm>
#include <cmath>
#include <numeric>

namespace lathbook::chances {

namespace {

constexpr Tick kSteps = 192;  // of a tree's widest range, before the step is halved by chance
constexpr Tick kFar = INT64_MAX / 4;

Tick divide_down(Tick a, Tick b) {
  const Tick whole = a / b;
  return a % b < 0 ? whole - 1 : whole;
}
Tick divide_up(Tick a, Tick b) {
  return -divide_down(-a, b);
}

// Sums of `weight` over the window [at + from, at + to], for every `at` of `count` from `first` on; without
// subtracting, so that small sums beside large ones keep their digits.
std::vector<double> window_sums(const std::vector<double>& weight, Tick weight_first, Tick first,
                                std::size_t count, Tick from, Tick to) {
  const auto size = static_cast<Tick>(weight.size());
  std::vector<double> sums(count, 0.0);
  const auto place = [&](Tick at) { return std::clamp(at - weight_first, Tick{-1}, size); };
  if (from <= -kFar || to >= kFar) {
    std::vector<double> run(weight);
    if (to >= kFar && from > -kFar) {
      for (Tick at = size - 2; at >= 0; --at)
        run[static_cast<std::size_t>(at)] += run[static_cast<std::size_t>(at) + 1];
      for (std::size_t at = 0; at < count; ++at) {
        const Tick start = std::max(place(first + static_cast<Tick>(at) + from), Tick{0});
        if (start < size) sums[at] = run[static_cast<std::size_t>(start)];
      }
      return sums;
    }
    std::partial_sum(run.begin(), run.end(), run.begin());
    for (std::size_t at = 0; at < count; ++at) {
      const Tick end = to >= kFar ? size - 1 : std::min(place(first + static_cast<Tick>(at) + to), size - 1);
      if (end >= 0) sums[at] = run[static_cast<std::size_t>(end)];
    }
    return sums;
  }
  // Blocks of the window's length: any window is the end of one and the beginning of the next.
  const Tick length = std::min(to - from + 1, size + 1);
  std::vector<double> prefix(weight), suffix(weight);
  for (Tick at = 1; at < size; ++at)
    if (at % length != 0) prefix[static_cast<std::size_t>(at)] += prefix[static_cast<std::size_t>(at) - 1];
  for (Tick at = size - 2; at >= 0; --at)
    if ((at + 1) % length != 0)
      suffix[static_cast<std::size_t>(at)] += suffix[static_cast<std::size_t>(at) + 1];
  for (std::size_t at = 0; at < count; ++at) {
    const Tick low = std::max(place(first + static_cast<Tick>(at) + from), Tick{0});
    const Tick high = std::min(place(first + static_cast<Tick>(at) + to), size - 1);
    if (low > high) continue;
    if (low / length == high / length) {
      // Part of a block only: at an end of the weights, where the window is cut off.
      if (low % length == 0)
        sums[at] = prefix[static_cast<std::size_t>(high)];
      else if (high == size - 1 || (high + 1) % length == 0)
        sums[at] = suffix[static_cast<std::size_t>(low)];
      else
        for (Tick k = low; k <= high; ++k) sums[at] += weight[static_cast<std::size_t>(k)];
    } else {
      sums[at] = suffix[static_cast<std::size_t>(low)] + prefix[static_cast<std::size_t>(high)];
    }
  }
  return sums;
}

}  // namespace

// A variable of a tree with the steps it may move by, and what its own move asks of its parent's.
struct Chain::TreeNode {
  Var var = 0;
  std::size_t parent = SIZE_MAX;
  Range room{0, 0};    ///< of the variable, given everything outside the forest
  Tick least = -kFar;  ///< of x - x[parent]
  Tick most = kFar;
  Tick from = -kFar;  ///< of the step less the parent's step
  Tick to = kFar;
  Tick first = 0;  ///< lowest step
  std::vector<double> weight;
};

Chain::Chain(const System& system, double share, std::uint64_t seed)
    : system_(system), dice_(seed), links_(system.size()) {
  state_.resize(system.size());
  for (Var var = 0; var < system.size(); ++var) {
    const double width = static_cast<double>(system.high[var] - system.low[var]);
    state_[var] = system.low[var] + static_cast<Tick>(std::floor(width * share));
  }
  for (const Tie& tie : system.ties) {
    links_[tie.before].push_back({tie.after, tie.gap, true});
    links_[tie.after].push_back({tie.before, tie.gap, false});
  }
  // Rounding may leave a tie a tick short: push the later up until all hold.
  for (bool is_good = share == 0 || share == 1; !is_good;) {
    is_good = true;
    for (const Tie& tie : system.ties) {
      if (state_[tie.after] - state_[tie.before] >= tie.gap) continue;
      state_[tie.after] = state_[tie.before] + tie.gap;
      is_good = false;
    }
  }
  order_.resize(system.size());
  std::iota(order_.begin(), order_.end(), Var{0});
  above_.resize(system.size());
  in_forest_.assign(system.size(), false);
  visited_.assign(system.size(), false);
}

Chain::Range Chain::room(Var var, bool beside_forest) const {
  Range range{system_.low[var], system_.high[var]};
  for (const Link& link : links_[var]) {
    if (beside_forest && in_forest_[link.other]) continue;
    if (link.is_after)
      range.high = std::min(range.high, state_[link.other] - link.gap);
    else
      range.low = std::max(range.low, state_[link.other] + link.gap);
  }
  return range;
}

void Chain::move(Var var) {
  const Range range = room(var, false);
  state_[var] = dice_.between(range.low, range.high);
}

void Chain::sweep() {
  if (upward_)
    for (Var var = 0; var < system_.size(); ++var) move(var);
  else
    for (Var var = system_.size(); var-- > 0;) move(var);
  upward_ = !upward_;
}

// In an order of chance, whatever closes no circle.
void Chain::pick_forest() {
  for (std::size_t at = order_.size(); at > 1; --at)
    std::swap(order_[at - 1], order_[static_cast<std::size_t>(dice_.below(at))]);
  std::iota(above_.begin(), above_.end(), Var{0});
  const auto root = [&](Var var) {
    while (above_[var] != var) var = above_[var] = above_[above_[var]];
    return var;
  };
  in_forest_.assign(system_.size(), false);
  visited_.assign(system_.size(), false);
  std::vector<std::pair<Var, Var>> near;  // root, neighbour
  for (const Var var : order_) {
    near.clear();
    for (const Link& link : links_[var])
      if (in_forest_[link.other]) near.emplace_back(root(link.other), link.other);
    std::sort(near.begin(), near.end());
    near.erase(std::unique(near.begin(), near.end()), near.end());
    const auto twice = std::adjacent_find(near.begin(), near.end(),
                                          [](const auto& a, const auto& b) { return a.first == b.first; });
    if (twice != near.end()) continue;
    in_forest_[var] = true;
    for (const auto& [tree, other] : near) above_[tree] = var;
  }
}

void Chain::sweep_forest() {
  pick_forest();
  std::vector<TreeNode> tree;
  for (const Var var : order_) {
    if (!in_forest_[var] || visited_[var]) continue;
    gather_tree(var, tree);
    redraw(tree);
  }
}

// Parents come before their children.
void Chain::gather_tree(Var root, std::vector<TreeNode>& tree) {
  tree.clear();
  tree.emplace_back();
  tree.back().var = root;
  visited_[root] = true;
  for (std::size_t at = 0; at < tree.size(); ++at) {
    tree[at].room = room(tree[at].var, true);
    const Var var = tree[at].var;
    for (const Link& link : links_[var]) {
      if (!in_forest_[link.other]) continue;
      if (at > 0 && link.other == tree[tree[at].parent].var) {
        // x[parent] - x >= gap, or x - x[parent] >= gap.
        if (link.is_after)
          tree[at].most = std::min(tree[at].most, -link.gap);
        else
          tree[at].least = std::max(tree[at].least, link.gap);
        continue;
      }
      if (visited_[link.other]) continue;
      visited_[link.other] = true;
      tree.emplace_back();
      tree.back().var = link.other;
      tree.back().parent = at;
    }
  }
}

void Chain::redraw(std::vector<TreeNode>& tree) {
  Tick widest = 0;
  for (const TreeNode& node : tree) widest = std::max(widest, system_.high[node.var] - system_.low[node.var]);
  const Tick step = std::max<Tick>(widest / (kSteps >> dice_.below(4)), 1);
  for (TreeNode& node : tree) {
    const Tick now = state_[node.var];
    node.first = divide_up(node.room.low - now, step);
    const Tick last = divide_down(node.room.high - now, step);
    node.weight.assign(static_cast<std::size_t>(last - node.first + 1), 1.0);
    if (node.parent == SIZE_MAX) continue;
    const Tick apart = now - state_[tree[node.parent].var];
    node.from = node.least <= -kFar ? -kFar : divide_up(node.least - apart, step);
    node.to = node.most >= kFar ? kFar : divide_down(node.most - apart, step);
  }
  for (std::size_t at = tree.size(); at-- > 1;) {
    TreeNode& parent = tree[tree[at].parent];
    const TreeNode& node = tree[at];
    const auto sums =
        window_sums(node.weight, node.first, parent.first, parent.weight.size(), node.from, node.to);
    double greatest = 0;
    for (std::size_t k = 0; k < sums.size(); ++k) {
      parent.weight[k] *= sums[k];
      greatest = std::max(greatest, parent.weight[k]);
    }
    for (double& weight : parent.weight) weight /= greatest;
  }
  std::vector<Tick> drawn(tree.size());
  for (std::size_t at = 0; at < tree.size(); ++at) {
    const TreeNode& node = tree[at];
    Tick low = node.first, high = node.first + static_cast<Tick>(node.weight.size()) - 1;
    if (at > 0) {
      if (node.from > -kFar) low = std::max(low, drawn[node.parent] + node.from);
      if (node.to < kFar) high = std::min(high, drawn[node.parent] + node.to);
    }
    double total = 0;
    for (Tick k = low; k <= high; ++k) total += node.weight[static_cast<std::size_t>(k - node.first)];
    double left = dice_.part() * total;
    Tick chosen = low;
    for (Tick k = low; k <= high; ++k) {
      const double weight = node.weight[static_cast<std::size_t>(k - node.first)];
      if (weight > 0) chosen = k;
      left -= weight;
      if (left < 0) break;
    }
    drawn[at] = chosen;
  }
  for (std::size_t at = 0; at < tree.size(); ++at) state_[tree[at].var] += drawn[at] * step;
}

}  // namespace lathbook::chances
