// Says each contradiction in words: both sides, by how much they miss each other, what was left out.
#include "plugins/timeline/conflicts.hpp"

#include <algorithm>
#include <set>

#include "core/base/text.hpp"

namespace lathbook::timeline {

namespace {

using FactList = std::vector<std::uint32_t>;

FactList facts_of(const Claims& claims, const std::vector<Cause>& causes) {
  std::set<std::uint32_t> facts;
  for (const Cause cause : causes) facts.insert(claims.at(cause).facts.begin(), claims.at(cause).facts.end());
  return {facts.begin(), facts.end()};
}

// Of facts that speak only together the least sure are what is left out.
FactList aside_of(const Claims& claims, const Conflict& conflict) {
  std::set<std::uint32_t> facts;
  for (const Cause cause : conflict.aside) {
    const Claim& claim = claims.at(cause);
    for (const std::uint32_t fact : claim.facts)
      if (claim.facts.size() == 1 || claims.facts().at(fact).level == claim.level) facts.insert(fact);
  }
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

// A quotation that brings its own full stop.
bool ends_in_stop(const std::string& text) {
  const std::string_view end = ".”";
  return text.size() >= end.size() && text.compare(text.size() - end.size(), end.size(), end) == 0;
}

std::string sentence(std::string text) {
  if (!text.empty() && text.front() >= 'a' && text.front() <= 'z')
    text.front() = static_cast<char>(text.front() - 'a' + 'A');
  return ends_in_stop(text) ? text : text + ".";
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

std::string words_of(const Claims& claims, const Words& words, const Conflict& conflict, Day days) {
  const FactList all = facts_of(claims, conflict.claims);
  const FactList aside = aside_of(claims, conflict);
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
    text = sentence(listed(claims, words, aside));
    text += " " + sentence("Against that stand" + std::string(kept.size() == 1 ? "s" : "") + ": " +
                           listed(claims, words, kept));
  }
  if (all.size() > 1) text += clash_words(conflict, days);
  if (kept.empty())
    text += all.size() == 1
                ? " It is left out of the dates shown."
                : " They are equally sure, so all are left out of the dates shown until a person rules.";
  else
    text += std::string(aside.size() == 1 ? " What is said first is the less sure and is"
                                          : " Those said first are the less sure and are") +
            " left out of the dates shown; nobody has ruled yet.";
  return text;
}

}  // namespace

std::vector<TimelineConflict> conflicts_of(const Claims& claims, const Words& words, const Solution& solution,
                                           const std::unordered_set<Uuid>& records) {
  std::vector<TimelineConflict> found;
  for (const Conflict& conflict : solution.conflicts()) {
    const FactList facts = facts_of(claims, conflict.claims);
    if (!touches(claims, facts, records)) continue;
    TimelineConflict& shown = found.emplace_back();
    shown.level = static_cast<Level>(conflict.level);
    for (const std::uint32_t fact : facts) shown.statements.push_back(words.step(claims.facts().at(fact)));
    for (const std::uint32_t fact : aside_of(claims, conflict))
      shown.set_aside.push_back(claims.facts().at(fact).statement.id);
    shown.clash_days = conflict.clash / kTicksPerDay;
    shown.words = words_of(claims, words, conflict, shown.clash_days);
  }
  return found;
}

}  // namespace lathbook::timeline
