// What would help most: every hypothesis is checked against a house in which it has been said.
#include <algorithm>
#include <catch2/catch.hpp>
#include <random>

#include "core/base/calendar.hpp"

#include "tests/timeline_plugin/house.hpp"

using namespace lathbook;
using test::House;
using test::Said;

namespace {

const TimelineTask* task_of(const Timeline& timeline, const std::string& sort) {
  for (const TimelineTask& task : timeline.tasks)
    if (task.sort == sort) return &task;
  return nullptr;
}

// The bounds that the work list counts, cut as it cuts them: to the years from the first date to the known
// day.
std::vector<std::pair<Day, Day>> windows(const Timeline& timeline, Day floor) {
  std::vector<std::pair<Day, Day>> found;
  const Day roof = timeline.reading.known_day;
  for (const TimelineItem& item : timeline.items)
    for (const Span* span : {&item.begins, &item.ends}) {
      const Day low = span->earliest.known ? std::max(span->earliest.day, floor) : floor;
      const Day high = span->latest.known ? std::min(span->latest.day, roof) : roof;
      found.emplace_back(std::min(low, roof), std::max(high, std::min(low, roof)));
    }
  return found;
}

Day first_day(const Timeline& timeline) {
  Day first = timeline.reading.known_day;
  for (const TimelineItem& item : timeline.items)
    for (const Span* span : {&item.begins, &item.ends})
      for (const Bound* bound : {&span->earliest, &span->latest})
        if (bound->known) first = std::min(first, bound->day);
  return first;
}

// Items come in order of their dates, so a house that knows more is compared by code.
void by_code(Timeline& timeline) {
  std::sort(timeline.items.begin(), timeline.items.end(),
            [](const TimelineItem& a, const TimelineItem& b) { return a.record.code < b.record.code; });
}

std::size_t narrowed(Timeline before, Timeline after) {
  by_code(before);
  by_code(after);
  const Day floor = first_day(before);
  const auto old_ones = windows(before, floor), new_ones = windows(after, floor);
  std::size_t count = 0;
  for (std::size_t at = 0; at < old_ones.size(); ++at) {
    count += new_ones[at].first - old_ones[at].first >= 365 ? 1 : 0;
    count += old_ones[at].second - new_ones[at].second >= 365 ? 1 : 0;
  }
  return count;
}

std::vector<Said> joined(std::vector<Said> said, const Said& more) {
  said.push_back(more);
  return said;
}

}  // namespace

TEST_CASE("one sample through all coats at a spot is one task, and the same coat elsewhere none") {
  House house;
  for (const std::string thing : {"E1", "E2", "E3"}) house.say({thing, "stands-in", "R1"});
  house.say({"E1", "installed", "1880"});
  // Three coats on E1, the second of which goes on over E2; a coat of its own on E3.
  for (const std::string coat : {"F1", "F2", "F3"}) house.say({coat, "finish-on", "E1"});
  house.say({"F4", "finish-on", "E2"});
  house.say({"F5", "finish-on", "E3"});
  house.say({"F2", "covers", "F1", "contact=laps over"});
  house.say({"F3", "covers", "F2", "contact=laps over"});
  house.say({"F4", "once-continuous-with", "F2"});
  house.tasks = true;
  const Timeline timeline = house.timeline(Level::possible, "R1");
  std::vector<std::vector<Uuid>> sampled;
  std::string words;
  for (const TimelineTask& task : timeline.tasks)
    if (task.words.find("sample taken through the coats") != std::string::npos) {
      sampled.push_back(task.records);
      words += task.words;
    }
  REQUIRE(sampled.size() == 2);
  CHECK(sampled[0].size() == 3);
  CHECK(sampled[0].front() == house.id("F2"));  // it tells of all the others
  CHECK(sampled[1] == std::vector<Uuid>{house.id("F5")});
  CHECK(words.find("on E2 is dated with it") != std::string::npos);
}

TEST_CASE("an unread contact is worth reading where both orders are open") {
  const std::vector<Said> said{{"E1", "installed", "1900"},
                               {"E3", "installed", "1880"},
                               {"E2", "touches", "E1", "how=straight joint, order not read"},
                               {"E1", "stands-in", "R1"},
                               {"E2", "stands-in", "R1"},
                               {"E3", "stands-in", "R1"}};
  House house(said);
  const Timeline timeline = house.timeline(Level::possible, "R1");
  const TimelineTask* task = task_of(timeline, "contact");
  REQUIRE(task);
  CHECK(task->words ==
        "Read the contact between E2 and E1: which of the two runs behind, stops against or laps over the "
        "other?");
  REQUIRE(task->outcomes.size() == 2);
  // Were E1 the earlier, E2 would be of 1900 or later: its beginning and its end.
  const TimelineOutcome& first = task->outcomes[0];
  CHECK(first.earlier == house.id("E1"));
  CHECK(first.later == house.id("E2"));
  REQUIRE(first.gains.size() == 2);
  CHECK(first.gains[0].record == house.id("E2"));
  CHECK_FALSE(first.gains[0].of_end);
  CHECK(first.gains[0].not_before == days_from_civil(1900, 1, 1));
  CHECK_FALSE(first.gains[0].not_after);
  // Were it the later, E2 would be of 1900 or earlier.
  REQUIRE(task->outcomes[1].gains.size() == 1);
  CHECK(task->outcomes[1].gains[0].not_after == days_from_civil(1900, 12, 31));
  // Later than 1900: its beginning and its end; earlier: its beginning. From 1880 to 1900, and 2024 to 1900.
  CHECK(task->narrows == Approx(1.5));
  CHECK(task->at_least == 1);
  CHECK(task->years == Approx((20 + 20 + 124) / 2.0).epsilon(0.01));
  House decided(joined(said, {"E2", "not-yet-on", "1910"}));
  CHECK_FALSE(task_of(decided.timeline(Level::possible, "R1"), "contact"));
}

