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
    std::vector<double> by_joint;      // a square foot: 0, 1/32, 1/16, 1/8, 1/4 inch
    double square_yard, square_metre;  // without joint
  };
  const std::vector<Row> table{{12, 12, {1.00, 0.99, 0.99, 0.98, 0.96}, 9, 10.76},
                               {9, 9, {1.78, 1.77, 1.75, 1.73, 1.68}, 16, 19.14},
                               {8, 8, {2.25, 2.23, 2.22, 2.18, 2.12}, 20.25, 24.22},
                               {6, 6, {4.00, 3.96, 3.92, 3.84, 3.69}, 36, 43.06},
                               {6, 3, {8.00, 7.88, 7.76, 7.52, 7.09}, 72, 86.11},
                               {6, 2, {12.00, 11.75, 11.52, 11.06, 10.24}, 108, 129.17},
                               {6, 1.5, {16.00, 15.59, 15.20, 14.47, 13.17}, 144, 172.22},
                               {5, 5, {5.76, 5.69, 5.62, 5.48, 5.22}, 51.84, 62.00},
                               {4.25, 4.25, {7.97, 7.86, 7.74, 7.52, 7.11}, 71.75, 85.81},
                               {4, 4, {9.00, 8.86, 8.73, 8.46, 7.97}, 81, 96.88},
                               {3, 3, {16.00, 15.67, 15.35, 14.75, 13.63}, 144, 172.22},
                               {2, 2, {36.00, 34.90, 33.85, 31.89, 28.44}, 324, 387.50},
                               {1, 1, {144.00, 135.40, 127.56, 113.78, 92.16}, 1296, 1550.00}};
  const std::vector<double> joints{0, 1.0 / 32, 1.0 / 16, 1.0 / 8, 1.0 / 4};
  for (const auto& row : table) {
    INFO(row.length << " x " << row.width);
    for (std::size_t i = 0; i < joints.size(); ++i) {
      INFO("joint " << joints[i]);
      CHECK(two(144 * per_area(row.length, row.width, joints[i])) == Approx(row.by_joint[i]));
    }
    CHECK(two(1296 * per_area(row.length, row.width, 0)) == Approx(row.square_yard));
    CHECK(two(1e6 * per_area(row.length * 25.4, row.width * 25.4, 0)) == Approx(row.square_metre));
  }
  const std::vector<double> one_inch{166.28, 156.35, 147.29, 131.38}, two_inches{41.57, 40.30, 39.09, 36.82};
  for (std::size_t i = 0; i < one_inch.size(); ++i) {
    CHECK(two(144 * hexagons_per_area(1, joints[i])) == Approx(one_inch[i]));
    CHECK(two(144 * hexagons_per_area(2, joints[i])) == Approx(two_inches[i]));
  }
  // A hexagon is 0.8660 of the square of its width across the flats.
  CHECK(1 / hexagons_per_area(1, 0) == Approx(0.8660).margin(0.00005));
}

// The same geometry in millimetres, by hand.
TEST_CASE("pieces per square metre, with a joint and without") {
  CHECK(two(1e6 * per_area(152, 152, 2)) == Approx(42.17));
  CHECK(two(1e6 * per_area(152, 152, 0)) == Approx(43.28));
  CHECK(two(1e6 * per_area(108, 108, 2)) == Approx(82.64));
  CHECK(two(1e6 * per_area(108, 108, 0)) == Approx(85.73));
  CHECK(two(1e6 * per_area(130, 130, 1)) == Approx(58.27));
  CHECK(two(1e6 * per_area(130, 130, 0)) == Approx(59.17));
}

