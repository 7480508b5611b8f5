// What to set aside so that the rest holds: as little as possible, and every equally good way.
#pragma once

#include <functional>
#include <optional>

#include "plugins/timeline/network_cores.hpp"
#include "plugins/timeline/network_hitting.hpp"

namespace lathbook::timeline {

/// Settles the contradictions of one component at one level. The method is that of implicit hitting sets (R.
/// Reiter, 'A theory of diagnosis from first principles', Artificial Intelligence 32, 1987, 57-95; M. Parker
/// and J. Ryan, 'Finding the minimum weight IIS cover of an infeasible system of linear inequalities', Annals
/// of Mathematics and Artificial Intelligence 17, 1996, 107-126): gather contradictions, find the
/// least-weight claims that hit all known ones, look whether the rest holds, and if not, go on with what is
/// found.
class Disputes {
public:
  /// Contradictions with what is in force now, not shrunk; none when it holds. Adds to the work done.
  using Look = std::function<std::vector<Core>()>;

  /// `size` is about the number of constraints that a look goes through.
  Disputes(State& state, CoreShrinker& shrinker, std::uint8_t level, std::size_t size, Look look);

  /// Sets claims aside until nothing contradicts, and writes down conflicts and disputes. `known` are
  /// contradictions of this level found earlier; those found now are added. When one turns out to lie among
  /// surer claims alone, it stops with nothing set aside and returns that contradiction: it belongs to the
  /// level of the least sure of its claims, which must be settled anew.
  std::optional<Core> settle(std::vector<Core> found, std::vector<Core>& known);

  /// The level at which a core is settled: of its least sure claim.
  static std::uint8_t level_of(const State& state, const Core& core);

private:
  bool gather(std::vector<Core> found, bool keep_aside = false);
  bool admit(Core core);
  std::vector<Cause> elements(const Core& core) const;
  void plan();
  Dispute::Answer answer_of(const std::vector<Candidate>& candidates) const;
  std::vector<Cause> to_leave(const Dispute& dispute) const;
  std::vector<Core> try_out(const std::vector<Cause>& claims);
  std::vector<Core> try_choice(const std::vector<std::size_t>& choice);
  std::vector<std::vector<std::size_t>> combinations() const;
  bool try_ties();
  bool conclude();
  void give_up();
  void write_down();
  Conflict conflict_of(const Core& core) const;
  void set_aside(const std::vector<Cause>& claims);
  void put_back();

  State& state_;
  CoreShrinker& shrinker_;
  std::uint8_t level_;
  Look look_;
  std::vector<Core>* known_ = nullptr;
  std::optional<Core> surer_;
  std::vector<Cause> aside_;  // by this level, at the moment
  std::size_t looks_ = 0;
  std::size_t most_looks_;
  std::size_t most_returns_;
  std::vector<Cause> names_;           // candidate -> claim
  std::vector<std::uint32_t> groups_;  // candidate - names_.size() -> group
  std::vector<HittingPart> parts_;
  std::vector<Dispute> disputes_;
};

}  // namespace lathbook::timeline
