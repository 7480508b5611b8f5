// Statements that cannot all hold, told on both sides; what a person has set aside.
#include <algorithm>
#include <limits>

#include "core/base/calendar.hpp"
#include "core/base/text.hpp"
#include "core/view/english.hpp"
#include "core/view/plain_words.hpp"
#include "plugins/report/build.hpp"

namespace lathbook::report {

namespace {

bool among(const std::vector<Digest>& ids, const Digest& id) {
  return std::find(ids.begin(), ids.end(), id) != ids.end();
}

/// The day on which it was entered, by the clock of its writer.
Day day_of_entry(const Statement& said) {
  const Moment& entered = said.header.entered;
  return (entered.seconds + 60 * entered.offset_minutes) / 86400;
}

}  // namespace

// They are told as one where one statement is left out of both, or statements that one person made at one
// place of one source, such as two readings of one memory.
bool Builder::are_one(const TimelineConflict& one, const TimelineConflict& other) const {
  for (const Digest& id : one.set_aside) {
    if (among(other.set_aside, id)) return true;
    const auto mine = teller_.statement(id);
    if (!mine || mine->content.citations.empty()) continue;
    for (const Digest& other_id : other.set_aside) {
      const auto theirs = teller_.statement(other_id);
      if (!theirs || theirs->content.citations.empty()) continue;
      const Citation &a = mine->content.citations.front(), &b = theirs->content.citations.front();
      if (a.source == b.source && a.locator == b.locator && mine->content.author == theirs->content.author &&
          mine->content.subject == theirs->content.subject)
        return true;
    }
  }
  return false;
}

// Each belongs to the first place of which a thing is spoken of in it; all the rest to the last.
void Builder::number_contradictions() {
  const auto& conflicts = material_.timeline.conflicts;
  std::vector<std::vector<std::size_t>> groups;
  for (std::size_t at = 0; at < conflicts.size(); ++at) {
    std::vector<std::size_t> joined{at};
    std::vector<std::vector<std::size_t>> others;
    for (std::vector<std::size_t>& group : groups) {
      const bool same = std::any_of(group.begin(), group.end(), [&](std::size_t other) {
        return are_one(conflicts[at], conflicts[other]);
      });
      if (same)
        joined.insert(joined.begin(), group.begin(), group.end());
      else
        others.push_back(std::move(group));
    }
    others.push_back(std::move(joined));
    groups = std::move(others);
  }
  const auto is_of = [&](const Site& site, const std::vector<std::size_t>& group) {
    for (const std::size_t at : group)
      for (const ReasonStep& step : conflicts[at].statements) {
        const auto said = teller_.statement(step.statement);
        if (said && (is_of_site(site, said->content.subject) || said->content.subject == site.place.id))
          return true;
      }
    return false;
  };
  for (std::size_t site = 0; site < sites_.size(); ++site)
    for (std::vector<std::size_t>& group : groups) {
      if (group.empty() || (site + 1 < sites_.size() && !is_of(sites_[site], group))) continue;
      const std::size_t number = contradictions_.size() + 1;
      contradictions_.push_back({std::move(group), site, number, "contradiction-" + std::to_string(number)});
      group.clear();
    }
  for (const Contradiction& one : contradictions_)
    for (const std::size_t at : one.conflicts) {
      for (const ReasonStep& step : conflicts[at].statements) disputed_[step.statement].insert(one.number);
      for (const ReasonStep& step : conflicts[at].fallen_with) disputed_[step.statement].insert(one.number);
      left_out_.insert(conflicts[at].set_aside.begin(), conflicts[at].set_aside.end());
      for (const ReasonStep& step : conflicts[at].fallen_with) left_out_.insert(step.statement);
    }
  if (!left_out_.empty()) find_nearest();
}

/// "contradiction 2 and contradiction 5", each pointing to where it is told; empty for none.
std::string Builder::see(const std::set<std::size_t>& numbers) const {
  std::vector<std::string> words;
  for (const std::size_t number : numbers)
    words.push_back(pointing(contradictions_[number - 1].anchor,
                             phrase("contradiction.number", {{"n", static_cast<std::int64_t>(number)}})));
  return listing(words);
}

// From what was left out to the things and sources that statements join with it, step by step.
void Builder::find_nearest() {
  std::map<Uuid, std::set<Uuid>> joined;
  const auto counts = [&](const Uuid& id) {
    const auto info = teller_.record(id);
    return info && (info->kind == Kind::element || info->kind == Kind::finish || info->kind == Kind::source);
  };
  teller_.reader().each_statement({}, [&](const Statement& said) {
    const Property* property = Registry::standard().find(said.content.property);
    if (said.presence != Presence::present || property == nullptr || property->type != ValueType::record)
      return true;
    const auto other = Uuid::parse(said.content.value);
    if (!other || !counts(said.content.subject) || !counts(*other)) return true;
    joined[said.content.subject].insert(*other);
    joined[*other].insert(said.content.subject);
    return true;
  });
  std::vector<Uuid> reached;
  for (const Digest& id : left_out_)
    if (const auto said = teller_.statement(id)) {
      Nearest& one = nearest_[said->content.subject];
      one.numbers.insert(disputed_[id].begin(), disputed_[id].end());
      reached.push_back(said->content.subject);
    }
  for (std::size_t steps = 1; !reached.empty(); ++steps) {
    std::vector<Uuid> next;
    for (const Uuid& from : reached)
      for (const Uuid& to : joined[from]) {
        const auto [at, is_new] = nearest_.try_emplace(to, Nearest{steps, {}});
        if (is_new) next.push_back(to);
        if (at->second.steps == steps)
          at->second.numbers.insert(nearest_[from].numbers.begin(), nearest_[from].numbers.end());
      }
    reached = std::move(next);
  }
}

// A date that would be another without a contradiction leans on what that contradiction keeps, or else is
// pointed to the nearest one.
std::string Builder::when(const Span& span) {
  std::set<std::size_t> numbers, near;
  std::size_t closest = std::numeric_limits<std::size_t>::max();
  for (const Bound* bound : {&span.earliest, &span.latest}) {
    if (!bound->known || !bound->leaned) continue;
    for (const ReasonStep& step : bound->reason) {
      if (const auto found = disputed_.find(step.statement); found != disputed_.end())
        numbers.insert(found->second.begin(), found->second.end());
      const auto said = teller_.statement(step.statement);
      const auto found = said ? nearest_.find(said->content.subject) : nearest_.end();
      if (found == nearest_.end() || found->second.steps > closest) continue;
      if (found->second.steps < closest) near.clear();
      closest = found->second.steps;
      near.insert(found->second.numbers.begin(), found->second.numbers.end());
    }
  }
  if (numbers.empty()) numbers = std::move(near);
  return report::when(
      span, teller_.about(span),
      numbers.empty() ? phrase("contested") : phrase("contested.see", {{"which", see(numbers)}}));
}

/// Who decided a thing, when, and why, as a sentence; nothing where nobody is named and no reason is given.
std::optional<Sentence> Builder::decision(const Statement& said, const std::string& key) {
  const Content& content = said.content;
  std::string who;
  for (const auto& agent : {content.author, content.recorder})
    if (who.empty() && agent && teller_.record(*agent)) who = teller_.name(*agent);
  const std::string_view reason = content.qualifier("reason");
  const std::string why = without_full_stop(foreign(reason.empty() ? std::string_view(content.why) : reason));
  if (who.empty() && why.empty()) return std::nullopt;
  const std::string day =
      content.said_on.empty() ? plain_day(day_of_entry(said)) : date_in_words(content.said_on);
  return sentence(key,
                  {{"who", who.empty() ? phrase("authored.unknown") : who},
                   {"day", telling(kDate, foreign(day))},
                   {"why", why},
                   {"what", key == "judged" ? teller_.claim(said) : std::string()},
                   {"told", std::string(why.empty() ? "no" : "yes")}},
                  teller_.cite(said));
}

bool Builder::is_ruled_out(const Statement& said) const {
  return std::any_of(rulings_.begin(), rulings_.end(),
                     [&](const Statement& ruling) { return ruling.content.value == said.id.hex(); });
}

bool Builder::is_left_out(const Statement& said) const {
  return left_out_.count(said.id) != 0 && disputed_.count(said.id) != 0;
}

/// Who ruled that a statement takes no part in the dates.
std::optional<Sentence> Builder::fate(const Statement& said) {
  for (const Statement& ruling : rulings_)
    if (ruling.content.value == said.id.hex())
      if (auto words = decision(ruling, "ruling.beside")) return words;
  return std::nullopt;
}

void Builder::add_contradictions(const Site& site) {
  section(2, "heading.contradictions", [&] {
    for (const Contradiction& one : contradictions_)
      if (&sites_[one.site] == &site) add_contradiction(site, one);
  });
  section(2, "heading.rulings", [&] { add_rulings(&site); });
}

Sentence Builder::side(const ReasonStep& step, std::int64_t clash) {
  const auto said = teller_.statement(step.statement);
  std::string words = foreign(step.words);
  if (!said) {
    Sentence one = as_sentence(words);
    one.of_report = true;
    return one;
  }
  if (words.empty()) words = teller_.claim(*said);
  const Content& content = said->content;
  const std::string who =
      content.author && teller_.record(*content.author) ? teller_.name(*content.author) : std::string();
  const std::string day = foreign(date_in_words(content.said_on));
  words += " " +
           phrase("contradiction.basis", {{"class", std::string(word(content.evidence))},
                                          {"confidence", std::string(word(content.confidence))},
                                          {"who", who},
                                          {"told", std::string(who.empty() ? "no" : "yes")},
                                          {"day", telling(kDate, day)},
                                          {"dated", std::string(who.empty() || day.empty() ? "no" : "yes")}});
  words = with_full_stop(words);
  // Why a slip was corrected says nothing of the thing.
  if (!content.why.empty() && content.targets.empty())
    words += " " + phrase("reason", {{"why", with_full_stop(foreign(content.why))}});
  if (clash > 0)
    words += " " + phrase("contradiction.clash-of", {{"span", telling(kDate, duration_words(clash))}});
  return as_sentence(words, teller_.cite(*said));
}

void Builder::add_contradiction(const Site& site, const Contradiction& told) {
  const auto& all = material_.timeline.conflicts;
  std::vector<std::string> names;
  std::vector<ReasonStep> kept, aside;
  std::vector<int> notes;
  const auto put = [&](std::vector<ReasonStep>& side, const ReasonStep& step) {
    if (std::find(side.begin(), side.end(), step) != side.end()) return;
    side.push_back(step);
    const auto said = teller_.statement(step.statement);
    if (!said) return;
    add_notes(notes, teller_.cite(*said));
    const std::string name = teller_.name(said->content.subject);
    if (std::find(names.begin(), names.end(), name) == names.end())
      names.insert(is_of_site(site, said->content.subject) ? names.begin() : names.end(), name);
  };
  for (const std::size_t at : told.conflicts) {
    for (const ReasonStep& step : all[at].statements)
      put(left_out_.count(step.statement) != 0 ? aside : kept, step);
    for (const ReasonStep& step : all[at].fallen_with) put(aside, step);
  }
  chapter_.blocks.emplace_back(
      Heading{3,
              capital(without_marks(phrase("contradiction.heading",
                                           {{"number", static_cast<std::int64_t>(told.number)},
                                            {"names", names.empty() ? std::string("–") : names.front()}}))),
              told.anchor});
  const bool preferred = !kept.empty() && !aside.empty();
  std::vector<Sentence> opening{sentence(
      "contradiction.head",
      {{"n", static_cast<std::int64_t>(kept.size() + aside.size())}, {"names", listing(names)}}, notes)};
  const std::int64_t clash = all[told.conflicts.front()].clash_days;
  if (told.conflicts.size() == 1)
    opening.push_back(clash < 1 ? sentence("contradiction.circle", {}, notes)
                                : sentence("contradiction.clash",
                                           {{"span", telling(kDate, duration_words(clash))}}, notes));
  add(paragraph(std::move(opening)));
  const auto list = [&](const char* key, const std::vector<ReasonStep>& steps) {
    if (steps.empty()) return;
    add(remark(key));
    List told_steps;
    for (const ReasonStep& step : steps) {
      // Of several clashes told as one each has its own width.
      std::int64_t miss = 0;
      if (told.conflicts.size() > 1)
        for (const std::size_t at : told.conflicts)
          if (among(all[at].set_aside, step.statement)) miss = std::max(miss, all[at].clash_days);
      told_steps.entries.push_back(paragraph({side(step, miss)}));
    }
    add(std::move(told_steps));
  };
  list(preferred ? "contradiction.one-side" : "contradiction.all", kept.empty() ? aside : kept);
  if (preferred) list("contradiction.other-side", aside);
  std::vector<Sentence> close = outcome(told, kept, aside);
  close.push_back(remark("contradiction.beside", {{"names", listing(names)}}));
  add(paragraph(std::move(close)));
}

// Who left it out, when, and why.
std::vector<Sentence> Builder::outcome(const Contradiction& told, const std::vector<ReasonStep>& kept,
                                       const std::vector<ReasonStep>& aside) {
  if (aside.empty()) return {remark("contradiction.none-aside")};
  if (kept.empty()) return {remark("contradiction.all-aside")};
  const auto doubt = [&](const ReasonStep& step) {
    const auto said = teller_.statement(step.statement);
    return said ? said->content.confidence : Confidence::none;
  };
  Confidence surest = Confidence::conjecture, least = Confidence::none;
  for (const ReasonStep& step : aside) surest = std::min(surest, doubt(step));
  for (const ReasonStep& step : kept) least = std::max(least, doubt(step));
  std::size_t ways = 0;
  bool chosen = true;
  for (const std::size_t at : told.conflicts) {
    ways = std::max(ways, material_.timeline.conflicts[at].ways_out.size());
    chosen = chosen && material_.timeline.conflicts[at].way_taken != 0;
  }
  const std::string key = !chosen          ? "contradiction.undecided"
                          : least < surest ? "contradiction.less-sure"
                                           : "contradiction.least";
  std::vector<Sentence> said{remark(key, {{"n", static_cast<std::int64_t>(aside.size())},
                                          {"kept", std::string(word(least))},
                                          {"aside", std::string(word(surest))},
                                          {"ways", static_cast<std::int64_t>(ways)}})};
  said.push_back(remark("contradiction.open"));
  return said;
}

// Rulings about things of the site; about everything else when no site is given.
void Builder::add_rulings(const Site* site) {
  List list;
  for (const Statement& ruling : rulings_) {
    const auto id = Digest::from_hex(ruling.content.value);
    const auto target = id ? teller_.statement(*id) : std::nullopt;
    if (!target) continue;
    const bool here = std::any_of(sites_.begin(), sites_.end(), [&](const Site& one) {
      return is_of_site(one, target->content.subject) || one.place.id == target->content.subject;
    });
    const bool mine = site != nullptr && (is_of_site(*site, target->content.subject) ||
                                          site->place.id == target->content.subject);
    if (site == nullptr ? here : !mine) continue;
    std::vector<Sentence> told{sentence("ruling", {{"what", teller_.claim(*target)}}, teller_.cite(*target))};
    if (auto words = decision(ruling, "ruling.beside")) told.push_back(std::move(*words));
    list.entries.push_back(paragraph(std::move(told)));
  }
  add(std::move(list));
}

// Rulings that are in force.
void Builder::find_rulings() {
  const auto& ruled = material_.timeline.set_aside_by_ruling;
  for (const Statement& ruling : teller_.all("set-aside")) {
    const auto id = Digest::from_hex(ruling.content.value);
    const auto target = id ? teller_.statement(*id) : std::nullopt;
    if (target && std::find(ruled.begin(), ruled.end(), target->name()) != ruled.end())
      rulings_.push_back(ruling);
  }
}

}  // namespace lathbook::report
