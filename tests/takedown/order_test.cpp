// Orders of work: complete, respecting every hindrance, the same both ways, circles named.
#include <algorithm>
#include <catch2/catch.hpp>
#include <chrono>
#include <random>
#include <set>

#include "plugins/takedown/order.hpp"

using namespace lathbook::takedown;

namespace {

// Independent of the planner: when each thing goes, then every hindrance looked at.
bool respects(const Order& order, std::size_t number, const std::vector<Hindrance>& hindrances) {
  std::vector<long> when(number, -1), step_of(number, -1);
  long step = 0;
  for (const auto& one : order.steps) {
    for (const auto thing : one.things) {
      if (when[thing] >= 0) return false;  // moved twice
      when[thing] = step_of[thing] = step;
    }
    ++step;
  }
  return std::all_of(hindrances.begin(), hindrances.end(), [&](const Hindrance& one) {
    if (when[one.second] < 0) return true;
    return when[one.first] >= 0 && when[one.first] <= when[one.second];
  });
}

// A panel in stretcher bond: each upper tile stands on the two below it, at the edges on one.
std::vector<Hindrance> panel(int rows, int columns) {
  std::vector<Hindrance> hindrances;
  const auto number = [&](int row, int column) { return static_cast<std::uint32_t>(row * columns + column); };
  for (int row = 1; row < rows; ++row)
    for (int column = 0; column < columns; ++column) {
      hindrances.push_back({number(row, column), number(row - 1, column), 0, true});
      const int other = row % 2 == 0 ? column - 1 : column + 1;
      if (other >= 0 && other < columns)
        hindrances.push_back({number(row, column), number(row - 1, other), 0, true});
    }
  return hindrances;
}

std::vector<std::int64_t> by_rows(int rows, int columns, bool top_down) {
  std::vector<std::int64_t> when;
  for (int row = 0; row < rows; ++row)
    for (int column = 0; column < columns; ++column) when.push_back(top_down ? rows - row : row);
  return when;
}

}  // namespace

// The counts follow from the geometry: five pairs of courses, fifteen contacts each.
TEST_CASE("a panel in stretcher bond: top down endangers nothing, bottom up everything") {
  const auto hindrances = panel(6, 8);
  CHECK(hindrances.size() == 75);
  CHECK(broken_by(by_rows(6, 8, true), hindrances).empty());
  CHECK(broken_by(by_rows(6, 8, false), hindrances).size() == 75);
  std::vector<Hindrance> third;  // only the third course is loose
  std::copy_if(hindrances.begin(), hindrances.end(), std::back_inserter(third),
               [](const Hindrance& one) { return one.first / 8 == 2; });
  CHECK(broken_by(by_rows(6, 8, false), third).size() == 15);
}

TEST_CASE("a door case: architrave over frame over lining") {
  const std::vector<Thing> things(3);
  const std::vector<Hindrance> hindrances{{2, 1, 0, true},
                                          {1, 0, 0, true}};  // lining 0, frame 1, architrave 2
  const Order order = order_of(things, hindrances);
  REQUIRE(order.steps.size() == 3);
  CHECK(order.steps[0].things == std::vector<std::uint32_t>{2});
  CHECK(order.steps[1].things == std::vector<std::uint32_t>{1});
  CHECK(order.steps[2].things == std::vector<std::uint32_t>{0});
}

TEST_CASE("two boards each over the other's tongue move as one") {
  const Order order = order_of(std::vector<Thing>(3), {{0, 1, 0, true}, {1, 0, 0, true}, {1, 2, 0, true}});
  REQUIRE(order.circles.size() == 1);
  CHECK(order.circles[0] == std::vector<std::uint32_t>{0, 1});
  REQUIRE(order.steps.size() == 2);
  CHECK(order.steps[0].things == std::vector<std::uint32_t>{0, 1});
}

TEST_CASE("what stays as evidence is never moved, and what lies under it is blocked") {
  std::vector<Thing> things(3);
  things[0].stays = true;
  const Order order = order_of(things, {{0, 1, 0, true}});
  CHECK(order.blocked == std::vector<std::uint32_t>{1});
  REQUIRE(order.steps.size() == 1);
  CHECK(order.steps[0].things == std::vector<std::uint32_t>{2});
}

TEST_CASE("the loosest goes first where nothing hinders, and the others are told") {
  std::vector<Thing> things{{4, 0, false}, {0, 0, false}, {2, 0, false}};
  const Order order = order_of(things, {});
  CHECK(order.steps[0].things.front() == 1);
  CHECK(order.steps[0].choices == 3);
  CHECK(order.steps[0].instead == std::vector<std::uint32_t>{2, 0});
}

TEST_CASE("random relations: every order and every reversed order respects them all") {
  const unsigned seed = std::random_device{}();
  INFO("seed " << seed);
  std::mt19937 random(seed);
  for (int round = 0; round < 1000; ++round) {
    const auto number = static_cast<std::uint32_t>(1 + random() % 12);
    std::vector<Thing> things(number);
    for (auto& thing : things)
      thing = {static_cast<int>(random() % 5), static_cast<std::int64_t>(random() % 7), random() % 9 == 0};
    std::vector<Hindrance> hindrances;
    for (std::uint32_t i = 0; i < number * (random() % 3); ++i)
      hindrances.push_back({static_cast<std::uint32_t>(random() % number),
                            static_cast<std::uint32_t>(random() % number), 0, true});
    Order order = order_of(things, hindrances);
    REQUIRE(respects(order, number, hindrances));
    std::size_t told = order.blocked.size();
    for (const auto& step : order.steps) told += step.things.size();
    for (const auto& thing : things) told += thing.stays ? 1 : 0;
    // Each thing is moved, blocked or stays; one locked to what stays is blocked.
    REQUIRE(told == number);
    std::reverse(order.steps.begin(), order.steps.end());
    std::vector<Hindrance> reversed;
    for (const auto& one : hindrances) {
      const auto moved = [&](std::uint32_t thing) {
        return std::any_of(order.steps.begin(), order.steps.end(), [&](const Step& step) {
          return std::find(step.things.begin(), step.things.end(), thing) != step.things.end();
        });
      };
      if (moved(one.first) && moved(one.second)) reversed.push_back({one.second, one.first, 0, true});
    }
    REQUIRE(respects(order, number, reversed));
  }
}

TEST_CASE("100,000 pieces in one long chain and in a wide field") {
  const std::uint32_t number = 100000;
  std::vector<Hindrance> chain;
  for (std::uint32_t i = 1; i < number; ++i) chain.push_back({i, i - 1, 0, true});
  CHECK(order_of(std::vector<Thing>(number), chain).steps.size() == number);
  const auto field = panel(250, 400);
  const Order order = order_of(std::vector<Thing>(number), field);
  CHECK(order.steps.size() == number);
  CHECK(respects(order, number, field));
  std::vector<Hindrance> circle = chain;
  circle.push_back({0, number - 1, 0, true});
  CHECK(order_of(std::vector<Thing>(number), circle).circles.front().size() == number);
}
