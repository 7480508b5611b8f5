// Rigid parts by strong components of tight ties; shadows by taking variables out one by one.
#include "plugins/chances/system.hpp"

#include <algorithm>
#include <boost/graph/compressed_sparse_row_graph.hpp>
#include <boost/graph/strong_components.hpp>
#include <deque>
#include <map>

namespace lathbook::chances {

namespace {

using Graph = boost::compressed_sparse_row_graph<boost::directedS>;

// A circle of ties adds up to nought exactly when each of them is tight, whatever solution one looks at.
std::vector<Var> rigid_parts(const System& system, Var& count) {
  std::vector<std::pair<Var, Var>> tight;
  for (const Tie& tie : system.ties)
    if (system.high[tie.after] - system.high[tie.before] == tie.gap)
      tight.emplace_back(tie.before, tie.after);
  const Graph graph(boost::edges_are_unsorted, tight.begin(), tight.end(), system.size());
  std::vector<Var> part(system.size());
  if (system.size() == 0) return part;
  count = boost::strong_components(
      graph, boost::make_iterator_property_map(part.begin(), boost::get(boost::vertex_index, graph)));
  return part;
}

// Keeps for every pair the strongest tie that the bounds do not imply.
void tidy(System& system) {
  std::map<std::pair<Var, Var>, Tick> strongest;
  for (const Tie& tie : system.ties) {
    if (tie.before == tie.after || system.low[tie.after] - system.high[tie.before] >= tie.gap) continue;
    const auto [at, is_new] = strongest.try_emplace({tie.before, tie.after}, tie.gap);
    if (!is_new) at->second = std::max(at->second, tie.gap);
  }
  system.ties.clear();
  for (const auto& [pair, gap] : strongest) system.ties.push_back({pair.first, pair.second, gap});
}

class Projector {
public:
  Projector(const System& system, const std::vector<bool>& drop) : drop_(drop) {
    into_.resize(system.size());
    out_.resize(system.size());
    for (const Tie& tie : system.ties) add(tie.before, tie.after, tie.gap);
  }

  // The one with the fewest ways through it first.
  bool run(std::size_t most) {
    for (;;) {
      std::size_t best = SIZE_MAX;
      Var chosen = 0;
      for (Var var = 0; var < into_.size(); ++var) {
        if (!drop_[var] || (into_[var].empty() && out_[var].empty())) continue;
        const std::size_t ways = into_[var].size() * out_[var].size();
        if (ways >= best) continue;
        best = ways;
        chosen = var;
        if (ways == 0) break;
      }
      if (best == SIZE_MAX) return true;
      take_out(chosen);
      if (count_ > most) return false;
    }
  }

  std::vector<Tie> ties() const {
    std::vector<Tie> ties;
    for (Var before = 0; before < out_.size(); ++before)
      for (const auto& [after, gap] : out_[before]) ties.push_back({before, after, gap});
    return ties;
  }

private:
  void add(Var before, Var after, Tick gap) {
    if (before == after) return;
    const auto [at, is_new] = out_[before].try_emplace(after, gap);
    if (!is_new && at->second >= gap) return;
    at->second = gap;
    into_[after][before] = gap;
    if (is_new) ++count_;
  }

  void take_out(Var var) {
    const auto into = std::move(into_[var]);
    const auto out = std::move(out_[var]);
    into_[var].clear();
    out_[var].clear();
    for (const auto& [before, gap] : into) out_[before].erase(var);
    for (const auto& [after, gap] : out) into_[after].erase(var);
    count_ -= into.size() + out.size();
    for (const auto& [before, first] : into)
      for (const auto& [after, second] : out) add(before, after, first + second);
  }

  const std::vector<bool>& drop_;
  std::vector<std::map<Var, Tick>> into_, out_;
  std::size_t count_ = 0;
};

}  // namespace

Rigid make_rigid(const System& system) {
  Rigid rigid;
  Var count = 0;
  rigid.part = rigid_parts(system, count);
  rigid.offset.resize(system.size());
  std::vector<Var> leader(count, UINT32_MAX);
  rigid.system.low.assign(count, INT64_MIN);
  rigid.system.high.assign(count, INT64_MAX);
  for (Var var = 0; var < system.size(); ++var) {
    const Var part = rigid.part[var];
    if (leader[part] == UINT32_MAX) leader[part] = var;
    rigid.offset[var] = system.high[var] - system.high[leader[part]];
    rigid.system.low[part] = std::max(rigid.system.low[part], system.low[var] - rigid.offset[var]);
    rigid.system.high[part] = std::min(rigid.system.high[part], system.high[var] - rigid.offset[var]);
  }
  for (const Tie& tie : system.ties)
    rigid.system.ties.push_back({rigid.part[tie.before], rigid.part[tie.after],
                                 tie.gap + rigid.offset[tie.before] - rigid.offset[tie.after]});
  tidy(rigid.system);
  return rigid;
}

bool project(System& system, const std::vector<bool>& drop, std::size_t most) {
  Projector projector(system, drop);
  if (!projector.run(most)) return false;
  system.ties = projector.ties();
  return true;
}

std::vector<Tick> least_after(const System& system, Var from) {
  std::vector<std::vector<std::pair<Var, Tick>>> out(system.size());
  for (const Tie& tie : system.ties) out[tie.before].emplace_back(tie.after, tie.gap);
  std::vector<Tick> least(system.size());
  std::deque<Var> queue;
  std::vector<bool> waits(system.size(), true);
  for (Var var = 0; var < system.size(); ++var) {
    least[var] = var == from ? 0 : system.low[var] - system.high[from];
    queue.push_back(var);
  }
  while (!queue.empty()) {
    const Var var = queue.front();
    queue.pop_front();
    waits[var] = false;
    for (const auto& [after, gap] : out[var]) {
      if (least[var] + gap <= least[after]) continue;
      least[after] = least[var] + gap;
      if (!waits[after]) {
        waits[after] = true;
        queue.push_back(after);
      }
    }
  }
  return least;
}

}  // namespace lathbook::chances
