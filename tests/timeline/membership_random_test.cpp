// Membership of phases against brute force: every whole-number assignment of a small random system says what
// was put in, removed, there, covered and to be seen in each phase.
#include <catch2/catch.hpp>
#include <optional>

#include "plugins/timeline/phases.hpp"
#include "tests/timeline/brute_force.hpp"

using namespace brute;
using lathbook::Membership;
using lathbook::PhasePart;

namespace {

// A unit of the brute force is a day of the network: then no distance is a part of a day, and what holds of
// whole days holds of ticks.
constexpr Var kBegin = 1, kEnd = 2, kFirst = 3, kSecond = 4, kCoverBegin = 5, kCoverEnd = 6;
constexpr Tick kTop = 3;

struct House {
  Network units;    ///< for the brute force
  Network network;  ///< the same in ticks
  bool covered = false;
  bool cover_stays = false;  ///< nothing is known of its end, so it is taken to stay

  void add(Var from, Var to, Tick weight, Cause cause) {
    const auto level = static_cast<std::uint8_t>(cause == kStructural || cause == kHorizon ? 0 : 1);
    units.add_constraint({from, to, weight, cause, level});
    network.add_constraint({from, to, weight * kTicksPerDay, cause, level});
  }
};

House random_house(std::mt19937& random) {
  const auto pick = [&](Tick low, Tick high) {
    return std::uniform_int_distribution<Tick>(low, high)(random);
  };
  House house;
  house.covered = pick(0, 2) != 0;
  const Var vars = house.covered ? 6 : 4;
  house.units.add_variables(vars);
  house.network.add_variables(vars);
  for (Var var = 1; var <= vars; ++var) {
    house.add(kOrigin, var, kTop, kHorizon);
    house.add(var, kOrigin, 0, kHorizon);
  }
  house.add(kEnd, kBegin, -1, kStructural);
  house.add(kSecond, kFirst, -1, kStructural);
  if (house.covered) {  // laid over it: later, and while it stood
    house.add(kCoverEnd, kCoverBegin, -1, kStructural);
    house.add(kCoverBegin, kBegin, -1, 1);
    house.add(kEnd, kCoverBegin, -1, 1);
  }
  const auto claims = static_cast<Cause>(pick(0, 6));
  for (Cause cause = 2; cause < claims + 2; ++cause) {
    const auto from = static_cast<Var>(pick(0, vars)), to = static_cast<Var>(pick(0, vars));
    if (from == to) continue;
    const Tick weight = from == kOrigin ? pick(0, kTop) : to == kOrigin ? -pick(0, kTop) : pick(-2, 2);
    house.add(from, to, weight, cause);
  }
  return house;
}

// What one assignment says of an item in one phase, days [start, next) or up to the known day.
struct Seen {
  bool installed, removed, throughout, present, covered, visible;
};

Seen seen(const Point& x, const House& house, bool last, Tick known) {
  const Tick start = x[last ? kSecond : kFirst], next = last ? known + 1 : x[kSecond];
  const auto within = [&](Tick day) { return start <= day && day < next; };
  const auto shown = [&](Tick day) {
    return within(day) && x[kBegin] <= day && day < x[kEnd] &&
           !(house.covered && x[kCoverBegin] <= day && (house.cover_stays || day < x[kCoverEnd]));
  };
  Seen seen{within(x[kBegin]), within(x[kEnd]), x[kBegin] <= start && x[kEnd] >= next, false, false, false};
  for (Tick day = 0; day <= kTop; ++day) {
    seen.present |= within(day) && x[kBegin] <= day && day < x[kEnd];
    seen.visible |= shown(day);
  }
  seen.covered = house.covered && within(x[kCoverBegin]);
  return seen;
}

Membership verdict(bool all, bool some) {
  return all ? Membership::certain : some ? Membership::possible : Membership::no;
}

struct Tally {
  std::array<unsigned, 3> installed{}, visible{}, covered{}, present{};
};

void check_phase(const House& house, const std::vector<const Point*>& all, const PhasePart& part, bool last,
                 Tick known, Tally& tally) {
  const auto told = [&](auto member) {
    bool every = true, some = false;
    for (const Point* x : all) {
      const bool one = seen(*x, house, last, known).*member;
      every = every && one;
      some = some || one;
    }
    return verdict(every, some);
  };
  CHECK(part.installed == told(&Seen::installed));
  CHECK(part.removed == told(&Seen::removed));
  // Certain is throughout a phase that can have a day by then; possible is at some time in it.
  bool throughout = true, at_some_time = false;
  for (const Point* x : all) {
    const Seen one = seen(*x, house, last, known);
    throughout = throughout && one.throughout;
    at_some_time = at_some_time || one.present;
  }
  CHECK(part.present == verdict(throughout && at_some_time, at_some_time));
  if (part.present != Membership::no) CHECK(part.covered == told(&Seen::covered));
  const Membership visible = told(&Seen::visible);
  if (house.covered && visible == Membership::certain)
    CHECK(part.visible != Membership::no);  // with covers 'certain' may be missed, never said wrongly
  else
    CHECK(part.visible == visible);
  ++tally.installed[static_cast<std::size_t>(part.installed)];
  ++tally.present[static_cast<std::size_t>(part.present)];
  ++tally.covered[static_cast<std::size_t>(part.covered)];
  ++tally.visible[static_cast<std::size_t>(part.visible)];
}

void run_cases(unsigned seed, unsigned cases) {
  seed = number_from("LATHBOOK_SEED", seed);
  cases = number_from("LATHBOOK_CASES", cases);
  WARN("seed " << seed << ", " << cases << " cases");
  Tally tally;
  for (unsigned number = 0, tried = 0; tried < cases; ++number) {
    INFO("seed " << seed + number << " (LATHBOOK_SEED repeats it)");
    std::mt19937 random(seed + number);
    House house = random_house(random);
    const Tick known = std::uniform_int_distribution<Tick>(0, kTop)(random);
    const Table table(house.units, kTop);
    const Solution solution = solve(house.network);
    if (!solution.conflicts().empty()) continue;
    ++tried;
    house.cover_stays = house.covered && (solution.remarks(kCoverEnd, kPossible) & kLatestNoEvidence) != 0;
    const std::vector<const Point*> all =
        table.points(static_cast<Mask>((Mask{1} << house.units.causes()) - 2));
    REQUIRE_FALSE(all.empty());
    const PhaseMembership membership(solution, kPossible, {{kFirst, {}, {}}, {kSecond, {}, {}}}, known);
    std::vector<Standing> covers;
    if (house.covered) covers.push_back({kCoverBegin, kCoverEnd});
    std::array<PhasePart, 2> parts;
    for (const PhasePart& part : membership.parts({kBegin, kEnd}, {covers})) parts.at(part.phase) = part;
    for (const bool last : {false, true}) check_phase(house, all, parts[last ? 1 : 0], last, known, tally);
    // What can be seen in another place too, where nothing covers it, is to be seen as if it had no cover.
    const auto bare = membership.parts({kBegin, kEnd}, {{}}),
               both = membership.parts({kBegin, kEnd}, {covers, {}});
    REQUIRE(both.size() == bare.size());
    for (std::size_t at = 0; at < both.size(); ++at) {
      CHECK(both[at].visible == bare[at].visible);
      CHECK(both[at].covered == parts.at(both[at].phase).covered);
    }
  }
  // Each verdict must really have come up.
  if (cases >= 100)
    for (const auto& counts : {tally.installed, tally.present, tally.covered, tally.visible})
      for (const unsigned count : counts) CHECK(count > cases / 100);
}

}  // namespace

TEST_CASE("membership of phases agrees with brute force") {
  run_cases(20261201, 1000);
}

TEST_CASE("membership of phases agrees with brute force, 10,000 systems", "[.long]") {
  run_cases(30261201, 10'000);
}
