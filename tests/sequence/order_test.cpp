// Classes, loops, levels and floating chains against published sequences and by construction.
#include "plugins/sequence/order.hpp"

#include <algorithm>
#include <catch2/catch.hpp>

#include "tests/sequence/graphs.hpp"

using namespace lathbook;
using sequence::Node;
using sequence::Order;
using sequence::order_of;
using sequence::Relation;
using sequence::Same;
using sequence::Sameness;
using test::arcs_of;
using test::order_of_text;

namespace {

std::string drawn(const Order& order) {
  std::vector<sequence::Arc> arcs;
  for (const auto& edge : order.edges)
    if (!edge.redundant) arcs.emplace_back(edge.later, edge.earlier);
  return test::text_of(arcs);
}

// The twelve contexts of the worked example 'Harris matrix' in the English Wikipedia (text; the input was
// derived from it): a wall in its trench, a floor that abuts it, layers cut through, and a pit elsewhere.
const std::string twelve =
    "3>5 3>2 6>2 2>12 2>5 12>5 5>1 5>4 5>9 5>10 5>11 1>9 1>11 4>10 4>11 9>11 10>11 7>8";

}  // namespace

TEST_CASE("the sequence of twelve contexts comes out as published") {
  const Order order = order_of_text(12, twelve);
  CHECK(drawn(order) == "1>9 2>12 3>2 4>10 5>1 5>4 6>2 7>8 9>11 10>11 12>5");
  CHECK(std::count_if(order.edges.begin(), order.edges.end(),
                      [](const auto& edge) { return edge.redundant; }) == 7);
  CHECK(order.loops.empty());
  // The text does not say what pit 8 cuts: it floats with its fill 7.
  REQUIRE(order.chains == 2);
  for (Node at = 0; at < 12; ++at) CHECK(order.chain_of[at] == (at == 6 || at == 7 ? 1u : 0u));
  // The split below cut 5: 1 and 4 share a level, 9 and 10 the next below.
  CHECK(order.from_base[10] == 0);
  CHECK(order.from_base[8] == order.from_base[9]);
  CHECK(order.from_base[0] == order.from_base[3]);
  CHECK(order.from_base[4] == 3);
  CHECK(order.levels == 7);
}

TEST_CASE("equating two pairs of layers joins the two halves of the twelve contexts") {
  const std::vector<Same> same{{0, 3, 0}, {8, 9, 1}};
  const Order order = order_of_text(12, twelve, same);
  const Sameness classes(12, same);
  CHECK(order.classes == 10);
  CHECK(classes.class_of(0) == classes.class_of(3));
  CHECK(std::count_if(order.edges.begin(), order.edges.end(),
                      [](const auto& edge) { return !edge.redundant; }) == 8);
  // One edge with every statement that makes it.
  const auto joined = std::find_if(order.edges.begin(), order.edges.end(), [&](const auto& edge) {
    return edge.later == classes.class_of(0) && edge.earlier == classes.class_of(8);
  });
  REQUIRE(joined != order.edges.end());
  CHECK(joined->relations.size() == 2);
}

TEST_CASE("why two things are one is answered by the statements between them") {
  const Sameness same(5, {{0, 1, 10}, {1, 2, 11}, {2, 3, 12}, {0, 2, 13}});
  CHECK(same.why(0, 3) == std::vector<std::uint32_t>{13, 12});
  CHECK(same.why(3, 0) == std::vector<std::uint32_t>{12, 13});
  CHECK(same.why(4, 4).empty());
  CHECK(same.classes() == 2);
  CHECK(Sameness(4, {{0, 1, 0}, {1, 2, 1}, {2, 3, 2}}).why(0, 3) == std::vector<std::uint32_t>{0, 1, 2});
}

TEST_CASE("three that cover one another in a circle are one loop of three") {
  const Order order = order_of_text(3, "1>2 2>3 3>1");
  REQUIRE(order.loops.size() == 1);
  CHECK(order.loops[0].classes.size() == 3);
  CHECK(order.loops[0].relations == std::vector<std::uint32_t>{0, 1, 2});
  CHECK(order.loops[0].shortest.size() == 3);
  for (const auto& edge : order.edges) CHECK(edge.within_block);
  CHECK(order.levels == 1);
}