TEST_CASE("scraping beside a dated coat would place the skirting before or after it") {
  House house({{"E1", "element-class", "casing"},
               {"E1", "installed", "1890"},
               {"F1", "finish-on", "E1"},
               {"F1", "installed", "1924/1926"},
               {"E2", "element-class", "joinery"},
               {"E1", "stands-in", "R1"},
               {"E2", "stands-in", "R1"},
               {"X1", "examined", "E2"},
               {"X1", "sought", "nails or marks", "outcome=looked, none"},
               {"X1", "sought", "paint layers beside the casing", "outcome=could not tell"}});
  const Timeline timeline = house.timeline(Level::possible, "R1");
  const TimelineTask* task = task_of(timeline, "layers");
  REQUIRE(task);
  CHECK(task->records == std::vector<Uuid>{house.id("E2"), house.id("E1"), house.id("F1")});
  CHECK(
      task->words ==
      "Have the layers of E2 read beside E1, in a sample or a tested scrape: does F1 go over it, stop at it, "
      "or run behind it?");
  REQUIRE(task->on.size() == 2);
  CHECK(task->on[0].words == "X1 sought nails or marks: looked, none");
  CHECK(task->on[1].words == "X1 sought paint layers beside the casing: could not tell");
}

TEST_CASE("the day of a photograph that much leans on comes before an idle one") {
  House house({{"P1", "source-date", "1900~"}, {"P2", "source-date", "1900~"}});
  for (const std::string code : {"E1", "E2", "E3"}) {
    house.say({code, "stands-in", "R1"});
    house.say({code, "as-built-in", "P1"});
    house.say({code, "installed", "1870/1950"});
  }
  house.say({"E1", "as-built-in", "P2"});
  const Timeline timeline = house.timeline(Level::possible, "R1");
  std::vector<std::string> sources;
  for (const TimelineTask& task : timeline.tasks)
    if (task.sort == "source") sources.push_back(task.words);
  REQUIRE(sources.size() == 2);
  CHECK(sources[0] == "Find out when P1 was made, now dated about 1900.");
  CHECK(timeline.tasks.front().narrows >= timeline.tasks.back().narrows);
}

TEST_CASE("a whole house gets its list only when it is asked for") {
  House house({{"R2", "within", "R1"},
               {"E1", "stands-in", "R2"},
               {"E2", "stands-in", "R2"},
               {"E1", "installed", "1900"},
               {"E3", "installed", "1880"},
               {"E2", "touches", "E1", "how=straight joint, order not read"}});
  house.say({"E3", "stands-in", "R2"});
  CHECK(house.timeline(Level::possible, "R1").tasks.empty());
  house.tasks = true;
  CHECK_FALSE(house.timeline(Level::possible, "R1").tasks.empty());
}

// Each outcome is what a house would show in which it had been found.
TEST_CASE("contacts tried are worth what reading them turns out to be worth") {
  const int rounds = 30;
  const unsigned seed = GENERATE(11U, 29U);
  INFO("seed " << seed);
  std::mt19937 random(seed);
  const auto below = [&](int limit) { return static_cast<int>(random() % static_cast<unsigned>(limit)); };
  int tried = 0;
  for (int round = 0; round < rounds; ++round) {
    std::vector<Said> said;
    const int things = 5;
    const auto code = [](int number) { return "E" + std::to_string(number); };
    for (int thing = 0; thing < things; ++thing) {
      said.push_back({code(thing), "stands-in", "R1"});
      if (below(3) == 0) said.push_back({code(thing), "installed", std::to_string(1880 + below(60))});
    }
    for (int later = 1; later < things; ++later)
      if (below(2) == 0) said.push_back({code(later), "butts", code(below(later)), "contact=stops against"});
    const int one = below(things), other = (one + 1 + below(things - 1)) % things;
    said.push_back({code(one), "touches", code(other), "how=straight joint, order not read"});
    House house(said);
    const Timeline plain = house.timeline(Level::possible, "R1");
    if (!plain.conflicts.empty()) continue;
    const TimelineTask* task = task_of(plain, "contact");
    House first(joined(said, {code(one), "years-after-at-least", code(other), "years=0"}));
    House second(joined(said, {code(other), "years-after-at-least", code(one), "years=0"}));
    const Timeline after = first.timeline(Level::possible, "R1"),
                   before = second.timeline(Level::possible, "R1");
    if (!after.conflicts.empty() || !before.conflicts.empty()) {
      CHECK_FALSE(task);
      continue;
    }
    const std::size_t gains[] = {narrowed(plain, after), narrowed(plain, before)};
    if (std::min(gains[0], gains[1]) == 0) {
      CHECK_FALSE(task);
      continue;
    }
    REQUIRE(task);
    ++tried;
    CHECK(task->at_least == std::min(gains[0], gains[1]));
    CHECK(task->narrows == Approx(static_cast<double>(gains[0] + gains[1]) / 2));
  }
  CHECK(tried > 0);
}
