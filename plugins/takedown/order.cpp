#include "plugins/takedown/order.hpp"

#include <algorithm>
#include <queue>
#include <tuple>

namespace lathbook::takedown {

namespace {

/// Targets of each node in one array.
class Arrows {
public:
  Arrows(std::size_t nodes, const std::vector<Hindrance>& hindrances, const std::vector<std::uint32_t>& group)
      : start_(nodes + 1, 0) {
    const auto each = [&](auto&& use) {
      for (const auto& one : hindrances) {
        const auto from = group[one.first], to = group[one.second];
        if (from != to) use(from, to);
      }
    };
    each([&](std::uint32_t from, std::uint32_t) { ++start_[from + 1]; });
    for (std::size_t i = 1; i <= nodes; ++i) start_[i] += start_[i - 1];
    target_.resize(start_[nodes]);
    auto next = start_;
    each([&](std::uint32_t from, std::uint32_t to) { target_[next[from]++] = to; });
  }
  const std::uint32_t* begin(std::uint32_t node) const { return target_.data() + start_[node]; }
  const std::uint32_t* end(std::uint32_t node) const { return target_.data() + start_[node + 1]; }

private:
  std::vector<std::size_t> start_;
  std::vector<std::uint32_t> target_;
};

std::vector<std::uint32_t> each_its_own(std::size_t number) {
  std::vector<std::uint32_t> group(number);
  for (std::uint32_t i = 0; i < number; ++i) group[i] = i;
  return group;
}

/// Numbers the strongly connected components; the path of the search is a vector, not the call stack.
class Components {
public:
  Components(std::size_t nodes, const Arrows& arrows)
      : arrows_(arrows), index_(nodes, 0), low_(nodes, 0), on_stack_(nodes, false), group(nodes, 0) {
    for (std::uint32_t node = 0; node < nodes; ++node)
      if (index_[node] == 0) search(node);
  }

private:
  struct Frame {
    std::uint32_t node;
    const std::uint32_t* next;
  };

  void enter(std::uint32_t node, std::vector<Frame>& path) {
    index_[node] = low_[node] = ++counter_;
    stack_.push_back(node);
    on_stack_[node] = true;
    path.push_back({node, arrows_.begin(node)});
  }

  void search(std::uint32_t root) {
    std::vector<Frame> path;
    enter(root, path);
    while (!path.empty()) {
      auto& [node, next] = path.back();
      if (next != arrows_.end(node)) {
        const std::uint32_t to = *next++;
        if (index_[to] == 0)
          enter(to, path);
        else if (on_stack_[to])
          low_[node] = std::min(low_[node], index_[to]);
        continue;
      }
      const std::uint32_t done = node;
      path.pop_back();
      if (!path.empty()) low_[path.back().node] = std::min(low_[path.back().node], low_[done]);
      if (low_[done] == index_[done]) close(done);
    }
  }

  void close(std::uint32_t root) {
    while (true) {
      const std::uint32_t node = stack_.back();
      stack_.pop_back();
      on_stack_[node] = false;
      group[node] = static_cast<std::uint32_t>(count);
      if (node == root) break;
    }
    ++count;
  }

  const Arrows& arrows_;
  std::vector<std::uint32_t> index_, low_;
  std::vector<bool> on_stack_;
  std::vector<std::uint32_t> stack_;
  std::uint32_t counter_ = 0;

public:
  std::vector<std::uint32_t> group;
  std::size_t count = 0;
};

class Planner {
public:
  Planner(const std::vector<Thing>& things, const std::vector<Hindrance>& hindrances)
      : things_(things), hindrances_(hindrances) {}

  Order plan() {
    const auto own = each_its_own(things_.size());
    const Components found(things_.size(), Arrows(things_.size(), hindrances_, own));
    group_ = found.group;
    members_.resize(found.count);
    for (std::uint32_t thing = 0; thing < things_.size(); ++thing) members_[group_[thing]].push_back(thing);
    const Arrows arrows(found.count, hindrances_, group_);
    for (const auto& members : members_)
      if (members.size() > 1) order_.circles.push_back(members);
    std::sort(order_.circles.begin(), order_.circles.end());
    run(arrows);
    return std::move(order_);
  }

private:
  using Key = std::tuple<int, std::int64_t, std::uint32_t>;

  Key key_of(std::uint32_t group) const {
    Key key{1 << 30, 0, 0};
    for (const std::uint32_t thing : members_[group])
      key = std::min(key, Key{things_[thing].rank, things_[thing].place, thing});
    return key;
  }

  bool stays(std::uint32_t group) const {
    return std::any_of(members_[group].begin(), members_[group].end(),
                       [&](std::uint32_t thing) { return things_[thing].stays; });
  }

  void run(const Arrows& arrows) {
    std::vector<std::size_t> waits(members_.size(), 0), level(members_.size(), 0);
    for (std::uint32_t group = 0; group < members_.size(); ++group)
      for (const auto* to = arrows.begin(group); to != arrows.end(group); ++to) ++waits[*to];
    std::priority_queue<std::pair<Key, std::uint32_t>, std::vector<std::pair<Key, std::uint32_t>>,
                        std::greater<>>
        ready;
    const auto offer = [&](std::uint32_t group) {
      if (!stays(group)) ready.emplace(key_of(group), group);
    };
    for (std::uint32_t group = 0; group < members_.size(); ++group)
      if (waits[group] == 0) offer(group);
    std::vector<bool> gone(members_.size(), false);
    while (!ready.empty()) {
      const std::uint32_t group = ready.top().second;
      ready.pop();
      gone[group] = true;
      take(group, level[group], ready);
      for (const auto* to = arrows.begin(group); to != arrows.end(group); ++to) {
        level[*to] = std::max(level[*to], level[group] + 1);
        if (--waits[*to] == 0) offer(*to);
      }
    }
    for (std::uint32_t group = 0; group < members_.size(); ++group)
      if (!gone[group])
        for (const std::uint32_t thing : members_[group])
          if (!things_[thing].stays) order_.blocked.push_back(thing);
    std::sort(order_.blocked.begin(), order_.blocked.end());
  }

  template <typename Ready>
  void take(std::uint32_t group, std::size_t level, Ready& ready) {
    Step step;
    step.things = members_[group];
    step.level = level;
    step.choices = ready.size() + 1;
    std::vector<std::pair<Key, std::uint32_t>> looked;
    while (!ready.empty() && looked.size() < 5) {
      looked.push_back(ready.top());
      ready.pop();
    }
    for (const auto& one : looked) {
      step.instead.push_back(members_[one.second].front());
      ready.push(one);
    }
    order_.steps.push_back(std::move(step));
  }

  const std::vector<Thing>& things_;
  const std::vector<Hindrance>& hindrances_;
  std::vector<std::uint32_t> group_;
  std::vector<std::vector<std::uint32_t>> members_;
  Order order_;
};

}  // namespace

Order order_of(const std::vector<Thing>& things, const std::vector<Hindrance>& hindrances) {
  return Planner(things, hindrances).plan();
}

std::vector<std::size_t> broken_by(const std::vector<std::int64_t>& when,
                                   const std::vector<Hindrance>& hindrances) {
  std::vector<std::size_t> broken;
  for (std::size_t i = 0; i < hindrances.size(); ++i) {
    const auto first = when[hindrances[i].first], second = when[hindrances[i].second];
    if (second < 0) continue;
    if (first < 0 || first > second) broken.push_back(i);
  }
  return broken;
}

}  // namespace lathbook::takedown
