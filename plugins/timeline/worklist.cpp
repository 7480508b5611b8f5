// Weighs hypotheses by what they would do to the bounds of the scope.
#include "plugins/timeline/worklist.hpp"

#include <algorithm>

namespace lathbook::timeline {

namespace {

constexpr double kDaysInYear = 365.2425;
// A bound that moves by less than a year is not counted: our own figure.
constexpr Tick kYear = 365 * kTicksPerDay;
constexpr std::size_t kMostOfASort = 4;

double years_of(Tick ticks) {
  return static_cast<double>(ticks / kTicksPerDay) / kDaysInYear;
}

}  // namespace

Worklist::Worklist(const Claims& claims, const Words& words, const Solution& solution, const Scope& scope,
                   std::uint8_t level)
    : claims_(claims),
      facts_(claims.facts()),
      words_(words),
      solution_(solution),
      scope_(scope),
      level_(level) {
  watch();
}

// The years that the scope is about run from the first day that anything in it is dated to, to the known day.
void Worklist::watch() {
  roof_ = last_tick(facts_.settings().known);
  floor_ = roof_;
  const auto see = [&](Var var) {
    const Bounds bounds = solution_.bounds(var, level_);
    const std::uint8_t remarks = solution_.remarks(var, level_);
    if ((remarks & kEarliestNoEvidence) == 0) floor_ = std::min(floor_, bounds.earliest);
    if ((remarks & kLatestNoEvidence) == 0) floor_ = std::min(floor_, bounds.latest);
  };
  for (const Uuid& item : scope_.items)
    for (int placement = 1; placement <= claims_.instants().placements(item); ++placement)
      for (const bool is_end : {false, true}) {
        Watched one;
        one.item = item;
        one.placement = placement;
        one.is_end = is_end;
        one.var =
            (is_end ? claims_.instants().end(item, placement) : claims_.instants().begin(item, placement))
                ->low;
        see(one.var);
        watched_.push_back(one);
      }
  if (scope_.phases)
    for (const NumberedPhase& phase : scope_.phases->phases)
      if (const auto opens = claims_.instants().phase(phase.phase)) see(opens->low);
  for (Watched& one : watched_) {
    const Watched window = cut(one.var);
    one.low = window.low;
    one.high = window.high;
    one.low_known = window.low_known;
    one.high_known = window.high_known;
  }
}

Worklist::Watched Worklist::cut(Var var) const {
  const Bounds bounds = solution_.bounds(var, level_);
  const std::uint8_t remarks = solution_.remarks(var, level_);
  Watched watched;
  watched.var = var;
  watched.low = std::min(std::max(bounds.earliest, floor_), roof_);
  watched.high = std::max(std::min(bounds.latest, roof_), watched.low);
  watched.low_known = (remarks & kEarliestNoEvidence) == 0;
  watched.high_known = (remarks & kLatestNoEvidence) == 0 && bounds.latest <= roof_;
  return watched;
}

const Worklist::Distances& Worklist::distances(Var var) {
  const auto [at, is_new] = distances_.try_emplace(var);
  if (is_new) at->second = {solution_.distances_from(var, level_), solution_.distances_to(var, level_)};
  return at->second;
}

// It can come out so, and is not known to be so already.
bool Worklist::is_open(const Outcome& outcome) {
  if (outcome.is_date) return true;
  const Tick back = distances(outcome.to).from[outcome.from];
  const Tick ahead = distances(outcome.to).to[outcome.from];
  return (back == kUnbounded || back + outcome.weight >= 0) &&
         (ahead == kUnbounded || ahead > outcome.weight);
}

Worklist::Gain Worklist::gain(const Outcome& outcome) {
  const Tick latest =
      outcome.is_date ? outcome.weight : solution_.bounds(outcome.from, level_).latest + outcome.weight;
  const Tick earliest =
      outcome.is_date ? outcome.weight : solution_.bounds(outcome.to, level_).earliest - outcome.weight;
  const std::vector<Tick>& onward = distances(outcome.to).from;
  const std::vector<Tick>& back = distances(outcome.is_date ? outcome.to : outcome.from).to;
  Gain gain;
  for (const Watched& one : watched_) {
    const Tick high = onward[one.var] == kUnbounded ? one.high : std::min(one.high, latest + onward[one.var]);
    const Tick low = back[one.var] == kUnbounded ? one.low : std::max(one.low, earliest - back[one.var]);
    const Tick lowered = one.high - std::max(high, one.low), raised = std::min(low, one.high) - one.low;
    for (const Tick moved : {lowered, raised}) {
      if (moved < kYear) continue;
      ++gain.narrowed;
      gain.years += years_of(moved);
    }
    if (lowered < kYear && raised < kYear) continue;
    TimelineGain told{one.item, one.placement, one.is_end, std::nullopt, std::nullopt};
    if (one.low_known || raised >= kYear) told.not_before = day_of(low);
    if (one.high_known || lowered >= kYear) told.not_after = day_of(high);
    gain.gains.push_back(std::move(told));
  }
  return gain;
}

bool Worklist::weigh(TimelineTask& task, const std::vector<Outcome>& outcomes) {
  if (outcomes.empty()) return false;
  for (const Outcome& outcome : outcomes) {
    Gain one = gain(outcome);
    task.narrows += static_cast<double>(one.narrowed);
    task.years += one.years;
    task.at_least = task.outcomes.empty() ? one.narrowed : std::min(task.at_least, one.narrowed);
    TimelineOutcome tried{outcome.earlier, outcome.later, std::nullopt, std::move(one.gains)};
    if (outcome.is_date) tried.day = day_of(outcome.weight);
    task.outcomes.push_back(std::move(tried));
  }
  task.narrows /= static_cast<double>(task.outcomes.size());
  task.years /= static_cast<double>(task.outcomes.size());
  return task.at_least > 0;
}

// A date found may be any day that is still possible: three are tried, at the quarters.
std::vector<Worklist::Outcome> Worklist::dates(Var var) const {
  const Watched window = cut(var);
  std::vector<Outcome> outcomes;
  for (const int quarter : {1, 2, 3})
    outcomes.push_back({var, var, window.low + (window.high - window.low) / 4 * quarter, true, {}, {}});
  return outcomes;
}

bool Worklist::is_wide(Var var, double years) const {
  const Watched window = cut(var);
  return years_of(window.high - window.low) >= years;
}

std::vector<TimelineTask> Worklist::tasks() {
  tasks_.clear();
  add_contacts();
  add_layers();
  add_sources();
  add_works();
  add_things();
  add_coats();
  std::stable_sort(tasks_.begin(), tasks_.end(), [](const TimelineTask& a, const TimelineTask& b) {
    if (a.narrows != b.narrows) return a.narrows > b.narrows;
    if (a.years != b.years) return a.years > b.years;
    return a.words < b.words;
  });
  return std::move(tasks_);
}

// A list of one sort of work is of little use: each sort has its share.
std::vector<TimelineTask> Worklist::tasks(std::size_t most) {
  std::map<std::string, std::size_t> taken;
  std::vector<TimelineTask> best;
  for (TimelineTask& task : tasks())
    if (best.size() < most && taken[task.sort]++ < kMostOfASort) best.push_back(std::move(task));
  return best;
}

}  // namespace lathbook::timeline
