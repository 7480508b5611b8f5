// Branch and bound for hitting sets, part by part: first the least weight, then every answer that has it.
#include "plugins/timeline/network_hitting.hpp"

#include <algorithm>
#include <numeric>

namespace lathbook::timeline {

namespace {

constexpr std::uint64_t kNoAnswer = UINT64_MAX;

using Core = std::vector<Candidate>;

// One part of the problem, searched depth first without recursion over a list of cores.
class Search {
public:
  Search(const std::vector<std::uint64_t>& weights, std::vector<Core> cores, std::size_t effort)
      : weights_(weights), cores_(std::move(cores)), effort_(effort), state_(weights.size(), State::open) {
    std::sort(cores_.begin(), cores_.end(), [](const Core& a, const Core& b) {
      return a.size() != b.size() ? a.size() < b.size() : a < b;
    });
    used_.assign(weights.size(), false);
  }

  HittingPart run() {
    HittingPart part;
    drop_dominated(false);
    part.at_least = bound();
    greedy();
    explore(false);
    part.is_best = effort_ > 0;
    if (part.is_best) {
      part.at_least = best_;
      std::fill(state_.begin(), state_.end(), State::open);
      drop_dominated(true);
      effort_ = std::max(effort_, kListing);
      explore(true);
      part.all_listed = found_.size() <= kMostAnswers && effort_ > 0;
      if (found_.size() > kMostAnswers) found_.resize(kMostAnswers);
    }
    if (found_.empty()) found_.push_back(best_answer_);
    for (auto& answer : found_) std::sort(answer.begin(), answer.end());
    std::sort(found_.begin(), found_.end());
    part.answers = std::move(found_);
    part.weight = best_;
    return part;
  }

private:
  enum class State : std::uint8_t { open, in, out };
  static constexpr std::size_t kFew = 100;            // members of a core that are compared with one another
  static constexpr std::size_t kListing = 1'000'000;  // always granted to the listing of ties

  // A branching over one core: its members are taken in turn, those before it kept out.
  struct Frame {
    std::uint32_t core;
    std::size_t next;  // member to take next
    bool taken;        // the member before it is in
  };

  // A candidate is not needed when one no heavier hits all the cores it hits; when that one is lighter, it is
  // no part of any best answer.
  void drop_dominated(bool only_heavier) {
    std::vector<std::vector<std::uint32_t>> hits(weights_.size());
    for (std::uint32_t core = 0; core < cores_.size(); ++core)
      for (const Candidate candidate : cores_[core]) hits[candidate].push_back(core);
    const auto dominates = [&](Candidate other, Candidate one) {
      if (other == one || weights_[other] > weights_[one]) return false;
      if (weights_[other] == weights_[one]) {
        if (only_heavier) return false;
        if (hits[other].size() == hits[one].size() && other > one) return false;
      }
      return std::includes(hits[other].begin(), hits[other].end(), hits[one].begin(), hits[one].end());
    };
    for (const Core& core : cores_)
      for (const Candidate one : core)
        if (core.size() <= kFew &&
            std::any_of(core.begin(), core.end(), [&](Candidate other) { return dominates(other, one); }))
          state_[one] = State::out;
  }

  bool is_hit(const Core& core) const {
    return std::any_of(core.begin(), core.end(), [&](Candidate at) { return state_[at] == State::in; });
  }

  std::uint64_t lightest(const Core& core) const {
    std::uint64_t least = kNoAnswer;
    for (const Candidate at : core)
      if (state_[at] == State::open) least = std::min(least, weights_[at]);
    return least;
  }

  // Disjoint cores not yet hit cost their lightest members each; also finds the core to branch on.
  std::uint64_t bound(std::uint32_t* branch = nullptr) {
    std::uint64_t sum = 0;
    std::size_t fewest = SIZE_MAX;
    std::fill(used_.begin(), used_.end(), false);
    for (std::uint32_t at = 0; at < cores_.size(); ++at) {
      const Core& core = cores_[at];
      if (is_hit(core)) continue;
      std::size_t free = 0;
      bool apart = true;
      for (const Candidate one : core) {
        if (state_[one] == State::out) continue;
        ++free;
        apart = apart && !used_[one];
      }
      if (free == 0) return kNoAnswer;
      if (branch && free < fewest) {
        fewest = free;
        *branch = at;
      }
      if (!apart) continue;
      sum += lightest(core);
      for (const Candidate one : core)
        if (state_[one] != State::out) used_[one] = true;
    }
    if (branch && fewest == SIZE_MAX) *branch = UINT32_MAX;
    return sum;
  }

