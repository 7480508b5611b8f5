// Contradictions, choices and remarks of the temporal network, on small cases worked by hand. Years are
// whole units; the dates are invented, so the figures have no source but the arithmetic beside them.
#include <catch2/catch.hpp>

#include "plugins/timeline/network.hpp"

using namespace lathbook::timeline;

namespace {

constexpr Tick kFirst = 1700, kLast = 2000;

// Elements with a beginning, an end one unit later at least, and the horizon of the inquiry.
struct House {
  Network network;
  Cause next = 1;

  Var variable() {
    const Var var = network.add_variable();
    network.add_earliest(var, kFirst, kHorizon, 0);
    network.add_latest(var, kLast, kHorizon, 0);
    return var;
  }
  Var element() {  // its end is the next variable
    const Var begin = variable();
    const Var end = variable();
    network.add_constraint({end, begin, -1, kStructural, 0});
    return begin;
  }
  Cause from(Var var, Tick year, std::uint8_t level = kCertain) {
    network.add_earliest(var, year, next, level);
    return next++;
  }
  Cause by(Var var, Tick year, std::uint8_t level = kCertain) {
    network.add_latest(var, year, next, level);
    return next++;
  }
  // later >= earlier + gap
  Cause after(Var later, Var earlier, Tick gap, std::uint8_t level = kCertain) {
    network.add_constraint({later, earlier, -gap, next, level});
    return next++;
  }
};

}  // namespace

TEST_CASE("a campaign of three years at most ties its members") {
  House house;
  const Var start = house.variable(), end = house.variable();
  house.network.add_constraint({start, end, 3, house.next++, kCertain});
  house.network.add_constraint({end, start, 0, kStructural, 0});
  std::vector<Var> members;
  for (int at = 0; at < 3; ++at) {
    members.push_back(house.element());
    house.network.add_constraint({members.back(), start, 0, house.next, kCertain});
    house.network.add_constraint({end, members.back(), 0, house.next++, kCertain});
  }
  house.from(members[0], 1885);
  house.by(members[1], 1887);
  const Solution solution = solve(house.network);
  CHECK(solution.conflicts().empty());
  CHECK(solution.bounds(members[0], kCertain) == Bounds{1885, 1890});
  CHECK(solution.bounds(members[1], kCertain) == Bounds{1882, 1887});
  CHECK(solution.bounds(members[2], kCertain) == Bounds{1882, 1890});
}

TEST_CASE("what is learned about the date of a photograph travels to all it shows") {
  House house;
  const Var photo = house.variable(), element = house.element(), lamp = house.element();
  house.from(photo, 1898);
  house.by(photo, 1904);
  const auto shows = [&](Var var) {
    house.network.add_constraint({photo, var, 0, house.next, kCertain});
    house.network.add_constraint({var + 1, photo, -1, house.next++, kCertain});
  };
  shows(element);
  {
    const Solution solution = solve(house.network);
    CHECK(solution.bounds(element, kCertain).latest == 1904);
    CHECK(solution.bounds(element + 1, kCertain).earliest == 1899);
  }
  shows(lamp);
  const Cause fitted = house.from(lamp, 1901);
  const Solution solution = solve(house.network);
  CHECK(solution.bounds(photo, kCertain) == Bounds{1901, 1904});
  CHECK(solution.bounds(element + 1, kCertain).earliest == 1902);
  const std::vector<Step> reason = solution.reason(element + 1, Side::earliest, kCertain);
  REQUIRE(reason.size() == 3);
  CHECK(reason.front().cause == fitted);
  CHECK(reason.back().to == photo);
}

