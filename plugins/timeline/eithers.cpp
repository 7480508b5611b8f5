// Reads the cases of choices off the solution and tells them.
#include "plugins/timeline/eithers.hpp"

#include <algorithm>

#include "core/base/text.hpp"

namespace lathbook::timeline {

namespace {

// 'Of three cases two are left: it was gone by then; it was not there yet. Ruled out: ...'
std::string told_words(const TimelineEither& either, const std::string& subject) {
  std::vector<std::string> left, out;
  for (const TimelineCase& one : either.cases) {
    if (one.holds != Membership::no) {
      left.push_back(one.words);
      continue;
    }
    std::vector<std::string> reasons;
    for (const ReasonStep& step : one.against) reasons.push_back(step.words);
    out.push_back(one.words + (reasons.empty() ? "" : ", since " + join(reasons, "; ")));
  }
  std::string words = subject + ". ";
  if (either.cases.size() == 1) return words + capital(left.front()) + ".";
  if (out.empty())
    words += capital(number_words(static_cast<Day>(left.size()))) + " cases are open: ";
  else
    words += "Of " + number_words(static_cast<Day>(either.cases.size())) + " cases " +
             number_words(static_cast<Day>(left.size())) + (left.size() == 1 ? " is" : " are") + " left: ";
  words += join(left, "; ") + ".";
  for (const std::string& one : out) words += " Ruled out: " + one + ".";
  if (!either.all_tried) words += " The cases are too many to try them all with one another.";
  return words;
}

}  // namespace

std::string Eithers::case_words(const CaseMeaning& meaning) const {
  switch (meaning.sort) {
    case CaseSort::gone:
      return "it was gone by then";
    case CaseSort::not_yet:
      return "it was not there yet";
    case CaseSort::hidden:
      return "it was behind " + words_.name(meaning.other);
    case CaseSort::after:
      return "it came when " + words_.name(meaning.other) + " was gone";
    case CaseSort::before:
      return "it was gone when " + words_.name(meaning.other) + " came";
    case CaseSort::in_place:
      break;
  }
  return "it was in " + words_.name(meaning.other);
}

Membership Eithers::holds(const Either& either, std::uint32_t alternative) const {
  const std::uint32_t chosen = solution_.chosen(either.choice, level_);
  if (chosen != kNone) return chosen == alternative ? Membership::certain : Membership::no;
  const auto refuted = solution_.refuted(either.choice, level_);
  const bool is_out = std::any_of(refuted.begin(), refuted.end(),
                                  [&](const Refutation& one) { return one.alternative == alternative; });
  return is_out ? Membership::no : Membership::possible;
}

void Eithers::add_claims(const std::vector<Cause>& causes, const Either& either,
                         std::vector<ReasonStep>& steps) const {
  const auto& own = claims_.at(either.cause).facts;
  for (const Cause cause : causes) {
    if (cause == kStructural || cause == kHorizon || cause == either.cause) continue;
    for (const std::uint32_t fact : claims_.at(cause).facts) {
      const ReasonStep step = words_.step(claims_.facts().at(fact));
      if (std::find(own.begin(), own.end(), fact) == own.end() &&
          std::find(steps.begin(), steps.end(), step) == steps.end())
        steps.push_back(step);
    }
  }
}

std::vector<ReasonStep> Eithers::against(const Either& either, std::uint32_t alternative) const {
  std::vector<ReasonStep> steps;
  for (const Refutation& refutation : solution_.refuted(either.choice, level_)) {
    if (refutation.alternative != alternative) continue;
    std::vector<Cause> causes;
    for (const Step& step : refutation.loop) causes.push_back(step.cause);
    add_claims(causes.empty() ? refutation.claims : causes, either, steps);
  }
  return steps;
}

// No case asks anything of the dates: there is nothing to try.
bool Eithers::asks_nothing(std::uint32_t choice) const {
  const Network::ChoiceRow& row = claims_.network().choices()[choice];
  const auto& alternatives = claims_.network().alternatives();
  return alternatives[row.first_alternative].first_option == alternatives[row.end_alternative - 1].end_option;
}

TimelineEither Eithers::told(const Either& either) const {
  TimelineEither shown;
  for (const std::uint32_t fact : claims_.at(either.cause).facts)
    shown.statements.push_back(words_.step(claims_.facts().at(fact)));
  for (std::uint32_t at = 0; at < either.cases.size(); ++at) {
    TimelineCase& one = shown.cases.emplace_back();
    one.words = case_words(either.cases[at]);
    one.record = either.cases[at].other;
    one.holds = holds(either, at);
    if (one.holds == Membership::no) one.against = against(either, at);
  }
  shown.all_tried = solution_.choice_state(either.choice, level_) == ChoiceState::decided ||
                    solution_.is_exact(either.choice, level_) || asks_nothing(either.choice);
  std::string subject;
  for (const std::uint32_t fact : claims_.at(either.cause).facts)
    subject += (subject.empty() ? "" : "; ") + words_.of(claims_.facts().at(fact));
  shown.words = told_words(shown, capital(subject));
  return shown;
}

std::vector<TimelineEither> Eithers::of(const Uuid& record, int placement) const {
  std::vector<TimelineEither> found;
  for (const Either& either : claims_.eithers_of(record)) {
    if (either.placement != 0 && either.placement != placement) continue;
    if (solution_.choice_state(either.choice, level_) == ChoiceState::unused) continue;
    found.push_back(told(either));
  }
  return found;
}

bool Eithers::may_be_in(const Uuid& record, const std::vector<Uuid>& places) const {
  for (const Either& either : claims_.eithers_of(record)) {
    if (solution_.choice_state(either.choice, level_) == ChoiceState::unused) continue;
    for (std::uint32_t at = 0; at < either.cases.size(); ++at)
      if (either.cases[at].sort == CaseSort::in_place && holds(either, at) != Membership::no &&
          std::find(places.begin(), places.end(), either.cases[at].other) != places.end())
        return true;
  }
  return false;
}

}  // namespace lathbook::timeline