  // The candidate with the most cores for its weight, again and again; then what became needless goes.
  void greedy() {
    best_ = 0;
    best_answer_.clear();
    std::vector<bool> hit(cores_.size(), false);
    std::vector<std::uint64_t> gain(weights_.size());
    for (;;) {
      std::fill(gain.begin(), gain.end(), 0);
      for (std::size_t at = 0; at < cores_.size(); ++at)
        if (!hit[at])
          for (const Candidate one : cores_[at]) gain[one] += state_[one] == State::out ? 0 : 1;
      const Candidate pick = best_gain(gain);
      if (gain[pick] == 0) break;
      best_answer_.push_back(pick);
      for (std::size_t at = 0; at < cores_.size(); ++at)
        hit[at] = hit[at] || std::binary_search(cores_[at].begin(), cores_[at].end(), pick);
    }
    spare();
    for (const Candidate one : best_answer_) best_ += weights_[one];
  }

  Candidate best_gain(const std::vector<std::uint64_t>& gain) const {
    Candidate pick = 0;
    for (Candidate one = 1; one < gain.size(); ++one)
      if (gain[one] * weights_[pick] > gain[pick] * weights_[one]) pick = one;
    return pick;
  }

  void spare() {
    for (std::size_t at = best_answer_.size(); at-- > 0;) {
      std::vector<Candidate> rest = best_answer_;
      rest.erase(rest.begin() + static_cast<std::ptrdiff_t>(at));
      const bool needless = std::all_of(cores_.begin(), cores_.end(), [&](const Core& core) {
        return std::any_of(rest.begin(), rest.end(),
                           [&](Candidate one) { return std::binary_search(core.begin(), core.end(), one); });
      });
      if (needless) best_answer_ = std::move(rest);
    }
  }

  // With `all` every answer as good as the best is noted, without it only better ones.
  void explore(bool all) {
    std::vector<Frame> path;
    std::vector<Candidate> chosen;
    std::uint64_t weight = 0;
    bool deeper = true;
    for (;;) {
      if (deeper) {
        if (effort_ == 0 || found_.size() > kMostAnswers) break;
        effort_ -= std::min(effort_, cores_.size());
        std::uint32_t branch = UINT32_MAX;
        const std::uint64_t rest = bound(&branch);
        const bool worth = rest != kNoAnswer && (all ? weight + rest <= best_ : weight + rest < best_);
        if (worth && branch == UINT32_MAX) {
          if (all) {
            found_.push_back(chosen);
          } else {
            best_ = weight;
            best_answer_ = chosen;
          }
        }
        if (worth && branch != UINT32_MAX) path.push_back({branch, 0, false});
      }
      if (path.empty()) break;
      deeper = advance(path.back(), chosen, weight);
      if (!deeper) path.pop_back();
    }
    while (!path.empty()) {
      release(path.back(), chosen, weight);
      path.pop_back();
    }
  }

  // Takes the next free member of the frame's core; false, and all its members free again, when none is left.
  bool advance(Frame& frame, std::vector<Candidate>& chosen, std::uint64_t& weight) {
    const Core& core = cores_[frame.core];
    if (frame.taken) {
      const Candidate last = chosen.back();
      chosen.pop_back();
      weight -= weights_[last];
      state_[last] = State::out;
      shut_.push_back({frame.core, last});
      frame.taken = false;
    }
    while (frame.next < core.size() && state_[core[frame.next]] != State::open) ++frame.next;
    if (frame.next == core.size()) {
      release(frame, chosen, weight);
      return false;
    }
    const Candidate pick = core[frame.next++];
    state_[pick] = State::in;
    chosen.push_back(pick);
    weight += weights_[pick];
    frame.taken = true;
    return true;
  }

