// Least-weight hitting sets: of several lists, each of which must lose a member, what to give up at least.
#pragma once

#include <cstddef>
#include <cstdint>
#include <vector>

namespace lathbook::timeline {

/// A member of a list (a core of a contradiction), dense from 0.
using Candidate = std::uint32_t;

struct HittingProblem {
  std::vector<std::uint64_t> weights;         ///< by candidate, each more than 0
  std::vector<std::vector<Candidate>> cores;  ///< each ascending, none empty
};

/// Cores that hang together through common candidates, and the best choices for them.
struct HittingPart {
  std::vector<std::uint32_t> cores;  ///< indexes, ascending
  /// Every choice of least weight, each ascending, in lexicographic order; or the best found when not
  /// `is_best`. Never empty.
  std::vector<std::vector<Candidate>> answers;
  bool all_listed = true;
  bool is_best = true;
  std::uint64_t weight = 0;
  std::uint64_t at_least = 0;  ///< proven lower bound of the weight
};

/// At most this many equally good answers are listed for one part.
inline constexpr std::size_t kMostAnswers = 20;

/// The parts in order of their first cores. The problem is NP-hard (it holds minimum vertex cover, R. M.
/// Karp, 'Reducibility among combinatorial problems', 1972); the method is branch and bound over a core not
/// yet hit, with the sum over disjoint cores as bound, on cores freed of those that hold another. `effort`
/// limits the cores looked at for one part and does not depend on the clock: beyond it the best found stands,
/// with the bound.
std::vector<HittingPart> least_weight_answers(const HittingProblem& problem, std::size_t effort = 20'000'000);

}  // namespace lathbook::timeline