TEST_CASE("mutual covering is a contradiction of two, mutual abutting only makes equal dates") {
  House house;
  const Var a = house.element(), b = house.element();
  SECTION("strict") {
    const Cause first = house.after(a, b, 1), second = house.after(b, a, 1);
    const Solution solution = solve(house.network);
    REQUIRE(solution.conflicts().size() == 1);
    CHECK(solution.conflicts()[0].claims == std::vector<Cause>{first, second});
    CHECK(solution.conflicts()[0].aside == std::vector<Cause>{first, second});
    CHECK(solution.conflicts()[0].clash == 2);
    CHECK(solution.conflicts()[0].minimal);
    CHECK(solution.leans_on(a, Side::earliest, kCertain) == first);
    CHECK((solution.remarks(a, kCertain) & kEarliestLeans) != 0);
  }
  SECTION("not strict") {
    house.after(a, b, 0);
    house.after(b, a, 0);
    house.from(a, 1800);
    house.by(b, 1810);
    const Solution solution = solve(house.network);
    CHECK(solution.conflicts().empty());
    CHECK(solution.bounds(a, kCertain) == Bounds{1800, 1810});
    CHECK(solution.bounds(b, kCertain) == Bounds{1800, 1810});
    CHECK(solution.distance(a, b, kCertain) == 0);
    CHECK(solution.distance(b, a, kCertain) == 0);
  }
}

TEST_CASE("a claim may contradict itself") {
  House house;
  const Var made = house.variable();
  house.network.add_earliest(made, 1898, 1, kCertain);
  house.network.add_latest(made, 1885, 1, kCertain);
  const Solution solution = solve(house.network);
  REQUIRE(solution.conflicts().size() == 1);
  CHECK(solution.conflicts()[0].claims == std::vector<Cause>{1});
  CHECK(solution.conflicts()[0].clash == 13);
}

TEST_CASE("a variable before itself is a contradiction of one") {
  House house;
  const Var x = house.variable();
  house.network.add_constraint({x, x, -2, 1, kCertain});
  house.network.add_constraint({x, x, 2, 2, kCertain});
  const Solution solution = solve(house.network);
  REQUIRE(solution.conflicts().size() == 1);
  CHECK(solution.conflicts()[0].claims == std::vector<Cause>{1});
  CHECK(solution.conflicts()[0].clash == 2);
}

TEST_CASE("two contradictions apart are two reports") {
  House house;
  const Var a = house.element(), b = house.element();
  house.from(a, 1850);
  house.by(a, 1840);
  house.from(b, 1900);
  house.by(b, 1870);
  const Solution solution = solve(house.network);
  REQUIRE(solution.conflicts().size() == 2);
  CHECK(solution.conflicts()[0].claims == std::vector<Cause>{1, 2});
  CHECK(solution.conflicts()[0].clash == 10);
  CHECK(solution.conflicts()[1].claims == std::vector<Cause>{3, 4});
  CHECK(solution.conflicts()[1].clash == 30);
}

TEST_CASE("levels nest: what was kept is hard, what was set aside stays aside") {
  House house;
  const Var a = house.element(), b = house.element();
  const Cause certain = house.from(a, 1850, kCertain);
  const Cause probable = house.by(a, 1840, kProbable);
  const Cause possible = house.after(b, a, 5, kPossible);
  const Solution solution = solve(house.network);
  REQUIRE(solution.conflicts().size() == 1);
  CHECK(solution.conflicts()[0].claims == std::vector<Cause>{certain, probable});
  CHECK(solution.conflicts()[0].aside == std::vector<Cause>{probable});
  CHECK(solution.conflicts()[0].level == kProbable);
  CHECK_FALSE(solution.is_aside(probable, kCertain));
  CHECK(solution.is_aside(probable, kPossible));
  CHECK(solution.bounds(a, kCertain) == Bounds{1850, 1999});
  CHECK(solution.bounds(b, kProbable).earliest == kFirst);
  CHECK(solution.bounds(b, kPossible).earliest == 1855);
  const std::vector<Step> reason = solution.reason(b, Side::earliest, kPossible);
  REQUIRE(reason.size() == 2);
  CHECK(reason[0].cause == certain);
  CHECK(reason[1].cause == possible);
  CHECK((solution.remarks(b, kProbable) & kEarliestNoEvidence) != 0);
  CHECK((solution.remarks(b, kPossible) & kEarliestNoEvidence) == 0);
}