TEST_CASE("a circle through a sameness names the sameness") {
  // 1 above 2, 2 the same as 3, 3 above 1.
  const Sameness same(3, {{1, 2, 42}});
  const Order order = order_of(same, {{0, 1, true, true}, {2, 0, true, true}});
  REQUIRE(order.loops.size() == 1);
  REQUIRE(order.loops[0].shortest.size() == 2);
  const auto& first = order.loops[0].shortest[0];
  CHECK(first.relation == 0);
  CHECK(first.same == std::vector<std::uint32_t>{42});
  CHECK(order.loops[0].shortest[1].same.empty());
}

TEST_CASE("a relation between things that are one contradicts that they are one") {
  const Order order = order_of(Sameness(2, {{0, 1, 9}}), {{0, 1, true, true}});
  REQUIRE(order.loops.size() == 1);
  REQUIRE(order.loops[0].shortest.size() == 1);
  CHECK(order.loops[0].shortest[0].same == std::vector<std::uint32_t>{9});
  // 'Not before' between a thing and itself is no contradiction.
  CHECK(order_of(Sameness(2, {{0, 1, 9}}), {{0, 1, false, true}}).loops.empty());
}

TEST_CASE("two that butt against one another are of one time, not a contradiction") {
  const Sameness none(3, {});
  const Order order = order_of(none, {{0, 1, false, true}, {1, 0, false, true}, {2, 0, true, true}});
  CHECK(order.loops.empty());
  REQUIRE(order.of_one_time.size() == 1);
  CHECK(order.of_one_time[0] == std::vector<std::uint32_t>{0, 1});
  // A strict one among them makes it a loop, and the circle told goes through it.
  const Order loop =
      order_of(none, {{0, 1, false, true}, {1, 0, false, true}, {1, 2, false, true}, {2, 0, true, true}});
  REQUIRE(loop.loops.size() == 1);
  CHECK(loop.loops[0].shortest.size() == 3);
}

TEST_CASE("what is set aside orders nothing, and the loop it made is told all the same") {
  const Order order =
      order_of(Sameness(3, {}), {{0, 1, true, true}, {1, 2, true, true}, {2, 0, true, false}});
  CHECK(order.loops.size() == 1);
  CHECK(order.edges.size() == 2);
  CHECK(order.from_base == std::vector<std::uint32_t>{2, 1, 0});
}

TEST_CASE("two statements of one relation are one edge, which stays when one is set aside") {
  const Sameness none(2, {});
  Order order = order_of(none, {{0, 1, true, true}, {0, 1, true, true}});
  REQUIRE(order.edges.size() == 1);
  CHECK(order.edges[0].relations.size() == 2);
  order = order_of(none, {{0, 1, true, true}, {0, 1, true, false}});
  REQUIRE(order.edges.size() == 1);
  CHECK(order.edges[0].relations.size() == 1);
}

TEST_CASE("a thing floats between the levels it can have") {
  const Order order = order_of_text(5, "1>2 2>3 1>4 4>3 1>5");
  CHECK(order.from_base[4] == 0);
  CHECK(order.levels - 1 - order.from_top[4] == 1);
}

TEST_CASE("a chain of a million and a circle of a hundred thousand go through") {
  std::vector<Relation> chain;
  for (Node at = 1; at <= 1'000'000; ++at) chain.push_back({at, at - 1, true, true});
  const Order order = order_of(Sameness(1'000'001, {}), chain);
  CHECK(order.levels == 1'000'001);
  CHECK(order.chains == 1);
  std::vector<Relation> circle;
  for (Node at = 0; at < 100'000; ++at) circle.push_back({at, (at + 1) % 100'000, true, true});
  const Order round = order_of(Sameness(100'000, {}), circle);
  REQUIRE(round.loops.size() == 1);
  CHECK(round.loops[0].classes.size() == 100'000);
  CHECK(round.loops[0].relations.size() == 100'000);
  CHECK(round.loops[0].shortest.size() == 100'000);
}
