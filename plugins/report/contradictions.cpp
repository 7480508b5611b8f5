// Statements that cannot all hold, told on both sides; what a person has set aside.
#include <algorithm>

#include "core/base/text.hpp"
#include "core/view/english.hpp"
#include "plugins/report/build.hpp"

namespace lathbook::report {

namespace {

bool among(const std::vector<Digest>& ids, const Digest& id) {
  return std::find(ids.begin(), ids.end(), id) != ids.end();
}

}  // namespace

std::vector<std::size_t> Builder::conflicts_of(const Site& site) {
  std::vector<std::size_t> found;
  for (std::size_t at = 0; at < material_.timeline.conflicts.size(); ++at) {
    if (told_conflicts_.count(at) != 0) continue;
    const TimelineConflict& conflict = material_.timeline.conflicts[at];
    // It belongs where the thing is told that is spoken of first; all the rest is told with the building.
    bool here = false;
    for (const ReasonStep& step : conflict.statements) {
      const auto said = teller_.statement(step.statement);
      here = here ||
             (said && (is_of_site(site, said->content.subject) || said->content.subject == site.place.id));
    }
    if (here) found.push_back(at);
  }
  return found;
}

void Builder::add_contradictions(const Site& site) {
  for (const std::size_t at : conflicts_of(site)) {
    told_conflicts_.insert(at);
    add_contradiction(site, material_.timeline.conflicts[at], told_conflicts_.size());
  }
  if (&site == &sites_.back())
    for (std::size_t at = 0; at < material_.timeline.conflicts.size(); ++at)
      if (told_conflicts_.insert(at).second)
        add_contradiction(site, material_.timeline.conflicts[at], told_conflicts_.size());
  add_rulings(&site);
}

void Builder::add_contradiction(const Site& site, const TimelineConflict& conflict, std::size_t number) {
  std::vector<std::string> names;
  std::vector<Sentence> kept, aside;
  std::vector<int> notes;
  const auto side = [&](const ReasonStep& step) {
    const auto said = teller_.statement(step.statement);
    std::vector<int> cited;
    std::string words = foreign(step.words);
    if (said) {
      cited = teller_.cite(*said);
      if (words.empty()) words = teller_.claim(*said);
      const std::string name = teller_.name(said->content.subject);
      const bool here = is_of_site(site, said->content.subject);
      if (std::find(names.begin(), names.end(), name) == names.end())
        names.insert(here ? names.begin() : names.end(), name);
      std::string who;
      if (said->content.author && teller_.record(*said->content.author))
        who = teller_.name(*said->content.author);
      words +=
          " " + phrase("contradiction.basis", {{"class", std::string(word(said->content.evidence))},
                                               {"confidence", std::string(word(said->content.confidence))},
                                               {"who", who},
                                               {"told", std::string(who.empty() ? "no" : "yes")}});
    }
    Sentence one = as_sentence(words, cited);
    if (said && !said->content.why.empty()) {
      std::string why = foreign(said->content.why);
      if (!why.ends_with('.')) why += '.';
      one.runs.push_back({" " + why, kNothing, false});
    }
    if (!said) one.of_report = true;
    add_notes(notes, cited);
    return one;
  };
  for (const ReasonStep& step : conflict.statements)
    (among(conflict.set_aside, step.statement) ? aside : kept).push_back(side(step));
  for (const ReasonStep& step : conflict.fallen_with) aside.push_back(side(step));
  chapter_.blocks.emplace_back(
      Heading{3,
              capital(without_marks(phrase("contradiction.heading",
                                           {{"number", static_cast<std::int64_t>(number)},
                                            {"names", names.empty() ? std::string("–") : names.front()}}))),
              {}});
  std::vector<Sentence> opening;
  opening.push_back(sentence(
      "contradiction.head",
      {{"n", static_cast<std::int64_t>(conflict.statements.size())}, {"names", listing(names)}}, notes));
  opening.push_back(conflict.clash_days < 1
                        ? sentence("contradiction.circle", {}, notes)
                        : sentence("contradiction.clash",
                                   {{"span", telling(kDate, duration_words(conflict.clash_days))}}, notes));
  add(paragraph(std::move(opening)));
  const auto list = [&](const char* key, std::vector<Sentence>& sentences) {
    if (sentences.empty()) return;
    add(remark(key));
    List told;
    for (Sentence& one : sentences) told.entries.push_back(paragraph({std::move(one)}));
    add(std::move(told));
  };
  const bool preferred = !kept.empty() && !aside.empty();
  list(preferred ? "contradiction.one-side" : "contradiction.all", kept.empty() ? aside : kept);
  if (preferred) list("contradiction.other-side", aside);
  std::vector<Sentence> outcome{remark(conflict.set_aside.empty() ? "contradiction.none-aside"
                                       : preferred                ? "contradiction.some-aside"
                                                                  : "contradiction.all-aside")};
  if (conflict.ways_out.size() > 1)
    outcome.push_back(
        remark("contradiction.ways", {{"n", static_cast<std::int64_t>(conflict.ways_out.size())}}));
  add(paragraph(std::move(outcome)));
  if (List beside = said_beside(conflict); !beside.entries.empty()) {
    add(remark("contradiction.beside"));
    add(std::move(beside));
  }
}

// What else is said of the things spoken of, and clashes with nothing: the reader must see that, too.
List Builder::said_beside(const TimelineConflict& conflict) {
  std::vector<Digest> part_of_it;
  for (const TimelineConflict& one : material_.timeline.conflicts)
    for (const ReasonStep& step : one.statements) part_of_it.push_back(step.statement);
  List list;
  for (const ReasonStep& step : conflict.statements) {
    const auto said = teller_.statement(step.statement);
    if (!said || !told_beside_.insert(said->content.subject).second) continue;
    for (std::size_t at = 0; at < material_.timeline.items.size(); ++at) {
      if (item(at).record.id != said->content.subject || !is_thing(at)) continue;
      std::vector<Sentence> more = evidence(at, part_of_it);
      if (more.empty()) break;
      more.insert(more.begin(), as_sentence(teller_.name(item(at).record.id) + ":"));
      list.entries.push_back(paragraph(std::move(more)));
      break;
    }
  }
  return list;
}

// Rulings about things of the site; about everything else when no site is given.
void Builder::add_rulings(const Site* site) {
  const auto& ruled = material_.timeline.set_aside_by_ruling;
  List list;
  if (ruled.empty()) return;
  for (const Statement& ruling : teller_.all("set-aside")) {
    const auto id = Digest::from_hex(ruling.content.value);
    const auto target = id ? teller_.statement(*id) : std::nullopt;
    if (!target || std::find(ruled.begin(), ruled.end(), target->name()) == ruled.end()) continue;
    const bool here = std::any_of(sites_.begin(), sites_.end(), [&](const Site& one) {
      return is_of_site(one, target->content.subject) || one.place.id == target->content.subject;
    });
    const bool mine = site != nullptr && (is_of_site(*site, target->content.subject) ||
                                          site->place.id == target->content.subject);
    if (site == nullptr ? here : !mine) continue;
    std::string who = phrase("authored.unknown");
    if (ruling.content.author && teller_.record(*ruling.content.author))
      who = teller_.name(*ruling.content.author);
    else if (ruling.content.recorder && teller_.record(*ruling.content.recorder))
      who = teller_.name(*ruling.content.recorder);
    std::vector<int> notes = teller_.cite(*target);
    add_notes(notes, teller_.cite(ruling));
    list.entries.push_back(paragraph({sentence("ruling",
                                               {{"what", teller_.claim(*target)},
                                                {"who", who},
                                                {"why", foreign(ruling.content.qualifier("reason"))}},
                                               notes)}));
  }
  if (list.entries.empty()) return;
  heading(3, "heading.rulings");
  add(std::move(list));
}

}  // namespace lathbook::report
