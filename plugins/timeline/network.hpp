// The temporal network: variables, difference constraints and either-or rows in; bounds, reasons and
// contradictions out.
//
// Pure algorithm: it knows claims only by number. The model is the Simple Temporal Problem of
// R. Dechter, I. Meiri, J. Pearl, 'Temporal constraint networks', Artificial Intelligence 49, 1991, 61-95.
#pragma once

#include <cstddef>
#include <cstdint>
#include <memory>
#include <unordered_map>
#include <utility>
#include <vector>

namespace lathbook::timeline {

/// An instant or a span, in ticks; how many go to a day is the caller's affair.
using Tick = std::int64_t;
/// A variable: dense, 0 is the origin (day 0, tick 0).
using Var = std::uint32_t;
/// What a constraint rests on: the number of a claim (dense, from 1), or one of the two below.
using Cause = std::uint32_t;

inline constexpr Var kOrigin = 0;
/// True by the nature of things (an end is after its beginning); never set aside.
inline constexpr Cause kStructural = 0;
/// The limits of the inquiry; never set aside; a bound whose reason starts here has no evidence.
inline constexpr Cause kHorizon = 0xffffffff;
/// 'No such index'.
inline constexpr std::uint32_t kNone = 0xffffffff;
/// The latest tick of a variable without any bound; its earliest is -kUnbounded.
inline constexpr Tick kUnbounded = INT64_MAX;

/// What giving up one claim costs, unless it is weighed: a group of claims may then cost one and a half.
inline constexpr std::uint32_t kClaimWeight = 2;

/// Confidence as nested levels: level L believes every claim of a level <= L.
inline constexpr std::uint8_t kCertain = 1;
inline constexpr std::uint8_t kProbable = 2;
inline constexpr std::uint8_t kPossible = 3;

/// x[to] - x[from] <= weight. `level` is 0 exactly when `cause` is kStructural or kHorizon, else 1..3;
/// all constraints and choices of one cause have the same level.
struct Constraint {
  Var from = 0;
  Var to = 0;
  Tick weight = 0;
  Cause cause = kStructural;
  std::uint8_t level = 0;
};

/// At least one alternative holds, an alternative being all of its constraints together. An empty
/// alternative is always true. Cause and level of the constraints inside are taken from the choice.
struct Choice {
  std::vector<std::vector<Constraint>> alternatives;
  Cause cause = 1;
  std::uint8_t level = kCertain;
};

/// Collects a system of constraints. Everything is stored flat; indexes are given in order of adding.
class Network {
public:
  /// Makes room for this many constraints, to spare copying.
  void reserve(std::size_t constraints) { constraints_.reserve(constraints); }
  Var add_variable() { return add_variables(1); }
  /// Adds `count` variables and returns the first.
  Var add_variables(std::uint32_t count);
  /// Returns the constraint's index. Throws Error(invalid) for an unknown variable, the origin related
  /// to itself, a level that does not fit the cause, or weights too large to be added up safely.
  std::uint32_t add_constraint(const Constraint& constraint);
  /// x[var] <= tick and x[var] >= tick, as constraints with the origin.
  std::uint32_t add_latest(Var var, Tick tick, Cause cause, std::uint8_t level);
  std::uint32_t add_earliest(Var var, Tick tick, Cause cause, std::uint8_t level);
  /// Returns the choice's index. Throws like add_constraint, and when there is no alternative or the
  /// cause is not a claim.
  std::uint32_t add_choice(const Choice& choice);

  /// Makes a claim known without a constraint of its own. Throws like add_constraint.
  void declare(Cause claim, std::uint8_t level);
  /// Makes `joint` a claim that speaks only while all of `parts` are believed (two statements that say
  /// something only together). It is never set aside by itself: its parts are. Throws Error(invalid) unless
  /// the parts are declared, no joints themselves, and `joint` is new; its level is the least sure of theirs.
  void join(Cause joint, const std::vector<Cause>& parts);
  /// What giving up a claim costs against others of its level; kClaimWeight unless told. More than 0.
  void weigh(Cause claim, std::uint32_t weight);
  /// Lets claims fall together, as all that one source says: giving up the group costs `weight`.
  void add_group(const std::vector<Cause>& claims, std::uint32_t weight);

