// How many pieces: the arithmetic of handbooks and of published worked examples.
#include <catch2/catch.hpp>
#include <tuple>
#include <vector>

#include "core/base/error.hpp"
#include "plugins/pieces/quantities.hpp"

using namespace lathbook;
using namespace lathbook::pieces;

namespace {

// Rounded to two places, as the table prints them.
double two(double value) {
  return static_cast<double>(static_cast<long long>(value * 100 + 0.5)) / 100;
}

}  // namespace

// 144 square inches / ((w + joint) x (h + joint)): plane geometry, computed by hand; no published table.
TEST_CASE("pieces per square foot by size and joint") {
  struct Row {
    double length, width;
    std::vector<double> by_joint;  // 0, 1/32, 1/16, 1/8, 1/4 inch
  };
  const std::vector<Row> table{
      {12, 12, {1.00, 0.99, 0.99, 0.98, 0.96}},      {9, 9, {1.78, 1.77, 1.75, 1.73, 1.68}},
      {8, 8, {2.25, 2.23, 2.22, 2.18, 2.12}},        {6, 6, {4.00, 3.96, 3.92, 3.84, 3.69}},
      {6, 3, {8.00, 7.88, 7.76, 7.52, 7.09}},        {6, 2, {12.00, 11.75, 11.52, 11.06, 10.24}},
      {6, 1.5, {16.00, 15.59, 15.20, 14.47, 13.17}}, {5, 5, {5.76, 5.69, 5.62, 5.48, 5.22}},
      {4.25, 4.25, {7.97, 7.86, 7.74, 7.52, 7.11}},  {4, 4, {9.00, 8.86, 8.73, 8.46, 7.97}},
      {3, 3, {16.00, 15.67, 15.35, 14.75, 13.63}},   {2, 2, {36.00, 34.90, 33.85, 31.89, 28.44}}};
  const std::vector<double> joints{0, 1.0 / 32, 1.0 / 16, 1.0 / 8, 1.0 / 4};
  for (const auto& row : table)
    for (std::size_t i = 0; i < joints.size(); ++i) {
      INFO(row.length << " x " << row.width << ", joint " << joints[i]);
      CHECK(two(144 * per_area(row.length, row.width, joints[i])) == Approx(row.by_joint[i]));
    }
  CHECK(two(144 * hexagons_per_area(1, 0)) == Approx(166.28));
  CHECK(two(144 * hexagons_per_area(1, 1.0 / 8)) == Approx(131.38));
  CHECK(two(144 * hexagons_per_area(2, 1.0 / 16)) == Approx(39.09));
  CHECK(two(1e6 * per_area(152, 152, 2)) == Approx(42.17));
  CHECK(two(1e6 * per_area(108, 108, 2)) == Approx(82.64));
  CHECK(two(1e6 * per_area(130, 130, 1)) == Approx(58.27));
}

// Naval construction handbook's example as given in the trade notes (US Navy, brickwork estimating): wall of
// 8 by 14 feet, brick and joint 2 3/4 by 8 1/2 inches, 6.16 a square foot; 690, and with 10 per cent 759
// (printed 760, rounded up to tens).
TEST_CASE("published brick count") {
  const double each = 144 / (2.75 * 8.5);
  CHECK(two(each) == Approx(6.16));
  CHECK(static_cast<int>(each * 112 + 0.5) == 690);
  CHECK(with_allowance(690, 10) == 759);
}

// Published home-owner's examples: 400 square feet with 10 per cent is 440; a field of 2304 square inches
// less its border takes 144 tiles of 4 x 4 and a border of 144 / 4 = 36.
TEST_CASE("published tile counts") {
  CHECK(with_allowance(400, 10) == 440);
  CHECK(laid_in(48, 48, 4, 4, 0) == 144);
  CHECK(along(144, 4, 0).pieces == 36);
}

// Worked by hand: the area method would say 26.
TEST_CASE("a hearth is counted by row and column") {
  CHECK(laid_in(54, 18, 6, 6, 0) == 27);
  CHECK_FALSE(along(54, 6, 0).cut);
  CHECK(laid_in(54, 18, 6, 6, 0.125) == 27);
  CHECK(along(54, 6, 0.125).cut);
  CHECK(2 * laid_in(6, 30, 6, 6, 0) == 10);  // two jambs, five high
}

TEST_CASE("what to order: 27 laid, 19 sound, 5 broken, 3 missing") {
  CHECK(with_allowance(5 + 3, 10) == 9);
  CHECK(against_rejects(8, 20) == 10);
  CHECK(against_rejects(8, 0) == 8);
  CHECK(with_allowance(0, 10) == 0);
  CHECK_THROWS_AS(against_rejects(8, 100), Error);
  CHECK_THROWS_AS(with_allowance(8, -1), Error);
  CHECK_THROWS_AS(along(0, 6, 0), Error);
  CHECK_THROWS_AS(along(54, 6, -1), Error);
}