// By hand: a joint of an eighth saves 4 per cent of six-inch tile and 21 per cent of one-inch mosaic, so no
// percentage carries over. A "six-inch" tile of 147 mm (British Museum, 1994,0511.2, as measured there)
// against one of 152.4: 7.5 per cent by area, and 29 in the length of 28.
TEST_CASE("what is true of one size is not true of another") {
  const auto saved = [](double side) { return 1 - per_area(side, side, 0.125) / per_area(side, side, 0); };
  CHECK(saved(6) == Approx(0.04).margin(0.005));
  CHECK(saved(1) == Approx(0.21).margin(0.005));
  CHECK(per_area(147, 147, 0) / per_area(152.4, 152.4, 0) == Approx(1.075).margin(0.0005));
  CHECK(along(28 * 152.4, 152.4, 0).pieces == 28);
  CHECK(along(29 * 147.0, 147, 0).pieces == 29);
  CHECK(along(28 * 152.4, 147, 0).pieces == 30);  // 29 whole ones and a sliver
}

// US Navy, NAVEDTRA 14045, p. 159 (as quoted in the trade's notes): wall of 8 by 14 feet, brick and joint 2
// 3/4 by 8 1/2 inches, 6.16 a square foot; 690, and with 10 per cent 759 (printed 760, rounded up to tens).
// Mortar for 760: 0.760 x 11.7 = 8.90 cubic feet (exactly 8.892), with 20 per cent of waste 10.7.
TEST_CASE("published brick and mortar count") {
  CHECK(two(144 * per_area(8, 2.25, 0.5)) == Approx(6.16));
  const std::size_t bricks = bricks_by_face(14 * 12, 8 * 12, 8, 2.25, 0.5);
  CHECK(bricks == 690);
  CHECK(with_allowance(bricks, 10) == 759);
  CHECK(mortar_cubic_feet(760, 0) == Approx(8.90).margin(0.01));
  CHECK(mortar_cubic_feet(760, 20) == Approx(10.7).margin(0.05));
  CHECK(mortar_cubic_feet(0, 20) == 0);
  CHECK_THROWS_AS(mortar_cubic_feet(760, -1), Error);
}

// The Building Trades Pocketbook, 'Brickwork' (as quoted in the trade's notes): 500 bricks a cubic yard with
// joints of 3/8 inch at most, 575 with joints of 1/8 inch, 5 per cent of waste, openings deducted from 100
// square feet on.
TEST_CASE("published brick count by volume") {
  Brickwork yard{3, 3, 3, 0.375, 0};
  CHECK(bricks_by_volume(yard) == 500);
  CHECK(with_allowance(bricks_by_volume(yard), 5) == 525);
  yard.joint_inches = 0.25;
  CHECK(bricks_by_volume(yard) == 500);
  yard.joint_inches = 0.125;
  CHECK(bricks_by_volume(yard) == 575);
  CHECK(with_allowance(575, 5) == 604);  // 603.75
  yard.joint_inches = 0.5;
  CHECK_THROWS_AS(bricks_by_volume(yard), Error);
  CHECK_FALSE(counts_as_opening(99.9));
  CHECK(counts_as_opening(100));
  // 400 square feet of wall a foot and a half thick, an opening of 100 square feet in it: by hand 300 x 1.5 /
  // 27 x 500 = 8333.3.
  CHECK(bricks_by_volume({40, 10, 1.5, 0.375, 100}) == 8334);
  CHECK_THROWS_AS(bricks_by_volume({4, 4, 1, 0.375, 100}), Error);
}

// Published examples for home-owners: 400 square feet with 10 per cent is 440 (hunker.com, article 13414917);
// 18 square feet are 2592 square inches, less a border of 36 pieces of 8 square inches 2304, which take 144
// tiles of 4 x 4, and a border 144 inches long takes 36 (homesteady.com, article 6047182).
TEST_CASE("published tile counts") {
  CHECK(with_allowance(400, 10) == 440);
  CHECK(18 * 144 - 36 * 8 == 48 * 48);
  CHECK(laid_in(48, 48, 4, 4, 0) == 144);
  CHECK(along(144, 4, 0).pieces == 36);
}

// Worked by hand: the area method would say 26.
TEST_CASE("a hearth is counted by row and column") {
  CHECK(laid_in(54, 18, 6, 6, 0) == 27);
  CHECK_FALSE(along(54, 6, 0).cut);
  CHECK(laid_in(54, 18, 6, 6, 0.125) == 27);
  CHECK(54 * 18 * per_area(6, 6, 0.125) == Approx(25.9).margin(0.05));
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
