// Collecting a temporal network: checks at the door so that the solver need not distrust its input.
#include "plugins/timeline/network.hpp"

#include <algorithm>
#include <string>

#include "core/base/error.hpp"

namespace lathbook::timeline {

namespace {

// With the sum of all weights below this, no path of constraints leaves the range of a Tick, even when
// it starts at the stand-in for 'no bound' (2^61).
constexpr Tick kWeightLimit = Tick{1} << 59;
constexpr std::uint32_t kCountLimit = std::uint32_t{1} << 30;

Tick magnitude(Tick weight) {
  return weight < 0 ? -weight : weight;
}

}  // namespace

Var Network::add_variables(std::uint32_t count) {
  if (count >= kCountLimit - variables_)
    fail(ErrorKind::unsupported,
         "The temporal network holds more than a thousand million variables; split it");
  const Var first = variables_;
  variables_ += count;
  return first;
}

void Network::admit_cause(Cause cause, std::uint8_t level) {
  const bool claim = cause != kStructural && cause != kHorizon;
  if (claim ? (level < kCertain || level > kPossible) : level != 0)
    fail(ErrorKind::invalid, "Constraint of cause " + std::to_string(cause) + " has level " +
                                 std::to_string(level) +
                                 "; claims have 1 to 3, structure and horizon have 0");
  if (!claim) return;
  if (cause >= cause_level_.size()) cause_level_.resize(std::size_t{cause} + 1);
  std::uint8_t& known = cause_level_[cause];
  if (known != 0 && known != level)
    fail(ErrorKind::invalid,
         "Claim " + std::to_string(cause) + " is given two levels of confidence; make it two claims");
  known = level;
}

void Network::admit(const Constraint& constraint) {
  if (constraint.from >= variables_ || constraint.to >= variables_)
    fail(ErrorKind::invalid, "Constraint of cause " + std::to_string(constraint.cause) +
                                 " names a variable that was never added");
  if (constraint.from == kOrigin && constraint.to == kOrigin)
    fail(ErrorKind::invalid,
         "Constraint of cause " + std::to_string(constraint.cause) + " relates the origin to itself");
  if (constraint.weight <= -kWeightLimit || constraint.weight >= kWeightLimit)
    fail(ErrorKind::invalid, "Constraint of cause " + std::to_string(constraint.cause) +
                                 " has a weight outside the clock's range");
  admit_cause(constraint.cause, constraint.level);
  if (constraint.from == kOrigin || constraint.to == kOrigin) return;
  total_ += magnitude(constraint.weight);
  if (total_ >= kWeightLimit)
    fail(ErrorKind::unsupported, "The spans in the temporal network add up to more than the clock can hold");
}

std::uint32_t Network::add_constraint(const Constraint& constraint) {
  admit(constraint);
  if (constraints_.size() + options_.size() >= kCountLimit)
    fail(ErrorKind::unsupported,
         "The temporal network holds more than a thousand million constraints; split it");
  constraints_.push_back(constraint);
  return static_cast<std::uint32_t>(constraints_.size() - 1);
}

std::uint32_t Network::add_latest(Var var, Tick tick, Cause cause, std::uint8_t level) {
  return add_constraint({kOrigin, var, tick, cause, level});
}

std::uint32_t Network::add_earliest(Var var, Tick tick, Cause cause, std::uint8_t level) {
  return add_constraint({var, kOrigin, -tick, cause, level});
}

std::uint32_t Network::add_choice(const Choice& choice) {
  if (choice.cause == kStructural || choice.cause == kHorizon)
    fail(ErrorKind::invalid, "A choice rests on no claim; structure and horizon cannot be either-or");
  if (choice.alternatives.empty())
    fail(ErrorKind::invalid, "The choice of claim " + std::to_string(choice.cause) + " has no alternative");
  admit_cause(choice.cause, choice.level);
  for (const auto& alternative : choice.alternatives)
    for (Constraint constraint : alternative) {
      constraint.cause = choice.cause;
      constraint.level = choice.level;
      admit(constraint);
    }
  const auto index = static_cast<std::uint32_t>(choices_.size());
  ChoiceRow row;
  row.first_alternative = static_cast<std::uint32_t>(alternatives_.size());
  row.cause = choice.cause;
  row.level = choice.level;
  for (const auto& alternative : choice.alternatives) {
    AlternativeRow options;
    options.first_option = static_cast<std::uint32_t>(options_.size());
    options.choice = index;
    for (Constraint constraint : alternative) {
      constraint.cause = choice.cause;
      constraint.level = choice.level;
      options_.push_back(constraint);
      option_alternative_.push_back(static_cast<std::uint32_t>(alternatives_.size()));
    }
    options.end_option = static_cast<std::uint32_t>(options_.size());
    alternatives_.push_back(options);
  }
  row.end_alternative = static_cast<std::uint32_t>(alternatives_.size());
  choices_.push_back(row);
  return index;
}

void Network::declare(Cause claim, std::uint8_t level) {
  if (claim == kStructural || claim == kHorizon)
    fail(ErrorKind::invalid, "Structure and horizon are no claims and cannot be declared");
  admit_cause(claim, level);
}

void Network::join(Cause joint, const std::vector<Cause>& parts) {
  const std::string name = "Joint claim " + std::to_string(joint);
  if (level_of(joint) != 0) fail(ErrorKind::invalid, name + " is in use already; give it a new number");
  if (parts.empty()) fail(ErrorKind::invalid, name + " has no parts");
  std::uint8_t level = 0;
  for (const Cause part : parts) {
    if (level_of(part) == 0 || parts_of(part) != nullptr)
      fail(ErrorKind::invalid,
           name + " has claim " + std::to_string(part) + " as a part, which is not declared or joint itself");
    level = std::max(level, level_of(part));
  }
  declare(joint, level);
  std::vector<Cause> sorted = parts;
  std::sort(sorted.begin(), sorted.end());
  sorted.erase(std::unique(sorted.begin(), sorted.end()), sorted.end());
  for (const Cause part : sorted) {
    auto& joints = joints_[part];
    joints.insert(std::lower_bound(joints.begin(), joints.end(), joint), joint);
  }
  parts_.emplace(joint, std::move(sorted));
}

void Network::weigh(Cause claim, std::uint32_t weight) {
  if (weight == 0 || level_of(claim) == 0)
    fail(ErrorKind::invalid, "Claim " + std::to_string(claim) + " is not declared, or would weigh nothing");
  if (weights_.size() <= claim) weights_.resize(std::size_t{claim} + 1, 0);
  weights_[claim] = weight;
}

void Network::add_group(const std::vector<Cause>& claims, std::uint32_t weight) {
  if (weight == 0) fail(ErrorKind::invalid, "A group of claims would weigh nothing");
  Group group{claims, weight};
  std::sort(group.claims.begin(), group.claims.end());
  group.claims.erase(std::unique(group.claims.begin(), group.claims.end()), group.claims.end());
  for (const Cause claim : group.claims)
    if (level_of(claim) == 0 || parts_of(claim) != nullptr)
      fail(ErrorKind::invalid,
           "A group names claim " + std::to_string(claim) + ", which is not declared or joint");
  groups_.push_back(std::move(group));
}

}  // namespace lathbook::timeline