  // A core is branched on at most once along a path: then it is hit.
  void release(Frame& frame, std::vector<Candidate>& chosen, std::uint64_t& weight) {
    if (frame.taken) {
      const Candidate last = chosen.back();
      chosen.pop_back();
      weight -= weights_[last];
      state_[last] = State::open;
      frame.taken = false;
    }
    while (!shut_.empty() && shut_.back().core == frame.core) {
      state_[shut_.back().candidate] = State::open;
      shut_.pop_back();
    }
  }

  struct Shut {
    std::uint32_t core;
    Candidate candidate;
  };

  const std::vector<std::uint64_t>& weights_;
  std::vector<Core> cores_;
  std::size_t effort_;
  std::vector<State> state_;
  std::vector<bool> used_;  // scratch of bound()
  std::vector<Shut> shut_;
  std::uint64_t best_ = kNoAnswer;
  std::vector<Candidate> best_answer_;
  std::vector<std::vector<Candidate>> found_;
};

// Cores that hold another core are hit with it.
std::vector<Core> without_supersets(std::vector<Core> cores) {
  std::sort(cores.begin(), cores.end(),
            [](const Core& a, const Core& b) { return a.size() != b.size() ? a.size() < b.size() : a < b; });
  std::vector<Core> kept;
  for (Core& core : cores) {
    const bool holds_another = std::any_of(kept.begin(), kept.end(), [&](const Core& smaller) {
      return std::includes(core.begin(), core.end(), smaller.begin(), smaller.end());
    });
    if (!holds_another) kept.push_back(std::move(core));
  }
  return kept;
}

// Renumbers the candidates of one part, so that the work does not depend on the rest.
HittingPart solve_part(const HittingProblem& problem, const std::vector<std::uint32_t>& members,
                       std::size_t effort) {
  std::vector<Candidate> names;
  for (const std::uint32_t at : members)
    names.insert(names.end(), problem.cores[at].begin(), problem.cores[at].end());
  std::sort(names.begin(), names.end());
  names.erase(std::unique(names.begin(), names.end()), names.end());
  std::vector<std::uint64_t> weights;
  for (const Candidate name : names) weights.push_back(problem.weights[name]);
  std::vector<Core> cores;
  for (const std::uint32_t at : members) {
    Core& core = cores.emplace_back();
    for (const Candidate name : problem.cores[at])
      core.push_back(
          static_cast<Candidate>(std::lower_bound(names.begin(), names.end(), name) - names.begin()));
  }
  HittingPart part = Search(weights, without_supersets(std::move(cores)), effort).run();
  for (auto& answer : part.answers)
    for (Candidate& one : answer) one = names[one];
  part.cores = members;
  return part;
}

}  // namespace

std::vector<HittingPart> least_weight_answers(const HittingProblem& problem, std::size_t effort) {
  std::vector<std::uint32_t> parent(problem.cores.size());
  std::iota(parent.begin(), parent.end(), 0U);
  const auto find = [&](std::uint32_t at) {
    while (parent[at] != at) at = parent[at] = parent[parent[at]];
    return at;
  };
  std::vector<std::uint32_t> holder(problem.weights.size(), UINT32_MAX);
  for (std::uint32_t core = 0; core < problem.cores.size(); ++core)
    for (const Candidate candidate : problem.cores[core]) {
      std::uint32_t& held = holder[candidate];
      if (held == UINT32_MAX) held = core;
      const std::uint32_t a = find(held), b = find(core);
      parent[std::max(a, b)] = std::min(a, b);
    }
  std::vector<std::vector<std::uint32_t>> members(problem.cores.size());
  for (std::uint32_t core = 0; core < problem.cores.size(); ++core) members[find(core)].push_back(core);
  std::vector<HittingPart> parts;
  for (const auto& part : members)
    if (!part.empty()) parts.push_back(solve_part(problem, part, effort));
  return parts;
}

}  // namespace lathbook::timeline
