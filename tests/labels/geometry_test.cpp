// Position by random rectangles: what overlaps is over, what does not is not; turning north turns the
// compass.
#include <catch2/catch.hpp>
#include <cmath>
#include <random>

#include "plugins/labels/position.hpp"
#include "tests/labels/small_house.hpp"

using namespace lathbook;
using test::box;

namespace {

struct Rectangle {
  double left, bottom, right, top;
  std::string text() const { return box(left, bottom, right, top); }
  double area() const { return (right - left) * (top - bottom); }
};

// On a grid of half metres, so that no overlap is near the limits of what counts as one.
Rectangle random_rectangle(std::mt19937& random) {
  std::uniform_int_distribution<int> corner(0, 20);
  std::uniform_int_distribution<int> side(4, 16);
  const double left = corner(random) * 0.5;
  const double bottom = corner(random) * 0.5;
  return {left, bottom, left + side(random) * 0.5, bottom + side(random) * 0.5};
}

double common(const Rectangle& a, const Rectangle& b) {
  const double width = std::min(a.right, b.right) - std::max(a.left, b.left);
  const double height = std::min(a.top, b.top) - std::max(a.bottom, b.bottom);
  return width > 0 && height > 0 ? width * height : 0;
}

void over_is_overlap(int cases) {
  const unsigned seed = std::random_device{}();
  INFO("seed " << seed);
  std::mt19937 random(seed);
  int over = 0;
  for (int i = 0; i < cases; ++i) {
    const Rectangle below = random_rectangle(random);
    const Rectangle above = random_rectangle(random);
    test::SmallHouse house;
    house.room("G1", house.ground, {{"Library"}}, below.text());
    house.room("U1", house.upper, {{"Chamber"}}, above.text());
    const auto reading = house.read("Over Library");
    const double share = common(below, above) / below.area();
    const double of_upper = common(below, above) / above.area();
    const auto at_a_limit = [](double value) {
      return std::abs(value - 0.1) < 1e-6 || std::abs(value - 0.05) < 1e-6;
    };
    if (at_a_limit(share) || at_a_limit(of_upper)) continue;
    const bool sliver = common(below, above) < 0.05 * std::min(below.area(), above.area());
    INFO(below.text() << " under " << above.text());
    const bool expected = !sliver && share > 0 && share >= 0.1;
    const bool found = reading.verdict == LabelVerdict::clear || reading.verdict == LabelVerdict::ambiguous;
    REQUIRE(found == expected);
    if (expected) {
      ++over;
      REQUIRE(reading.candidates.at(0).place.code == "U1");
      REQUIRE(reading.candidates.at(0).score == Approx(share));
    }
    // The same pair from the other side.
    const auto under = house.read("Under Chamber");
    REQUIRE((under.verdict != LabelVerdict::none) == (!sliver && of_upper >= 0.1));
  }
  CHECK(over > cases / 10);
  CHECK(over < cases);
}

// Four rooms round a square; the plan and true north are turned by the same angle, so answers stay.
std::string turned_box(double left, double bottom, double right, double top, double degrees) {
  const double turn = degrees * 3.14159265358979323846 / 180;
  std::string text;
  const double corners[4][2] = {{left, bottom}, {right, bottom}, {right, top}, {left, top}};
  for (const auto& corner : corners) {
    // Clockwise, as bearings go.
    const double x = corner[0] * std::cos(turn) + corner[1] * std::sin(turn);
    const double y = -corner[0] * std::sin(turn) + corner[1] * std::cos(turn);
    text += (text.empty() ? "" : " ") + std::to_string(x) + "," + std::to_string(y);
  }
  return text;
}

const char* const kSides[4] = {"north", "east", "south", "west"};

void add_four_rooms(test::SmallHouse& house, double turn) {
  house.room("R0", house.ground, {{"Amber"}}, turned_box(-3, 3, 3, 9, turn));
  house.room("R1", house.ground, {{"Blue"}}, turned_box(3, -3, 9, 3, turn));
  house.room("R2", house.ground, {{"Copper"}}, turned_box(-3, -9, 3, -3, turn));
  house.room("R3", house.ground, {{"Dun"}}, turned_box(-9, -3, -3, 3, turn));
}

std::string sided(test::SmallHouse& house, const std::string& side) {
  const auto reading = house.read(side + " room");
  return reading.candidates.empty() ? "" : reading.candidates.front().place.code;
}

}  // namespace