  /// Number of variables, the origin included.
  std::uint32_t variables() const { return variables_; }
  /// One more than the greatest claim number used.
  std::uint32_t causes() const { return static_cast<std::uint32_t>(cause_level_.size()); }
  /// Level of a cause; 0 for structure, horizon and claims never used.
  std::uint8_t level_of(Cause cause) const { return cause < cause_level_.size() ? cause_level_[cause] : 0; }
  const std::vector<Constraint>& constraints() const { return constraints_; }
  /// The constraints of all alternatives of all choices, one after another.
  const std::vector<Constraint>& options() const { return options_; }

  struct ChoiceRow {
    std::uint32_t first_alternative = 0;  ///< into alternatives()
    std::uint32_t end_alternative = 0;
    Cause cause = kStructural;
    std::uint8_t level = 0;
  };
  struct AlternativeRow {
    std::uint32_t first_option = 0;  ///< into options()
    std::uint32_t end_option = 0;
    std::uint32_t choice = 0;
  };
  const std::vector<ChoiceRow>& choices() const { return choices_; }
  const std::vector<AlternativeRow>& alternatives() const { return alternatives_; }
  struct Group {
    std::vector<Cause> claims;  ///< ascending
    std::uint32_t weight = 0;
  };
  const std::vector<Group>& groups() const { return groups_; }
  std::uint32_t weight_of(Cause claim) const {
    return claim < weights_.size() && weights_[claim] != 0 ? weights_[claim] : kClaimWeight;
  }
  bool has_joints() const { return !parts_.empty(); }
  /// The parts of a joint claim; null for any other.
  const std::vector<Cause>* parts_of(Cause cause) const {
    const auto found = parts_.find(cause);
    return found == parts_.end() ? nullptr : &found->second;
  }
  /// The joint claims that a claim is part of, ascending; null when none.
  const std::vector<Cause>* joints_of(Cause claim) const {
    const auto found = joints_.find(claim);
    return found == joints_.end() ? nullptr : &found->second;
  }
  /// The alternative (index into alternatives()) that an option belongs to.
  std::uint32_t alternative_of(std::uint32_t option) const { return option_alternative_[option]; }

private:
  void admit(const Constraint& constraint);
  void admit_cause(Cause cause, std::uint8_t level);

