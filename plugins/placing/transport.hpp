// A transportation problem: supplies to demands at least cost. The only door to Boost.Graph.
#pragma once

#include <cstddef>
#include <cstdint>
#include <vector>

namespace lathbook::placing {

/// One way from a supply to a demand; what has no lane is forbidden.
struct Lane {
  std::size_t supply = 0;
  std::size_t demand = 0;
  std::int64_t capacity = 0;
  std::int64_t cost = 0;  ///< for each unit; not below nought
};

/// How much goes over each lane so that as much as possible arrives, at the least cost among all such ways
/// (successive shortest paths with potentials: J. Edmonds, R. M. Karp, 'Theoretical improvements in
/// algorithmic efficiency for network flow problems', Journal of the ACM 19, 1972, 248-264). Sums of cost
/// must fit 62 bits. The same input gives the same answer.
std::vector<std::int64_t> cheapest(const std::vector<std::int64_t>& supplies,
                                   const std::vector<std::int64_t>& demands, const std::vector<Lane>& lanes);

}  // namespace lathbook::placing