TEST_CASE("equal reasons: evidence before horizon, fewer claims, better weakest claim, lower number") {
  House house;
  const Var x = house.variable(), y = house.variable();
  const Cause same_as_horizon = house.from(x, kFirst);
  house.from(y, 1800);             // 2
  house.after(x, y, 0, kCertain);  // 3: x from 1800 by two claims
  const Cause possible = house.from(x, 1800, kPossible);
  const Cause probable = house.from(x, 1800, kProbable);
  const Cause again = house.from(x, 1800, kProbable);
  const Solution solution = solve(house.network);
  CHECK(solution.reason(x, Side::earliest, kCertain).size() == 2);
  for (const std::uint8_t level : {kProbable, kPossible}) {
    const std::vector<Step> reason = solution.reason(x, Side::earliest, level);
    REQUIRE(reason.size() == 1);
    CHECK(reason[0].cause == probable);
  }
  static_cast<void>(possible);
  static_cast<void>(again);
  Options options;
  options.leave_out = {3};
  options.max_level = kCertain;
  const std::vector<Step> bare = solve(house.network, options).reason(x, Side::earliest, kCertain);
  REQUIRE(bare.size() == 1);
  CHECK(bare[0].cause == same_as_horizon);
}

TEST_CASE("not shown in a photograph: decided by other evidence, else open") {
  House house;
  const Var photo = house.variable(), x = house.element();
  house.from(photo, 1900);
  house.by(photo, 1905);
  const Cause absent = house.next++;
  // gone by then, or not yet there
  house.network.add_choice({{{{photo, x + 1, 0}}, {{x, photo, -1}}}, absent, kCertain});
  SECTION("open") {
    const Solution solution = solve(house.network);
    CHECK(solution.choice_state(0, kCertain) == ChoiceState::open);
    CHECK(solution.bounds(x, kCertain) == Bounds{kFirst, kLast - 1});
    // Every case was gone through: nothing is wider than necessary.
    CHECK((solution.remarks(x, kCertain) & kEarliestWide) == 0);
    CHECK((solution.remarks(x + 1, kCertain) & kLatestWide) == 0);
  }
  SECTION("seen later, so not yet there") {
    const Cause seen = house.from(x + 1, 1930);
    const Solution solution = solve(house.network);
    CHECK(solution.choice_state(0, kCertain) == ChoiceState::decided);
    CHECK(solution.chosen(0, kCertain) == 1);
    CHECK(solution.bounds(x, kCertain).earliest == 1901);
    CHECK((solution.remarks(x, kCertain) & kEarliestWide) == 0);
    const std::vector<Refutation> refuted = solution.refuted(0, kCertain);
    REQUIRE(refuted.size() == 1);
    CHECK(refuted[0].alternative == 0);
    CHECK(refuted[0].clash == 25);
    CHECK(std::any_of(refuted[0].loop.begin(), refuted[0].loop.end(),
                      [&](const Step& step) { return step.cause == seen; }));
    const std::vector<Step> reason = solution.reason(x, Side::earliest, kCertain);
    REQUIRE(reason.size() == 2);
    CHECK(reason[1].choice == 0);
    CHECK(reason[1].alternative == 1);
  }
  SECTION("seen before and after: a contradiction with every claim that has a part in it") {
    const Cause late = house.from(x + 1, 1930), early = house.by(x, 1890);
    const Solution solution = solve(house.network);
    REQUIRE(solution.conflicts().size() == 1);
    const Conflict& conflict = solution.conflicts()[0];
    CHECK(std::binary_search(conflict.claims.begin(), conflict.claims.end(), absent));
    CHECK(std::binary_search(conflict.claims.begin(), conflict.claims.end(), late));
    CHECK(std::binary_search(conflict.claims.begin(), conflict.claims.end(), early));
    CHECK_FALSE(conflict.refuted.empty());
    CHECK(solution.choice_state(0, kCertain) == ChoiceState::unused);
  }
  SECTION("decided only at a lower level of confidence") {
    house.from(x + 1, 1930, kPossible);
    const Solution solution = solve(house.network);
    CHECK(solution.choice_state(0, kProbable) == ChoiceState::open);
    CHECK(solution.choice_state(0, kPossible) == ChoiceState::decided);
    CHECK(solution.reason(x, Side::earliest, kPossible).back().choice == 0);
  }
}