  std::uint32_t variables_ = 1;
  Tick total_ = 0;  // sum of |weight| between variables: no path can overflow while it is small
  std::vector<Constraint> constraints_;
  std::vector<Constraint> options_;
  std::vector<std::uint32_t> option_alternative_;
  std::vector<AlternativeRow> alternatives_;
  std::vector<ChoiceRow> choices_;
  std::vector<std::uint8_t> cause_level_;
  std::vector<std::uint32_t> weights_;  // by cause, 0 = kClaimWeight
  std::vector<Group> groups_;
  std::unordered_map<Cause, std::vector<Cause>> parts_;
  std::unordered_map<Cause, std::vector<Cause>> joints_;
};

enum class Side : std::uint8_t { latest = 0, earliest = 1 };

/// One link of a reason or a contradiction, described in full.
struct Step {
  std::uint32_t constraint = kNone;  ///< index in Network::constraints(), or kNone when a choice gave it
  std::uint32_t choice = kNone;      ///< the choice that gave it, or kNone
  std::uint32_t alternative =
      kNone;                    ///< number within the choice; kNone with a choice: holds in every open case
  std::uint32_t cases = kNone;  ///< then Solution::cases() tells each case
  Var from = 0;
  Var to = 0;
  Tick weight = 0;
  Cause cause = kStructural;
  std::uint8_t level = 0;
  bool operator==(const Step&) const = default;
};

/// One case of an either-or: the alternative (number within the choice) taken for true.
struct Decision {
  std::uint32_t choice = kNone;
  std::uint32_t alternative = kNone;
  bool operator==(const Decision&) const = default;
};

/// Why an alternative of a choice cannot hold: with it the steps, read in order, close a loop that is
/// `clash` ticks too tight. When only going through the cases of other choices shows it, `assumed` names
/// the cases of one such way (the loop is then that one), or, for a choice that is settled, the loop is empty
/// and `claims` tells all it rests on.
struct Refutation {
  std::uint32_t choice = kNone;
  std::uint32_t alternative = kNone;
  std::uint8_t level = 0;  ///< from this level on
  Tick clash = 0;
  std::vector<Step> loop;
  std::vector<Cause> claims;  ///< ascending; without the choice's own
  std::vector<Decision> assumed;
};

/// Claims that cannot all hold.
struct Conflict {
  std::vector<Cause> claims;  ///< ascending, no joint ones; leaving out any one makes the rest consistent
  bool minimal = true;        ///< false: too many claims in one loop to try each
  std::vector<Cause> aside;   ///< those of the claims that were set aside
  std::uint8_t level = 0;     ///< level at which it came to light
  Tick clash = 0;             ///< by how many ticks the loop is too tight, > 0
  std::vector<Step> loop;     ///< from -> to, closed; empty when every alternative of `choice` is refuted
  std::uint32_t choice = kNone;
  std::vector<Refutation> refuted;  ///< the alternatives ruled out on the way
  std::uint32_t dispute = kNone;    ///< the dispute it belongs to
};

/// Contradictions that have claims in common which could be given up, and the best ways out of them all.
/// Only claims of one level are weighed against one another: the surer ones in the contradictions stand.
struct Dispute {
  std::uint8_t level = 0;
  std::vector<std::uint32_t> conflicts;  ///< indexes of Solution::conflicts(), ascending
  /// One way out: giving up these claims, and those of whole groups among them, settles every conflict.
  struct Answer {
    std::vector<Cause> claims;          ///< all that fall, ascending
    std::vector<std::uint32_t> groups;  ///< those that fall as a whole
    bool operator==(const Answer&) const = default;
  };
  std::vector<Answer> answers;  ///< every one of least weight, in order of their claims
  bool all_listed = true;       ///< false: there are more equally good ones
  bool is_best = true;          ///< false: too much work; the answer is the best found
  std::uint64_t weight = 0;     ///< of an answer
  std::uint64_t at_least = 0;   ///< no way out weighs less than this; equals `weight` when is_best
  std::uint32_t taken = kNone;  ///< the answer left out of the bounds; kNone: undecided, all of them are
};

/// What is known of one choice at one level.
enum class ChoiceState : std::uint8_t {
  unused,   ///< its claim is not believed at this level, or was set aside
  open,     ///< two or more alternatives are left: the bounds it touches may be wider than necessary
  decided,  ///< one alternative is left and is imposed
};

struct Bounds {
  Tick earliest = -kUnbounded;
  Tick latest = kUnbounded;
  bool operator==(const Bounds&) const = default;
};

/// Remarks on a variable at a level, one bit each.
enum Remark : std::uint8_t {
  kEarliestNoEvidence = 1,  ///< the reason starts at the horizon, or there is no bound at all
  kLatestNoEvidence = 2,
  kEarliestLeans = 4,  ///< would be tighter if a claim that was set aside were believed
  kLatestLeans = 8,
  kEarliestWide = 16,  ///< an open choice can reach this bound: it may be wider than necessary
  kLatestWide = 32,
};

struct Options {
  std::uint8_t max_level = kPossible;  ///< levels above it are not computed
  std::vector<Cause> leave_out;        ///< 'what if these claims had not been made'
  /// Of equally good answers to a dispute the one to take, counted from 1 (the last where there are fewer);
  /// 0 leaves a dispute with several answers undecided: the bounds do without all claims in any of them.
  std::uint32_t answer = 0;
};

/// The answer. Refers to its network, which must outlive it unchanged. Cheap to move.
class Solution {
public:
  Solution(Solution&&) noexcept;
  Solution& operator=(Solution&&) noexcept;
  ~Solution();

