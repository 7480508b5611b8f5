// Says each contradiction in words: both sides, by how much they miss each other, what was left out.
#include "plugins/timeline/conflicts.hpp"

#include <algorithm>
#include <map>
#include <set>

#include "core/base/text.hpp"
#include "core/view/plain_words.hpp"

namespace lathbook::timeline {

namespace {

using FactList = std::vector<std::uint32_t>;

FactList facts_of(const Claims& claims, const std::vector<Cause>& causes) {
  std::set<std::uint32_t> facts;
  for (const Cause cause : causes) facts.insert(claims.at(cause).facts.begin(), claims.at(cause).facts.end());
  return {facts.begin(), facts.end()};
}

bool touches(const Claims& claims, const FactList& facts, const std::unordered_set<Uuid>& records) {
  return records.empty() || std::any_of(facts.begin(), facts.end(), [&](std::uint32_t index) {
           const Fact& fact = claims.facts().at(index);
           return records.count(fact.subject()) != 0 || (fact.object && records.count(*fact.object) != 0);
         });
}

bool is_at_the_limits(const Conflict& conflict) {
  return std::any_of(conflict.loop.begin(), conflict.loop.end(),
                     [](const Step& step) { return step.cause == kHorizon; });
}

std::string listed(const Claims& claims, const Words& words, const FactList& facts) {
  std::string list;
  for (std::size_t at = 0; at < facts.size(); ++at) {
    if (at > 0) list += at + 1 == facts.size() ? "; and " : "; ";
    list += words.said(claims.facts().at(facts[at]));
  }
  return list;
}

std::string sentence(std::string text) {
  return with_full_stop(capital(std::move(text)));
}

bool is_dated(const Conflict& conflict) {
  return std::any_of(conflict.loop.begin(), conflict.loop.end(),
                     [](const Step& step) { return step.from == kOrigin; });
}

std::string clash_words(const Conflict& conflict, Day days) {
  if (days < 1 && !conflict.loop.empty() && !is_dated(conflict))
    return " No dates whatever satisfy them: the order itself goes round in a circle.";
  return " They miss each other by " + span_words(days) + ".";
}

// Are those left out less sure than everything against them?
bool is_less_sure(const Claims& claims, const FactList& kept, std::uint8_t level) {
  return std::all_of(kept.begin(), kept.end(), [&](std::uint32_t fact) {
    const Cause cause = claims.cause_of(claims.facts().at(fact));
    return cause != kStructural && claims.at(cause).level < level;
  });
}

// What one way out leaves out, each statement once; of a source that falls as a whole, the word that it does.
std::vector<ReasonStep> way_of(const Claims& claims, const Words& words, const Dispute::Answer& answer) {
  std::vector<ReasonStep> way;
  std::set<std::uint32_t> in_groups;
  for (const std::uint32_t group : answer.groups) {
    const GroupOfFacts& whole = claims.groups().at(group);
    in_groups.insert(whole.members.begin(), whole.members.end());
    way.push_back(words.whole(claims.facts().at(whole.said), whole.members.size()));
  }
  for (const std::uint32_t fact : facts_of(claims, answer.claims))
    if (in_groups.count(fact) == 0) way.push_back(words.step(claims.facts().at(fact)));
  return way;
}

// Statements that fall with the dispute's without being in the conflict.
std::vector<ReasonStep> fallen_with(const Claims& claims, const Words& words, const Conflict& conflict,
                                    const Dispute& dispute) {
  std::set<Cause> fallen;
  for (std::size_t at = 0; at < dispute.answers.size(); ++at)
    if (dispute.taken == kNone || dispute.taken == at)
      for (const std::uint32_t group : dispute.answers[at].groups)
        for (const Cause cause : claims.network().groups()[group].claims)
          if (std::binary_search(dispute.answers[at].claims.begin(), dispute.answers[at].claims.end(), cause))
            fallen.insert(cause);
  for (const Cause cause : conflict.claims) fallen.erase(cause);
  std::vector<ReasonStep> steps;
  for (const std::uint32_t fact : facts_of(claims, {fallen.begin(), fallen.end()}))
    steps.push_back(words.step(claims.facts().at(fact)));
  return steps;
}

// 'All 4 statements that rest on the photograph (S-17) alone fall together.'
std::string group_words(const Claims& claims, const Words& words, const Dispute& dispute) {
  std::string text;
  if (dispute.taken == kNone) return text;
  for (const std::uint32_t group : dispute.answers[dispute.taken].groups) {
    const GroupOfFacts& whole = claims.groups().at(group);
    const ReasonStep step = words.whole(claims.facts().at(whole.said), whole.members.size());
    text += " They fall together: " + step.words + ".";
  }
  return text;
}

std::string ways_out(std::size_t count) {
  return count == 2 ? "two equally good ways out" : std::to_string(count) + " equally good ways out";
}

// Why these are left out and not others.
std::string choice_words(const Dispute& dispute, const FactList& aside, const FactList& kept,
                         bool less_sure) {
  const std::size_t answers = dispute.answers.size();
  const bool many = aside.size() > 1;
  if (!dispute.is_best)
    return " So many statements are at odds here that the least to leave out was not found: " +
           std::to_string(dispute.answers.front().claims.size()) + " would do, at least " +
           std::to_string((dispute.at_least + kClaimWeight - 1) / kClaimWeight) +
           " must go. All of them that could go are left out of the dates shown until a person rules.";
  if (dispute.taken == kNone) {
    const std::string ways = dispute.all_listed ? ways_out(answers) : "more than " + ways_out(answers);
    if (kept.empty())
      return " They are equally sure, and there are " + ways +
             "; so it is undecided, and all are left out of the dates shown until a person rules.";
    return std::string(" Which of those said first") + " is wrong is undecided: there are " + ways +
           ", so they are left out of the dates shown until a person rules.";
  }
  if (answers > 1)
    return " Of " + ways_out(answers) + " number " + std::to_string(dispute.taken + 1) +
           " was asked for: what is said first is left out of the dates shown.";
  if (less_sure)
    return std::string(many ? " Those said first are the less sure and are"
                            : " What is said first is the less sure and is") +
           " left out of the dates shown; nobody has ruled yet.";
  return std::string(" To leave out what is said first is the least that settles ") +
         (dispute.conflicts.size() > 1
              ? "all " + std::to_string(dispute.conflicts.size()) + " contradictions that it has a part in"
              : "it") +
         ", so the dates shown do without it; nobody has ruled yet.";
}

// The other readings of what is set aside, when there are any: 'or, read otherwise, April 1917'.
std::string otherwise_read(const Claims& claims, const FactList& readings) {
  std::string text;
  for (const std::uint32_t index : readings) {
    const Fact& fact = claims.facts().at(index);
    text += "; or, read otherwise, " + (fact.range ? fact.range->words : fact.content().value);
  }
  return text;
}

std::string words_of(const Claims& claims, const Words& words, const Conflict& conflict,
                     const Dispute& dispute, const FactList& readings, Day days, Day least) {
  const FactList all = facts_of(claims, conflict.claims);
  const FactList aside = facts_of(claims, conflict.aside);
  FactList kept;
  std::set_difference(all.begin(), all.end(), aside.begin(), aside.end(), std::back_inserter(kept));
  const Settings& settings = claims.facts().settings();
  std::string text;
  if (all.size() == 1) {
    text = sentence(words.said(claims.facts().at(all.front())));
    if (is_at_the_limits(conflict))
      text += " That does not fit between " + plain_day(settings.earliest) + " and " +
              plain_day(settings.known) + ", the limits of the inquiry.";
    else
      text += " That contradicts itself.";
  } else if (kept.empty()) {
    text = sentence("these cannot all hold: " + listed(claims, words, all));
  } else {
    text = sentence(listed(claims, words, aside) + otherwise_read(claims, readings));
    text += " " + sentence("Against that stand" + std::string(kept.size() == 1 ? "s" : "") + ": " +
                           listed(claims, words, kept));
  }
  if (!readings.empty() && least < days)
    text += " They miss each other by " + span_words(days) + ", or by " + span_words(least) +
            ", as the words are read.";
  else if (all.size() > 1)
    text += clash_words(conflict, days);
  if (!conflict.minimal) text += " They are too many to try each of them: some may have no part in it.";
  if (all.size() == 1)
    text += " It is left out of the dates shown.";
  else
    text += choice_words(dispute, aside, kept, is_less_sure(claims, kept, conflict.level)) +
            group_words(claims, words, dispute);
  return text;
}

// The same words, of the same speaker at the same spot, taken to mean two things.
bool are_readings_of_one(const Fact& one, const Fact& other) {
  const Content &a = one.content(), &b = other.content();
  if (a.subject != b.subject || one.property != other.property || a.author != b.author ||
      a.citations.empty() || a.citations.size() != b.citations.size())
    return false;
  for (std::size_t at = 0; at < a.citations.size(); ++at)
    if (a.citations[at].source != b.citations[at].source ||
        a.citations[at].locator != b.citations[at].locator ||
        a.citations[at].quote != b.citations[at].quote || trim(a.citations[at].quote).empty())
      return false;
  return true;
}

// A conflict, with those that differ from it only by another reading of what is set aside.
struct Clash {
  const Conflict* leading = nullptr;
  FactList kept;
  FactList aside;
  FactList readings;                  ///< set aside besides
  std::map<std::uint32_t, Day> miss;  ///< by how much each of the readings, the first too, misses the rest
  std::vector<const Dispute*> ways;   ///< of all of them
  Day most = 0, least = 0;
};

std::vector<Clash> clashes_of(const Claims& claims, const Solution& solution) {
  std::vector<Clash> clashes;
  for (const Conflict& conflict : solution.conflicts()) {
    const Dispute& dispute = solution.disputes().at(conflict.dispute);
    const Day days = conflict.clash / kTicksPerDay;
    Clash one{&conflict, {}, facts_of(claims, conflict.aside), {}, {}, {&dispute}, days, days};
    for (const std::uint32_t fact : one.aside) one.miss.emplace(fact, days);
    const FactList all = facts_of(claims, conflict.claims);
    std::set_difference(all.begin(), all.end(), one.aside.begin(), one.aside.end(),
                        std::back_inserter(one.kept));
    const auto same = std::find_if(clashes.begin(), clashes.end(), [&](const Clash& other) {
      return other.aside.size() == 1 && one.aside.size() == 1 && other.kept == one.kept &&
             other.leading->level == conflict.level && other.ways.front()->answers.size() == 1 &&
             dispute.answers.size() == 1 &&
             are_readings_of_one(claims.facts().at(other.aside.front()),
                                 claims.facts().at(one.aside.front()));
    });
    if (same == clashes.end()) {
      clashes.push_back(std::move(one));
      continue;
    }
    // The reading that misses the rest by more leads.
    if (days > same->most) {
      std::swap(same->leading, one.leading);
      std::swap(same->aside, one.aside);
    }
    same->readings.insert(same->readings.end(), one.aside.begin(), one.aside.end());
    same->miss.merge(one.miss);
    if (std::find(same->ways.begin(), same->ways.end(), &dispute) == same->ways.end())
      same->ways.push_back(&dispute);
    same->most = std::max(same->most, days);
    same->least = std::min(same->least, days);
  }
  return clashes;
}

// Each disputed reading has one way out: together they are one.
std::vector<std::vector<ReasonStep>> ways_of(const Claims& claims, const Words& words, const Clash& clash) {
  std::vector<std::vector<ReasonStep>> ways;
  for (const Dispute* dispute : clash.ways)
    for (const Dispute::Answer& answer : dispute->answers) {
      std::vector<ReasonStep> way = way_of(claims, words, answer);
      if (clash.readings.empty() || ways.empty())
        ways.push_back(std::move(way));
      else
        ways.front().insert(ways.front().end(), way.begin(), way.end());
    }
  return ways;
}

}  // namespace

std::vector<TimelineConflict> conflicts_of(const Claims& claims, const Words& words, const Solution& solution,
                                           const std::unordered_set<Uuid>& records,
                                           const std::set<Digest>& leaned) {
  std::vector<TimelineConflict> found;
  for (const Clash& clash : clashes_of(claims, solution)) {
    FactList aside = clash.aside;
    aside.insert(aside.end(), clash.readings.begin(), clash.readings.end());
    FactList facts = clash.kept;
    facts.insert(facts.end(), aside.begin(), aside.end());
    std::sort(facts.begin(), facts.end());
    const bool is_leaned_on = std::any_of(aside.begin(), aside.end(), [&](std::uint32_t fact) {
      return leaned.count(claims.facts().at(fact).statement.id) != 0;
    });
    if (!is_leaned_on && !touches(claims, facts, records)) continue;
    const Conflict& conflict = *clash.leading;
    const Dispute& dispute = *clash.ways.front();
    TimelineConflict& shown = found.emplace_back();
    shown.level = static_cast<Level>(conflict.level);
    for (const std::uint32_t fact : facts) {
      ReasonStep& step = shown.statements.emplace_back(words.step(claims.facts().at(fact)));
      if (const auto miss = clash.miss.find(fact); !clash.readings.empty() && miss != clash.miss.end())
        step.words += " (so read, it misses the others by " + span_words(miss->second) + ")";
    }
    for (const std::uint32_t fact : aside) shown.set_aside.push_back(claims.facts().at(fact).statement.id);
    shown.ways_out = ways_of(claims, words, clash);
    shown.fallen_with = fallen_with(claims, words, conflict, dispute);
    shown.way_taken = dispute.taken == kNone ? 0 : dispute.taken + 1;
    shown.clash_days = clash.most;
    shown.words = words_of(claims, words, conflict, dispute, clash.readings, clash.most, clash.least);
  }
  return found;
}

}  // namespace lathbook::timeline