TEST_CASE("an empty alternative leaves everything open and nothing wide by itself") {
  House house;
  const Var photo = house.variable(), x = house.element();
  const Cause absent = house.next++;
  house.network.add_choice({{{{photo, x + 1, 0}}, {}}, absent, kCertain});
  house.from(x + 1, 1930);
  house.by(photo, 1905);
  const Solution solution = solve(house.network);
  CHECK(solution.conflicts().empty());
  CHECK(solution.chosen(0, kCertain) == 1);
  CHECK(solution.bounds(x + 1, kCertain) == Bounds{1930, kLast});
}

TEST_CASE("the hull of the open alternatives gives its reason case by case") {
  House house;
  const Var a = house.variable(), b = house.variable(), x = house.variable();
  const Cause first = house.by(a, 1850), second = house.by(b, 1880);
  const Cause either = house.next++;
  house.network.add_choice({{{{a, x, 0}}, {{b, x, 0}}}, either, kCertain});
  const Solution solution = solve(house.network);
  CHECK(solution.bounds(x, kCertain).latest == 1880);
  const std::vector<Step> reason = solution.reason(x, Side::latest, kCertain);
  REQUIRE(reason.size() == 1);
  CHECK(reason[0].cause == either);
  const auto cases = solution.cases(reason[0].cases);
  REQUIRE(cases.size() == 2);
  CHECK(cases[0].steps.front().cause == first);
  CHECK(cases[1].steps.front().cause == second);
  CHECK(cases[1].steps.back().alternative == 1);
}

TEST_CASE("leaving a claim out shows what the date would be without it") {
  House house;
  const Var tile = house.variable(), mantel = house.variable();
  const Cause mark = house.from(tile, 1885), laps = house.after(mantel, tile, 0);
  Options without;
  without.leave_out = {laps};
  CHECK(solve(house.network).bounds(mantel, kCertain).earliest == 1885);
  CHECK(solve(house.network, without).bounds(mantel, kCertain).earliest == kFirst);
  without.leave_out = {mark};
  CHECK(solve(house.network, without).bounds(mantel, kCertain).earliest == kFirst);
}

TEST_CASE("two contradictions with a claim in common are one dispute: giving that one up settles both") {
  House house;
  const Var photo = house.variable(), mantel = house.variable(), tile = house.variable();
  const Cause dated = house.by(photo, 1880);
  const Cause first = house.from(mantel, 1890), shows_mantel = house.after(photo, mantel, 0);
  const Cause second = house.from(tile, 1895), shows_tile = house.after(photo, tile, 0);
  const Solution solution = solve(house.network);
  REQUIRE(solution.conflicts().size() == 2);
  REQUIRE(solution.disputes().size() == 1);
  const Dispute& dispute = solution.disputes()[0];
  CHECK(dispute.conflicts == std::vector<std::uint32_t>{0, 1});
  REQUIRE(dispute.answers.size() == 1);
  CHECK(dispute.answers[0].claims == std::vector<Cause>{dated});
  CHECK(dispute.taken == 0);
  CHECK(dispute.is_best);
  for (const Cause kept : {first, shows_mantel, second, shows_tile})
    CHECK_FALSE(solution.is_aside(kept, kCertain));
  CHECK(solution.bounds(photo, kCertain).earliest == 1895);
}

