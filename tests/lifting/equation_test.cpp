// The revised lifting equation against its manual's first worked example and hand arithmetic.
#include <catch2/catch.hpp>
#include <cmath>

#include "core/base/error.hpp"
#include "plugins/lifting/equation.hpp"

using namespace lathbook;
using namespace lathbook::lifting;

namespace {

constexpr double kPound = 0.45359237;

double one(double value) {
  return std::round(value * 10) / 10;
}

}  // namespace

// T. Waters, V. Putz-Anderson, A. Garg, Applications manual for the revised NIOSH lifting equation, DHHS
// (NIOSH) 94-110 (1994, rev. 2021), example 1, 'loading punch press stock': reel of 44 lb, H 23 in, V 15 to
// 64 in, fair coupling. Printed (from memory): origin .44 x .89 x .86 x .95, RWL 16.3 lb, LI 2.7; destination
// .44 x .75 x .86, 14.5 lb, LI 3.0. The printed HM of .44 is a table's; 10 / 23 is .435, so exact arithmetic
// gives 16.0 and 14.2 lb.
TEST_CASE("the manual's first example") {
  Lift lift;
  lift.units = Units::customary;
  lift.load = 44;
  lift.horizontal = 23;
  lift.vertical = 15;
  lift.vertical_to = 64;
  lift.coupling = Coupling::fair;
  const LiftingLimit rounded = limit_of(lift, true);
  CHECK(rounded.origin.hm == Approx(0.43));
  CHECK(rounded.origin.vm == Approx(0.89));
  CHECK(rounded.origin.dm == Approx(0.86));
  CHECK(rounded.origin.cm == Approx(0.95));
  CHECK(rounded.destination.vm == Approx(0.75));
  CHECK(rounded.destination.cm == Approx(1.00));
  // With the printed HM in place of ours the printed limits come out.
  CHECK(one(rounded.origin.limit_kg / kPound * 0.44 / 0.43) == Approx(16.3));
  CHECK(one(rounded.destination.limit_kg / kPound * 0.44 / 0.43) == Approx(14.5));
  const LiftingLimit exact = limit_of(lift, false);
  CHECK(one(exact.origin.limit_kg / kPound) == Approx(16.0));
  CHECK(one(exact.destination.limit_kg / kPound) == Approx(14.2));
  CHECK(exact.origin.index == Approx(2.75).margin(0.005));
  CHECK(exact.destination.index == Approx(3.11).margin(0.005));
}

// Hand arithmetic: a cast-iron grate of 38 kg, 45 cm away, from 20 to 75 cm, poor grip.
TEST_CASE("a cast-iron grate is no lift for one person") {
  Lift lift;
  lift.load = 38;
  lift.horizontal = 45;
  lift.vertical = 20;
  lift.vertical_to = 75;
  lift.coupling = Coupling::poor;
  const LiftingLimit limit = limit_of(lift, false);
  CHECK(limit.origin.hm == Approx(0.5556).epsilon(0.001));
  CHECK(limit.origin.vm == Approx(0.835));
  CHECK(limit.origin.dm == Approx(0.9018).epsilon(0.001));
  CHECK(limit.origin.limit_kg == Approx(8.66).epsilon(0.001));
  CHECK(one(limit.origin.index) == Approx(4.4));
  CHECK(limit.destination.limit_kg == Approx(10.37).epsilon(0.001));
  CHECK(one(limit.destination.index) == Approx(3.7));
  CHECK(limit.words[1].find("Do not lift it so") != std::string::npos);
}

TEST_CASE("all multipliers one: the load constant") {
  Lift lift;
  lift.load = 23;
  lift.coupling = Coupling::good;
  const LiftingLimit limit = limit_of(lift, false);
  CHECK(limit.origin.limit_kg == Approx(23));
  CHECK(limit.origin.index == Approx(1));
}

TEST_CASE("what the equation does not cover gets no number") {
  const auto with = [](auto change) {
    Lift lift;
    lift.load = 10;
    change(lift);
    return lift;
  };
  CHECK_THROWS_AS(limit_of(with([](Lift& lift) { lift.load = 0; }), false), Error);
  CHECK_THROWS_AS(limit_of(with([](Lift& lift) { lift.horizontal = 64; }), false), Error);
  CHECK_THROWS_AS(limit_of(with([](Lift& lift) { lift.vertical = 176; }), false), Error);
  CHECK_THROWS_AS(limit_of(with([](Lift& lift) { lift.asymmetry = 136; }), false), Error);
  CHECK_THROWS_AS(limit_of(with([](Lift& lift) { lift.per_minute = 3; }), false), Error);
}
