// Counts of linear extensions with known values.
#include "plugins/chances/ways.hpp"

#include <catch2/catch.hpp>
#include <string>

using lathbook::chances::Before;
using lathbook::chances::count_orders;

namespace {

std::vector<Before> grid(std::uint32_t rows, std::uint32_t columns) {
  std::vector<Before> pairs;
  for (std::uint32_t row = 0; row < rows; ++row)
    for (std::uint32_t column = 0; column < columns; ++column) {
      if (row + 1 < rows) pairs.emplace_back(row * columns + column, (row + 1) * columns + column);
      if (column + 1 < columns) pairs.emplace_back(row * columns + column, row * columns + column + 1);
    }
  return pairs;
}

}  // namespace

TEST_CASE("grids have as many orders as standard tableaux") {
  // Catalan numbers for two rows; J. Frame, G. Robinson, R. Thrall, 'The hook graphs of the symmetric group',
  // Canadian J. Mathematics 6, 1954, 316-324, for the rest.
  const std::uint64_t catalan[] = {2, 5, 14, 42, 132};
  for (std::uint32_t columns = 2; columns <= 6; ++columns)
    CHECK(count_orders(2 * columns, grid(2, columns)) == catalan[columns - 2]);
  CHECK(count_orders(9, grid(3, 3)) == 42);
  CHECK(count_orders(16, grid(4, 4)) == 24'024);
  CHECK(count_orders(20, grid(4, 5)) == 1'662'804);
}

TEST_CASE("sets under inclusion, zigzags, chains") {
  for (const auto& [members, count] :
       std::vector<std::pair<std::uint32_t, std::uint64_t>>{{3, 48}, {4, 1'680'384}}) {
    std::vector<Before> pairs;  // OEIS A046873
    for (std::uint32_t set = 0; set < 1U << members; ++set)
      for (std::uint32_t bit = 1; bit < 1U << members; bit *= 2)
        if ((set & bit) == 0) pairs.emplace_back(set, set | bit);
    CHECK(count_orders(1U << members, pairs) == count);
  }
  const std::uint64_t euler[] = {5, 16, 61, 272, 1385};  // Euler's numbers: up-down permutations
  for (std::uint32_t things = 4; things <= 8; ++things) {
    std::vector<Before> pairs;
    for (std::uint32_t at = 0; at + 1 < things; ++at)
      pairs.push_back(at % 2 == 0 ? Before{at, at + 1} : Before{at + 1, at});
    CHECK(count_orders(things, pairs) == euler[things - 4]);
  }
  std::vector<Before> chains;  // 24! / (8!)^3
  for (std::uint32_t at = 0; at < 24; ++at)
    if (at % 8 != 7) chains.emplace_back(at, at + 1);
  CHECK(count_orders(24, chains) == 9'465'511'770);
  chains.emplace_back(0, 8);
  CHECK(count_orders(24, chains) == 9'465'511'770 / 2);
}

TEST_CASE("orders of a published diagram") {
  // E. C. Harris, 'Principles of Archaeological Stratigraphy', 2nd edition 1989, figure 12: 12 orders; 2
  // before 3 in half of them, 7 before 8 in half.
  std::vector<Before> pairs{{1, 0}, {2, 0}, {3, 0}, {4, 1}, {4, 2}, {4, 3},
                            {5, 4}, {6, 5}, {7, 5}, {8, 6}, {8, 7}};
  CHECK(count_orders(9, pairs) == 12);
  auto with = pairs;
  with.emplace_back(1, 2);
  CHECK(count_orders(9, with) == 6);
  with = pairs;
  with.emplace_back(6, 7);
  CHECK(count_orders(9, with) == 6);
  with = pairs;
  with.emplace_back(0, 8);
  CHECK(count_orders(9, with) == 0);
}

TEST_CASE("what cannot be counted is not guessed") {
  CHECK_FALSE(count_orders(65, {}));
  CHECK_FALSE(count_orders(30, {}));  // a thousand million sets
  CHECK_FALSE(count_orders(12, {}, 100));
  CHECK(count_orders(2, {{0, 1}, {1, 0}}) == 0);
}