TEST_CASE("equally good answers: all listed, all left out, none chosen until one is taken") {
  House house;
  const Var x = house.element();
  const Cause early = house.by(x, 1850), late = house.from(x, 1870);
  SECTION("undecided") {
    const Solution solution = solve(house.network);
    REQUIRE(solution.disputes().size() == 1);
    const Dispute& dispute = solution.disputes()[0];
    REQUIRE(dispute.answers.size() == 2);
    CHECK(dispute.answers[0].claims == std::vector<Cause>{early});
    CHECK(dispute.answers[1].claims == std::vector<Cause>{late});
    CHECK(dispute.taken == kNone);
    CHECK(solution.bounds(x, kCertain) == Bounds{kFirst, kLast - 1});
    CHECK(solution.conflicts()[0].aside == std::vector<Cause>{early, late});
  }
  SECTION("the first, or the second, or the last for a greater number") {
    for (const std::uint32_t answer : {1U, 2U, 9U}) {
      Options options;
      options.answer = answer;
      const Solution solution = solve(house.network, options);
      CHECK(solution.disputes()[0].taken == std::min(answer, 2U) - 1);
      CHECK(solution.bounds(x, kCertain) == (answer == 1 ? Bounds{1870, kLast - 1} : Bounds{kFirst, 1850}));
    }
  }
}

TEST_CASE("two disjoint contradictions: the lighter claim of each goes, two disputes") {
  // The weights of shared odds: 405, 1386, 2944, 4595 stand for 60, 80, 95 and 99 in a hundred.
  House house;
  const Var a = house.element(), b = house.element();
  const Cause one = house.by(a, 1850), two = house.from(a, 1870);
  const Cause three = house.by(b, 1850), four = house.from(b, 1870);
  house.network.weigh(one, 405);
  house.network.weigh(two, 1386);
  house.network.weigh(three, 2944);
  house.network.weigh(four, 4595);
  const Solution solution = solve(house.network);
  REQUIRE(solution.disputes().size() == 2);
  CHECK(solution.disputes()[0].answers == std::vector<Dispute::Answer>{{{one}, {}}});
  CHECK(solution.disputes()[1].answers == std::vector<Dispute::Answer>{{{three}, {}}});
  CHECK(solution.disputes()[0].weight + solution.disputes()[1].weight == 3349);
}

TEST_CASE("what one source says may fall together") {
  House house;
  const Var a = house.element(), b = house.element();
  const Cause first = house.by(a, 1850), second = house.by(b, 1850);  // both from one account
  house.from(a, 1870);
  house.from(b, 1890);
  SECTION("claims by themselves: four ways, undecided") {
    const Solution solution = solve(house.network);
    REQUIRE(solution.disputes().size() == 2);
    CHECK(solution.disputes()[0].taken == kNone);
    CHECK(solution.disputes()[1].taken == kNone);
  }
  SECTION("as a group: one account mistaken is likelier than two separate slips") {
    house.network.add_group({first, second}, 3);
    const Solution solution = solve(house.network);
    REQUIRE(solution.disputes().size() == 1);
    const Dispute& dispute = solution.disputes()[0];
    REQUIRE(dispute.answers.size() == 1);
    CHECK(dispute.answers[0].claims == std::vector<Cause>{first, second});
    CHECK(dispute.answers[0].groups == std::vector<std::uint32_t>{0});
    CHECK(solution.bounds(a, kCertain).earliest == 1870);
    CHECK(solution.bounds(b, kCertain).earliest == 1890);
  }
}

TEST_CASE("a joint claim is never set aside by itself: one of its parts is") {
  House house;
  const Var x = house.element(), cover = house.element();
  const Cause seen = house.next++, covers = house.next++, both = house.next++;
  house.network.declare(seen, kCertain);
  house.network.declare(covers, kProbable);
  house.network.join(both, {seen, covers});
  CHECK(house.network.level_of(both) == kProbable);
  house.network.add_constraint({cover, x, -1, both, kProbable});  // cover after x
  const Cause early = house.by(cover, 1850), late = house.from(x, 1870);
  const Solution solution = solve(house.network);
  REQUIRE(solution.conflicts().size() == 1);
  CHECK(solution.conflicts()[0].claims == std::vector<Cause>{seen, covers, early, late});
  CHECK(solution.conflicts()[0].aside == std::vector<Cause>{covers});
  CHECK_FALSE(solution.is_aside(seen, kPossible));
  CHECK(solution.is_aside(both, kPossible));
  Options options;
  options.leave_out = {seen};
  CHECK(solve(house.network, options).conflicts().empty());
}

