// From facts to constraints: gives every fact that is used the number under which the network knows it.
#pragma once

#include <cstdint>
#include <optional>
#include <unordered_map>
#include <utility>
#include <vector>

#include "plugins/timeline/instants.hpp"
#include "plugins/timeline/phase_lines.hpp"

namespace lathbook::timeline {

/// What one cause of the network stands for: one fact, or several that only together say something.
struct Claim {
  std::vector<std::uint32_t> facts;  ///< indexes into Facts::all(), the leading one first
  std::uint8_t level = kNever;
  bool used = false;  ///< gave a constraint
};

/// What one alternative of a choice means for the thing that the choice is about.
enum class CaseSort : std::uint8_t {
  gone,      ///< it was gone by then
  not_yet,   ///< it was not there yet
  hidden,    ///< `other` stood before it
  after,     ///< it came when `other` was gone
  before,    ///< it was gone when `other` came
  in_place,  ///< it was in the place `other`
};

struct CaseMeaning {
  CaseSort sort = CaseSort::gone;
  Uuid other = {};
};

/// A choice as it is told of one thing; its cases are in the order of the alternatives.
struct Either {
  Uuid subject;
  int placement = 0;  ///< 0: not said which
  std::uint32_t choice = 0;
  Cause cause = kStructural;
  std::vector<CaseMeaning> cases;
};

/// What rests on one source, which is said to stand or fall as a whole.
struct GroupOfFacts {
  std::uint32_t said = 0;  ///< the fact that says so
  std::vector<std::uint32_t> members;
};

/// A coat that lies over another by its number, and the cause of that.
struct LayerOver {
  Uuid upper;
  Cause cause = kStructural;
};

using MaybeInstant = std::optional<Instant>;

/// Constraints of one alternative of a choice.
using Case = std::vector<Constraint>;

/// Holds the network while it is filled.
class Claims {
public:
  Claims(const Facts& facts, const Instants& instants, const PhaseLines& phases, Network& network)
      : facts_(facts), instants_(instants), phases_(phases), network_(network) {}

  const Facts& facts() const { return facts_; }
  const Instants& instants() const { return instants_; }
  const PhaseLines& phases() const { return phases_; }
  const Network& network() const { return network_; }

  /// The claim of a cause (1 or more).
  const Claim& at(Cause cause) const { return claims_.at(cause - 1); }
  std::size_t size() const { return claims_.size(); }
  /// Number of statements that gave a constraint.
  std::size_t statements_used() const;

  /// The cause of one fact; always the same.
  Cause of(std::uint32_t fact);
  /// The cause of a fact that has one; kStructural for a fact that dates nothing.
  Cause cause_of(const Fact& fact) const;
  /// A new cause for facts that speak only together; as sure as the least sure of them.
  Cause joint(std::vector<std::uint32_t> facts);

  /// The coat next over this one by its number; null when none is known.
  const LayerOver* layer_over(const Uuid& lower) const;
  void set_layer_over(const Uuid& lower, const LayerOver& over) { over_[lower] = over; }

  /// x + gap <= y. Nothing happens when an instant is missing.
  void precede(Cause cause, const MaybeInstant& x, const MaybeInstant& y, Tick gap = 0);
  /// The fact's date bounds the instant on both sides, where its ends are dated.
  void within(Cause cause, const DateRange& range, const MaybeInstant& x);
  /// Returns the number of the choice.
  std::uint32_t choose(Cause cause, std::vector<Case> cases);
  void tell(Either either) { eithers_[either.subject].push_back(std::move(either)); }
  const std::vector<Either>& eithers_of(const Uuid& record) const;
  /// The fact gave a constraint, by itself or with others.
  bool is_used(std::uint32_t fact) const;
  /// Lets facts that are used fall together; group n of the network is at(n) of groups().
  void group(std::uint32_t said, const std::vector<std::uint32_t>& members, std::uint32_t weight);
  const std::vector<GroupOfFacts>& groups() const { return groups_; }
  /// The observer's own moment: a variable within the fact's date, made on first use.
  Instant moment_of(std::uint32_t fact);
  /// A variable that belongs to no record.
  Instant anonymous() { return Instant::of(network_.add_variable()); }

private:
  const Facts& facts_;
  const Instants& instants_;
  const PhaseLines& phases_;
  Network& network_;
  std::vector<Claim> claims_;
  std::unordered_map<std::uint32_t, Cause> single_;
  std::unordered_map<std::uint32_t, Var> moments_;
  std::unordered_map<Uuid, LayerOver> over_;
  std::unordered_map<Uuid, std::vector<Either>> eithers_;
  std::vector<GroupOfFacts> groups_;
};

}  // namespace lathbook::timeline