TEST_CASE("position: 'over' holds exactly where outlines overlap") {
  over_is_overlap(300);
}

TEST_CASE("position: 'over' holds exactly where outlines overlap, many", "[.long]") {
  over_is_overlap(10000);
}

TEST_CASE("position: turning true north turns the compass") {
  for (int quarter = 0; quarter < 4; ++quarter) {
    test::SmallHouse house;
    add_four_rooms(house, 0);
    house.reader.say(house.building, "project-north", std::to_string(90 * quarter));
    // True north is so many quarters clockwise of the drawing's: the room there is the north room.
    for (int side = 0; side < 4; ++side) {
      INFO(quarter << " quarters, " << kSides[side]);
      CHECK(sided(house, kSides[side]) == "R" + std::to_string((side + quarter) % 4));
    }
  }
}

TEST_CASE("position: a plan turned together with its north gives the same answers") {
  const unsigned seed = std::random_device{}();
  INFO("seed " << seed);
  std::mt19937 random(seed);
  std::uniform_real_distribution<double> angle(-180, 180);
  for (int i = 0; i < 40; ++i) {
    const double turn = angle(random);
    test::SmallHouse house;
    add_four_rooms(house, turn);
    house.reader.say(house.building, "project-north", std::to_string(turn));
    for (int side = 0; side < 4; ++side) {
      INFO(turn << " degrees, " << kSides[side]);
      REQUIRE(sided(house, kSides[side]) == "R" + std::to_string(side));
    }
  }
}

TEST_CASE("position: shared walls through the thickness of a wall") {
  using labels::Shape;
  const auto shape = [](double l, double b, double r, double t) {
    return Shape::from({{l, b}, {r, b}, {r, t}, {l, t}}).value();
  };
  const Shape room = shape(0, 0, 5, 4);
  CHECK(room.shared_wall(shape(5.3, 0, 9, 4), 0.6) > 3);  // side by side, 0.3 m of wall
  CHECK(room.shared_wall(shape(5.3, 0, 9, 4), 0.6) <= 4.01);
  CHECK(room.shared_wall(shape(5.3, 4.3, 9, 8), 0.6) < 0.7);  // corner to corner
  CHECK(room.shared_wall(shape(7, 0, 9, 4), 0.6) == 0);       // a passage between
}

TEST_CASE("position: outlines that are none are refused") {
  using labels::Shape;
  CHECK_FALSE(Shape::from({}));
  CHECK_FALSE(Shape::from({{0, 0}, {1, 0}}));
  CHECK_FALSE(Shape::from({{0, 0}, {4, 4}, {4, 0}, {0, 4}}));  // a bow tie
  CHECK_FALSE(Shape::from({{0, 0}, {1e300, 0}, {1e300, 1e300}}));
  CHECK_FALSE(Shape::from({{0, 0}, {0.1, 0}, {0.1, 0.1}}));
  CHECK(Shape::from({{0, 0}, {0, 4}, {4, 4}, {4, 0}}));  // either way round
  CHECK(Shape::from({{0, 0}, {4, 0}, {4, 4}, {0, 4}, {0, 0}}));
}

TEST_CASE("position: without outlines a relation is not checked, and that is said") {
  test::SmallHouse house;
  house.room("G1", house.ground, {{"Library"}}, box(0, 0, 5, 5));
  house.room("U1", house.upper, {{"Chart Room"}}, "");
  const auto reading = house.read("Chart Rm over Library");
  REQUIRE_FALSE(reading.candidates.empty());
  CHECK(reading.candidates[0].place.code == "U1");
  CHECK(reading.candidates[0].factors.back().words.find("not checked") != std::string::npos);
}

TEST_CASE("position: an outline counts in its own time") {
  test::SmallHouse house;
  house.room("G1", house.ground, {{"Library"}}, box(0, 0, 5, 5));
  const Uuid moved = house.room("U1", house.upper, {{"Linen"}}, "");
  house.reader.say(moved, "footprint", box(0, 0, 5, 5), Confidence::certain, {{"to", "1900"}});
  house.reader.say(moved, "footprint", box(6, 0, 9, 5), Confidence::certain, {{"from", "1901"}});
  CHECK(house.read("Over Library", "1890").verdict == LabelVerdict::clear);
  CHECK(house.read("Over Library", "1920").verdict == LabelVerdict::none);
}