TEST_CASE("three cases: gone, not yet there, or hidden by something known") {
  House house;
  const Var photo = house.variable(), x = house.element(), screen = house.element();
  house.from(photo, 1900);
  house.by(photo, 1900);
  const Cause absent = house.next++;
  house.network.add_choice(
      {{{{photo, x + 1, 0}}, {{x, photo, -1}}, {{photo, screen, 0}, {screen + 1, photo, -1}}},
       absent,
       kCertain});
  house.by(x, 1890);
  house.from(x + 1, 1920);  // it stood all the time, so it was hidden, so the screen was there
  const Solution solution = solve(house.network);
  CHECK(solution.choice_state(0, kCertain) == ChoiceState::decided);
  CHECK(solution.chosen(0, kCertain) == 2);
  CHECK(solution.bounds(screen, kCertain).latest == 1900);
  CHECK(solution.bounds(screen + 1, kCertain).earliest == 1901);
}

TEST_CASE("cases that leave a hole are told as two spans") {
  House house;
  const Var x = house.variable();
  house.network.add_choice({{{{kOrigin, x, 1850}}, {{x, kOrigin, -1880}}}, house.next++, kCertain});
  const Solution solution = solve(house.network);
  CHECK(solution.bounds(x, kCertain) == Bounds{kFirst, kLast});
  CHECK(solution.spans(x, kCertain) == std::vector<Bounds>{{kFirst, 1850}, {1880, kLast}});
}

TEST_CASE("orders not known among three in one spot: gone through together, exact where halves are not") {
  // a, b and c stood in one spot one after another for ten years at least each, all within 1900 to 1935.
  House house;
  std::vector<Var> all;
  for (int at = 0; at < 3; ++at) {
    all.push_back(house.element());
    house.from(all.back(), 1900);
    house.by(all.back() + 1, 1935);
    house.network.add_constraint({all.back() + 1, all.back(), -10, house.next++, kCertain});
  }
  for (std::size_t one = 0; one < 3; ++one)
    for (std::size_t other = one + 1; other < 3; ++other)
      house.network.add_choice(
          {{{{all[one], all[other] + 1, 0}}, {{all[other], all[one] + 1, 0}}}, house.next++, kCertain});
  house.by(all[0], 1909);  // so a was the first
  const Solution solution = solve(house.network);
  CHECK(solution.conflicts().empty());
  CHECK(solution.bounds(all[0] + 1, kCertain).latest == 1915);
  CHECK(solution.bounds(all[1], kCertain) == Bounds{1910, 1925});
  CHECK(solution.bounds(all[2], kCertain) == Bounds{1910, 1925});
  CHECK((solution.remarks(all[1], kCertain) & (kEarliestWide | kLatestWide)) == 0);
  CHECK(solution.spans(all[1], kCertain) == std::vector<Bounds>{{1910, 1915}, {1920, 1925}});
}

TEST_CASE("more ways than can be gone through: the wider bounds stay and say so, the same on every run") {
  House house;
  const Var clock = house.variable();
  std::vector<Var> all;
  for (int at = 0; at < 12; ++at) {
    all.push_back(house.element());
    house.from(all.back(), 1800);
    house.by(all.back() + 1, 1990);
    house.network.add_constraint({all.back() + 1, all.back(), -10, house.next++, kCertain});
    house.after(clock, all.back() + 1, 0);
  }
  for (std::size_t one = 0; one < all.size(); ++one)
    for (std::size_t other = one + 1; other < all.size(); ++other)
      house.network.add_choice(
          {{{{all[one], all[other] + 1, 0}}, {{all[other], all[one] + 1, 0}}}, house.next++, kCertain});
  const Solution solution = solve(house.network), again = solve(house.network);
  CHECK(solution.conflicts().empty());
  CHECK(solution.bounds(clock, kCertain).earliest < 1920);  // the truth
  CHECK((solution.remarks(clock, kCertain) & kEarliestWide) != 0);
  CHECK(again.bounds(clock, kCertain) == solution.bounds(clock, kCertain));
}
