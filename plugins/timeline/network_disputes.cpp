// Implicit hitting sets over the contradictions of one level, with all ties.
#include "plugins/timeline/network_disputes.hpp"

#include <stdexcept>

namespace lathbook::timeline {

namespace {

// Beyond these the best found stands and says so.
constexpr std::size_t kMostLooks = 400;
constexpr std::size_t kMostCores = 400;
constexpr std::size_t kFewestLooks = 20;
// Constraints looked at, in all; sets the number of looks for large components.
constexpr std::size_t kWork = 200'000'000;
// Combinations of equally good answers that are tried together; beyond, each is tried by itself.
constexpr std::size_t kMostTrials = 128;
// Claims that are put back one by one after giving up.
constexpr std::size_t kMostReturns = 2000;

bool overlap(const std::vector<Cause>& a, const std::vector<Cause>& b) {
  return std::any_of(a.begin(), a.end(),
                     [&](Cause one) { return std::binary_search(b.begin(), b.end(), one); });
}

}  // namespace

Disputes::Disputes(State& state, CoreShrinker& shrinker, std::uint8_t level, std::size_t size, Look look)
    : state_(state),
      shrinker_(shrinker),
      level_(level),
      look_(std::move(look)),
      most_looks_(std::clamp(kWork / (size + 1), kFewestLooks, kMostLooks)),
      most_returns_(std::min(kWork / (size + 1), kMostReturns)) {}

std::uint8_t Disputes::level_of(const State& state, const Core& core) {
  std::uint8_t level = 0;
  for (const Cause cause : core.claims) level = std::max(level, state.network().level_of(cause));
  return level;
}

// The claims of a core that may be given up: the least sure among them.
std::vector<Cause> Disputes::elements(const Core& core) const {
  std::vector<Cause> found;
  for (const Cause cause : core.claims)
    if (state_.network().level_of(cause) == level_) found.push_back(cause);
  return found;
}

void Disputes::set_aside(const std::vector<Cause>& claims) {
  for (const Cause claim : claims) {
    if (state_.aside[claim] != kOff) continue;
    shrinker_.set_aside(claim, level_);
    aside_.push_back(claim);
  }
}

void Disputes::put_back() {
  for (const Cause claim : aside_) shrinker_.put_back(claim);
  aside_.clear();
}

// Shrinks a core and keeps it. False when it lies among surer claims.
bool Disputes::admit(Core core) {
  core = shrinker_.shrink(std::move(core));
  if (core.claims.empty())
    throw std::logic_error("timeline network: structure and horizon contradict one another");
  if (level_of(state_, core) < level_) {
    surer_ = std::move(core);
    return false;
  }
  set_aside(elements(core));
  known_->push_back(std::move(core));
  return true;
}

// Finds contradictions that have no claim to give up in common, until the rest holds.
bool Disputes::gather(std::vector<Core> found, bool keep_aside) {
  while (!found.empty()) {
    for (Core& core : found) {
      std::vector<Cause> out = aside_;
      sort_unique(out);
      if (overlap(core.claims, out)) continue;
      if (!admit(std::move(core))) return false;
      if (known_->size() >= kMostCores) break;
    }
    if (known_->size() >= kMostCores && !keep_aside) break;
    ++looks_;
    found = look_();
  }
  if (!keep_aside) put_back();
  return true;
}

void Disputes::plan() {
  const Network& network = state_.network();
  names_.clear();
  groups_.clear();
  for (const Core& core : *known_)
    for (const Cause claim : elements(core)) names_.push_back(claim);
  sort_unique(names_);
  HittingProblem problem;
  for (const Cause claim : names_) problem.weights.push_back(network.weight_of(claim));
  for (const Core& core : *known_) {
    auto& candidates = problem.cores.emplace_back();
    for (const Cause claim : elements(core))
      candidates.push_back(
          static_cast<Candidate>(std::lower_bound(names_.begin(), names_.end(), claim) - names_.begin()));
  }
  for (std::uint32_t group = 0; group < network.groups().size(); ++group) {
    const auto& members = network.groups()[group].claims;
    const auto candidate = static_cast<Candidate>(problem.weights.size());
    bool any = false;
    for (std::size_t at = 0; at < known_->size(); ++at) {
      if (!overlap(elements((*known_)[at]), members)) continue;
      problem.cores[at].push_back(candidate);
      any = true;
    }
    if (!any) continue;
    problem.weights.push_back(network.groups()[group].weight);
    groups_.push_back(group);
  }
  parts_ = least_weight_answers(problem);
}

Dispute::Answer Disputes::answer_of(const std::vector<Candidate>& candidates) const {
  Dispute::Answer answer;
  for (const Candidate candidate : candidates) {
    if (candidate < names_.size()) {
      answer.claims.push_back(names_[candidate]);
      continue;
    }
    const std::uint32_t group = groups_[candidate - names_.size()];
    answer.groups.push_back(group);
    for (const Cause claim : state_.network().groups()[group].claims)
      if (state_.network().level_of(claim) >= level_ && !state_.graph.is_left_out(claim) &&
          state_.aside[claim] >= level_)
        answer.claims.push_back(claim);
  }
  sort_unique(answer.claims);
  return answer;
}

std::vector<Core> Disputes::try_out(const std::vector<Cause>& claims) {
  put_back();
  set_aside(claims);
  ++looks_;
  return look_();
}

std::vector<Core> Disputes::try_choice(const std::vector<std::size_t>& choice) {
  std::vector<Cause> claims;
  put_back();
  for (std::size_t part = 0; part < parts_.size(); ++part) {
    const auto answer = answer_of(parts_[part].answers[choice[part]]);
    claims.insert(claims.end(), answer.claims.begin(), answer.claims.end());
  }
  sort_unique(claims);
  return try_out(claims);
}

// Every combination of best answers must hold; when there are too many, every answer beside the first ones of
// the others.
std::vector<std::vector<std::size_t>> Disputes::combinations() const {
  std::size_t product = 1;
  for (const HittingPart& part : parts_) product = std::min(product * part.answers.size(), kMostTrials + 1);
  std::vector<std::vector<std::size_t>> trials(1, std::vector<std::size_t>(parts_.size(), 0));
  for (std::size_t part = 0; part < parts_.size(); ++part) {
    const std::size_t so_far = product <= kMostTrials ? trials.size() : 1;
    for (std::size_t answer = 1; answer < parts_[part].answers.size(); ++answer)
      for (std::size_t at = 0; at < so_far; ++at) {
        std::vector<std::size_t> trial = trials[at];
        trial[part] = answer;
        trials.push_back(std::move(trial));
      }
  }
  return trials;
}

// False when a new contradiction was found (and gathered).
bool Disputes::try_ties() {
  for (const auto& choice : combinations()) {
    if (looks_ >= most_looks_) return false;
    std::vector<Core> found = try_choice(choice);
    if (found.empty()) continue;
    gather(std::move(found));
    return false;
  }
  put_back();
  return true;
}

// All claims that some best answer gives up, unless one answer is taken. Where not all answers are known, all
// that could be given up.
std::vector<Cause> Disputes::to_leave(const Dispute& dispute) const {
  if (dispute.taken != kNone) return dispute.answers[dispute.taken].claims;
  std::vector<Cause> claims;
  for (const auto& answer : dispute.answers)
    claims.insert(claims.end(), answer.claims.begin(), answer.claims.end());
  if (!dispute.all_listed || !dispute.is_best)
    for (const std::uint32_t at : dispute.conflicts) {
      const auto more = elements((*known_)[at]);
      claims.insert(claims.end(), more.begin(), more.end());
    }
  sort_unique(claims);
  return claims;
}

// Turns the plan into disputes and sets aside what they leave out. False when even so a contradiction is
// left.
bool Disputes::conclude() {
  disputes_.clear();
  std::vector<Cause> leave;
  for (const HittingPart& part : parts_) {
    Dispute& dispute = disputes_.emplace_back();
    dispute.level = level_;
    dispute.conflicts = part.cores;
    for (const auto& candidates : part.answers) dispute.answers.push_back(answer_of(candidates));
    dispute.all_listed = part.all_listed;
    dispute.is_best = part.is_best;
    dispute.weight = part.weight;
    dispute.at_least = part.at_least;
    const bool clear = dispute.answers.size() == 1 && part.all_listed && part.is_best;
    if (clear)
      dispute.taken = 0;
    else if (state_.answer != 0)
      dispute.taken =
          static_cast<std::uint32_t>(std::min<std::size_t>(state_.answer, dispute.answers.size()) - 1);
    const auto claims = to_leave(dispute);
    leave.insert(leave.end(), claims.begin(), claims.end());
  }
  sort_unique(leave);
  std::vector<Core> found = try_out(leave);
  if (found.empty()) return true;
  gather(std::move(found));
  return false;
}

// Everything in any contradiction goes, then what contradicts nothing else comes back, the first entered
// first. What stays out is the one answer known; the plan tells how much must go at least.
void Disputes::give_up() {
  std::uint64_t at_least = 0;
  for (const HittingPart& part : parts_) at_least += part.at_least;
  put_back();
  std::vector<Cause> all;
  for (const Core& core : *known_) {
    const auto more = elements(core);
    all.insert(all.end(), more.begin(), more.end());
  }
  sort_unique(all);
  set_aside(all);
  if (!gather(look_(), true)) return;
  std::vector<Cause> out = aside_;
  sort_unique(out);
  const std::vector<Cause> every = out;
  std::size_t returns = 0;
  for (const Cause claim : every) {
    if (++returns > most_returns_) break;
    shrinker_.put_back(claim);
    if (look_().empty())
      std::erase(out, claim);
    else
      shrinker_.set_aside(claim, level_);
  }
  aside_ = out;
  Dispute dispute;
  dispute.level = level_;
  for (std::uint32_t at = 0; at < known_->size(); ++at) dispute.conflicts.push_back(at);
  dispute.answers.push_back({out, {}});
  for (const Cause claim : out) dispute.weight += state_.network().weight_of(claim);
  dispute.at_least = at_least;
  dispute.is_best = dispute.weight == at_least;
  dispute.all_listed = false;
  if (state_.answer != 0) dispute.taken = 0;
  disputes_ = {dispute};
  put_back();
  set_aside(dispute.taken != kNone ? out : every);
  look_();
}

std::optional<Core> Disputes::settle(std::vector<Core> found, std::vector<Core>& known) {
  known_ = &known;
  bool settled = false;
  gather(std::move(found));
  while (!settled && !surer_) {
    plan();
    const bool proven =
        std::all_of(parts_.begin(), parts_.end(), [](const auto& part) { return part.is_best; });
    if (!proven || looks_ >= most_looks_ || known.size() >= kMostCores) {
      give_up();
      break;
    }
    settled = try_ties() && !surer_ && conclude();
  }
  if (surer_) {
    put_back();
    return std::move(surer_);
  }
  write_down();
  return std::nullopt;
}

Conflict Disputes::conflict_of(const Core& core) const {
  Conflict conflict;
  conflict.claims = core.claims;
  conflict.minimal = core.minimal;
  conflict.level = level_;
  conflict.choice = core.choice;
  for (const Link link : core.loop) conflict.loop.push_back(state_.describe(link));
  for (const Refuted& refuted : core.refuted) {
    conflict.refuted.push_back(state_.describe(refuted));
    conflict.refuted.back().level = level_;
  }
  conflict.clash = -sum_of(state_, core.loop);
  if (core.loop.empty()) {
    conflict.clash = kUnbounded;
    for (const Refutation& refuted : conflict.refuted)
      if (refuted.choice == core.choice && refuted.clash > 0)
        conflict.clash = std::min(conflict.clash, refuted.clash);
    if (conflict.clash == kUnbounded) conflict.clash = 1;
  }
  for (const Cause claim : core.claims)
    if (state_.aside[claim] == level_) conflict.aside.push_back(claim);
  return conflict;
}

void Disputes::write_down() {
  const auto first = static_cast<std::uint32_t>(state_.conflicts.size());
  for (const Core& core : *known_) state_.conflicts.push_back(conflict_of(core));
  for (Dispute& dispute : disputes_) {
    for (std::uint32_t& at : dispute.conflicts) {
      at += first;
      state_.conflicts[at].dispute = static_cast<std::uint32_t>(state_.disputes.size());
    }
    state_.disputes.push_back(std::move(dispute));
  }
}

}  // namespace lathbook::timeline
