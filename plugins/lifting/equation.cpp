#include "plugins/lifting/equation.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <sstream>

#include "core/base/error.hpp"

namespace lathbook::lifting {

namespace {

/// The published constants of one system of units.
struct Constants {
  double load;        // kg or lb
  double nearest;     // hands no nearer than this
  double knuckle;     // height at which a lift costs least
  double per_height;  // VM falls by this for each unit off that height
  double travel;      // DM = 0.82 + travel / D
  double farthest, highest, kilograms;
};
constexpr Constants kMetric{23, 25, 75, 0.003, 4.5, 63, 175, 1};
constexpr Constants kCustomary{51, 10, 30, 0.0075, 1.8, 25, 70, 0.45359237};

const Constants& constants_of(const Lift& lift) {
  return lift.units == Units::metric ? kMetric : kCustomary;
}

double coupling(Coupling how, bool below_knuckle) {
  if (how == Coupling::good) return 1.00;
  if (how == Coupling::poor) return 0.90;
  return below_knuckle ? 0.95 : 1.00;
}

void check(const Lift& lift) {
  const auto outside = [](const std::string& what) {
    fail(ErrorKind::invalid, what + "; the lifting equation does not cover this, so it gives no limit");
  };
  const Constants& in = constants_of(lift);
  if (!(lift.load > 0)) outside("the load must be more than nothing");
  for (const double horizontal : {lift.horizontal, lift.horizontal_to})
    if (!(horizontal >= 0) || horizontal > in.farthest)
      outside("the hands must be at most 63 cm (25 in) away");
  for (const double vertical : {lift.vertical, lift.vertical_to})
    if (!(vertical >= 0) || vertical > in.highest)
      outside("the hands must be between the floor and 175 cm (70 in)");
  for (const double angle : {lift.asymmetry, lift.asymmetry_to})
    if (!(angle >= 0) || angle > 135) outside("the turn must be 0 to 135 degrees");
  if (!(lift.per_minute >= 0) || lift.per_minute > 0.2)
    outside("more than one lift in five minutes needs the manual's table of frequencies");
}

LiftingEnd end_of(const Lift& lift, double horizontal, double vertical, double asymmetry, bool rounded) {
  const auto told = [&](double multiplier) {
    return rounded ? std::round(multiplier * 100) / 100 : multiplier;
  };
  LiftingEnd end;
  const Constants& in = constants_of(lift);
  end.hm = told(in.nearest / std::max(horizontal, in.nearest));
  end.vm = told(1 - in.per_height * std::abs(vertical - in.knuckle));
  end.dm = told(0.82 + in.travel / std::max(std::abs(lift.vertical_to - lift.vertical), in.nearest));
  end.am = told(1 - 0.0032 * asymmetry);
  end.fm = 1;
  end.cm = coupling(lift.coupling, vertical < in.knuckle);
  end.limit_kg = in.kilograms * in.load * end.hm * end.vm * end.dm * end.am * end.fm * end.cm;
  end.index =
      end.limit_kg > 0 ? lift.load * in.kilograms / end.limit_kg : std::numeric_limits<double>::infinity();
  return end;
}

std::string one_place(double value) {
  std::ostringstream text;
  text.imbue(std::locale::classic());
  text.setf(std::ios::fixed);
  text.precision(1);
  text << value;
  return text.str();
}

}  // namespace

LiftingLimit limit_of(const Lift& lift, bool rounded) {
  check(lift);
  LiftingLimit limit;
  limit.load_kg = lift.load * constants_of(lift).kilograms;
  limit.rounded = rounded;
  limit.origin = end_of(lift, lift.horizontal, lift.vertical, lift.asymmetry, rounded);
  const double to = lift.horizontal_to > 0 ? lift.horizontal_to : lift.horizontal;
  limit.destination = end_of(lift, to, lift.vertical_to, lift.asymmetry_to, rounded);
  const double worst = std::max(limit.origin.index, limit.destination.index);
  limit.words.push_back("The recommended limit is " + one_place(limit.origin.limit_kg) +
                        " kg where the lift begins and " + one_place(limit.destination.limit_kg) +
                        " kg where it ends; this load is " + one_place(worst) + " times the lower one.");
  limit.words.push_back(
      worst > 1 ? "Do not lift it so: break it down, bring it nearer, use more people or a hoist."
                : "Within the limit for most healthy working people; this is information, not permission.");
  limit.words.push_back(
      "For two hands, on sound ground, at most one lift in five minutes for an hour; not for one hand, "
      "kneeling, narrow places or slippery floors. Local rules and the person responsible decide.");
  limit.words.push_back(rounded ? "Multipliers rounded to two places, as in the manual's examples."
                                : "Multipliers not rounded; the manual's examples round them to two places.");
  return limit;
}

}  // namespace lathbook::lifting
