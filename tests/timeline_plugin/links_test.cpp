// The network that the timeline hands on: every statement's links, under the record they speak of.
#include <algorithm>
#include <catch2/catch.hpp>

#include "tests/timeline_plugin/house.hpp"

using namespace lathbook;

namespace {

std::uint32_t instant(const TimelineNetwork& network, const Uuid& record, InstantKind kind) {
  for (std::uint32_t at = 0; at < network.instants.size(); ++at)
    if (network.instants[at].record == record && network.instants[at].kind == kind) return at;
  FAIL("no such instant");
  return 0;
}

std::int32_t claim(const TimelineNetwork& network, std::string_view relation) {
  for (std::size_t at = 0; at < network.claims.size(); ++at)
    if (network.claims[at].relation == relation) return static_cast<std::int32_t>(at);
  FAIL("no claim " << relation);
  return 0;
}

bool has(const TimelineNetwork& network, const NetworkLink& link) {
  return std::find(network.links.begin(), network.links.end(), link) != network.links.end();
}

}  // namespace

TEST_CASE("the network names its instants and says who asks what of them") {
  test::House house;
  const Digest covers = house.say({"E2", "covers", "E1", "contact=laps over"});
  house.say({"E1", "installed", "1900"});
  const TimelineNetwork network = house.timeline().network;
  const std::uint32_t begin1 = instant(network, house.id("E1"), InstantKind::begins);
  const std::uint32_t end1 = instant(network, house.id("E1"), InstantKind::ends);
  const std::uint32_t begin2 = instant(network, house.id("E2"), InstantKind::begins);
  const std::int32_t laid = claim(network, "covers");
  const NetworkClaim& said = network.claims[static_cast<std::size_t>(laid)];
  CHECK(said.statements == std::vector<Digest>{covers});
  CHECK(said.subject == house.id("E2"));
  CHECK(said.object == house.id("E1"));
  CHECK(said.kept);
  // B(a) >= B(b) + 1 and E(b) >= B(a) + 1 (design of the constraint table, docs/evidence-and-time.md).
  CHECK(has(network, {begin1, begin2, 1, laid}));
  CHECK(has(network, {begin2, end1, 1, laid}));
  CHECK(has(network, {begin1, end1, 1, kByNature}));
  const std::int64_t first = days_from_civil(1900, 1, 1) * network.ticks_per_day;
  CHECK(has(network, {0, begin1, first, claim(network, "installed")}));
  CHECK(network.instants[begin1].earliest == first);
  CHECK(network.instants[begin1].earliest_known);
  CHECK(network.instants[begin2].earliest == first + 1);
  CHECK_FALSE(network.instants[begin2].latest_known);
  CHECK(network.instants[0].kind == InstantKind::origin);
}

TEST_CASE("what is set aside stays in the network and says so; what is less sure than asked is left out") {
  test::House house({{"E1", "installed", "1900"},
                     {"E1", "standing-by", "1890", {}, Confidence::probable},
                     {"E2", "covers", "E1", "contact=laps over", Confidence::possible}});
  const TimelineNetwork network = house.timeline().network;
  CHECK(network.claims[static_cast<std::size_t>(claim(network, "installed"))].kept);
  CHECK_FALSE(network.claims[static_cast<std::size_t>(claim(network, "standing-by"))].kept);
  for (const NetworkClaim& one : house.timeline(Level::probable).network.claims)
    CHECK(one.relation != "covers");
}

TEST_CASE("an either-or is handed on with its cases until it is settled") {
  test::House house({{"E1", "one-after-other", "E2"}});
  TimelineNetwork network = house.timeline().network;
  REQUIRE(network.choices.size() == 1);
  CHECK(network.choices[0].alternatives.size() == 2);
  house.say({"E1", "installed", "1900"});
  house.say({"E1", "seen-on", "1950"});
  house.say({"E2", "installed", "1960"});
  network = house.timeline().network;
  CHECK(network.choices.empty());
  const std::uint32_t end1 = instant(network, house.id("E1"), InstantKind::ends);
  const std::uint32_t begin2 = instant(network, house.id("E2"), InstantKind::begins);
  CHECK(has(network, {end1, begin2, 0, claim(network, "one-after-other")}));
}

TEST_CASE("the network holds what is joined to the things shown and nothing else") {
  test::House house({{"E1", "covers", "E2", "contact=laps over"},
                     {"E2", "covers", "E3", "contact=laps over"},
                     {"E4", "covers", "E5", "contact=laps over"}});
  const TimelineNetwork network = house.timeline(Level::possible, "E1").network;
  CHECK(network.claims.size() == 2);
  const auto held = [&](const Uuid& record) {
    return std::any_of(network.instants.begin(), network.instants.end(),
                       [&](const NetworkInstant& one) { return one.record == record; });
  };
  CHECK(held(house.id("E3")));
  CHECK_FALSE(held(house.id("E4")));
}
