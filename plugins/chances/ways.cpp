// Goes up the lattice of the sets that can stand first, one size after another.
#include "plugins/chances/ways.hpp"

#include <unordered_map>

namespace lathbook::chances {

std::optional<std::uint64_t> count_orders(std::uint32_t things, const std::vector<Before>& pairs,
                                          std::size_t most) {
  if (things > 64) return std::nullopt;
  std::vector<std::uint64_t> before(things, 0);
  for (const auto& [first, second] : pairs) before[second] |= std::uint64_t{1} << first;
  std::unordered_map<std::uint64_t, std::uint64_t> ways{{0, 1}};
  std::size_t sets = 1;
  for (std::uint32_t size = 0; size < things; ++size) {
    std::unordered_map<std::uint64_t, std::uint64_t> next;
    for (const auto& [set, count] : ways)
      for (std::uint32_t thing = 0; thing < things; ++thing) {
        const std::uint64_t bit = std::uint64_t{1} << thing;
        if ((set & bit) != 0 || (before[thing] & ~set) != 0) continue;
        std::uint64_t& sum = next[set | bit];
        if (__builtin_add_overflow(sum, count, &sum) || sets + next.size() > most) return std::nullopt;
      }
    sets += next.size();
    ways = std::move(next);
  }
  return ways.empty() ? 0 : ways.begin()->second;
}

}  // namespace lathbook::chances