  std::uint8_t max_level() const;
  /// Tightest bounds on a variable from the claims believed at this level (1..max_level()); exact unless
  /// marked wide. All earliest together, and all latest together, satisfy every constraint believed.
  Bounds bounds(Var var, std::uint8_t level) const;
  /// The bounds, or the separate spans within them that the cases of open choices leave, in order. Only
  /// where one group of choices moves the variable; else the bounds.
  std::vector<Bounds> spans(Var var, std::uint8_t level) const;
  /// A set of Remark bits.
  std::uint8_t remarks(Var var, std::uint8_t level) const;
  /// The constraints that fix a bound, from the dated end to the variable; empty when unbounded. Among
  /// equal reasons: evidence before horizon, then fewer claims, fewer steps, better weakest claim, lower
  /// claim number of the last step.
  std::vector<Step> reason(Var var, Side side, std::uint8_t level) const;
  /// In the order in which they were found: by level, then by variable.
  const std::vector<Conflict>& conflicts() const;
  /// In the order of their first conflicts.
  const std::vector<Dispute>& disputes() const;
  /// True when the claim was set aside at this level or a lower one.
  bool is_aside(Cause cause, std::uint8_t level) const;
  /// The claim set aside that a variable's bounds lean on (see Remark); kStructural when none.
  Cause leans_on(Var var, Side side, std::uint8_t level) const;

  /// Most that x[to] - x[from] can be (kUnbounded when nothing limits it); the least is
  /// -distance(to, from). Time linear in the component that holds `from`, plus its cyclic parts by heap.
  Tick distance(Var from, Var to, std::uint8_t level) const;
  /// distance(from, v) for every v, and distance(v, to) for every v.
  std::vector<Tick> distances_from(Var from, std::uint8_t level) const;
  std::vector<Tick> distances_to(Var to, std::uint8_t level) const;

  ChoiceState choice_state(std::uint32_t choice, std::uint8_t level) const;
  /// Every way of settling the choice together with those it touches was gone through: each alternative that
  /// is left holds in one of them. Never so for a choice that is not open.
  bool is_exact(std::uint32_t choice, std::uint8_t level) const;
  /// Number within the choice of the alternative that is left; kNone unless decided.
  std::uint32_t chosen(std::uint32_t choice, std::uint8_t level) const;
  /// Alternatives ruled out at this level or a lower one.
  std::vector<Refutation> refuted(std::uint32_t choice, std::uint8_t level) const;
  /// For a Step with `cases`: the chain that gives the bound in each alternative still open.
  struct Case {
    std::uint32_t alternative = kNone;  ///< of the step's choice; kNone when several were gone through
    std::vector<Decision> assumed;
    std::vector<Step> steps;
  };
  std::vector<Case> cases(std::uint32_t index) const;

  struct Impl;
  const Impl& impl() const { return *impl_; }
  explicit Solution(std::unique_ptr<Impl> impl);

private:
  std::unique_ptr<Impl> impl_;
};

/// Solves level by level: certain, then probable, then possible. Contradictions are resolved where they
/// first appear by setting aside claims of the least sure level in them, as little as possible by weight
/// (see Dispute); what was kept is hard for the next level and what was set aside stays aside. Choices: unit
/// propagation to a fixpoint, then the hull over the open alternatives on current bounds, then exact
/// branching over groups of choices that touch one another, as long as their cases are few (see
/// network_worlds.hpp). All limits count work, never time: the same input gives the same answer everywhere.
/// Linear in the acyclic parts. Throws std::logic_error when structure and horizon contradict one another (a
/// fault of the caller).
Solution solve(const Network& network, const Options& options = {});

/// The same as solve() of the network of `before` with these options. When only other claims are left out, no
/// more is solved than the components that those claims are in; what was found of the others is copied.
Solution solve_again(const Solution& before, const Options& options);

}  // namespace lathbook::timeline
