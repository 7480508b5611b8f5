// Basis and limits: who looked at what and how, what was sought, what could not be reached, what nobody
// looked at.
#include <algorithm>

#include "core/base/text.hpp"
#include "core/view/english.hpp"
#include "plugins/report/build.hpp"

namespace lathbook::report {

void Builder::add_examined(const Site& site) {
  const std::vector<Uuid> looked_at = records_of(site);
  std::vector<Uuid> examinations;
  std::set<Uuid> seen;
  for (const Uuid& one : looked_at)
    for (const Statement& examined : teller_.said_to(one, "examined")) {
      const Uuid id = examined.content.subject;
      if (!teller_.record(id)) continue;
      seen.insert(one);
      if (std::find(examinations.begin(), examinations.end(), id) == examinations.end())
        examinations.push_back(id);
    }
  std::sort(examinations.begin(), examinations.end(), [&](const Uuid& a, const Uuid& b) {
    return compare_for_people(teller_.record(a)->code, teller_.record(b)->code) < 0;
  });
  if (examinations.empty()) {
    add(remark(site.at_large ? "examined.none-building" : "examined.none-room"));
  }
  List list;
  for (const Uuid& id : examinations) list.entries.push_back(examination(id));
  add(std::move(list));
  add_samples(site);
  std::vector<std::string> never;
  std::set<Uuid> named;
  for (const std::size_t at : site.items)
    if (is_thing(at) && seen.count(item(at).record.id) == 0 && named.insert(item(at).record.id).second)
      never.push_back(teller_.name(item(at).record.id));
  if (!never.empty() && !examinations.empty()) add(remark("examined.never", {{"names", listing(never)}}));
}

Paragraph Builder::examination(const Uuid& id) {
  std::vector<int> notes;
  std::vector<std::string> what, how, who;
  for (const Statement& one : teller_.said(id, "examined")) {
    what.push_back(teller_.value(one));
    add_notes(notes, teller_.cite(one));
  }
  for (const Statement& one : teller_.said(id, "method"))
    how.push_back(
        phrase("method", {{"how", choice(one.content.value)}, {"words", foreign(one.content.value)}}));
  for (const Statement& one : teller_.said(id, "examined-by")) who.push_back(teller_.value(one));
  std::string day;
  for (const Statement& one : teller_.said(id, "examined-on")) day = teller_.value(one);
  std::vector<Sentence> told;
  told.push_back(
      sentence(day.empty() ? "examined.head" : "examined.head-on",
               {{"day", day},
                {"whole", std::string(std::count(day.begin(), day.end(), ' ') == 2 ? "yes" : "no")},
                {"who", who.empty() ? phrase("examined.somebody") : listing(who)},
                {"what", listing(what)},
                {"how", how.empty() ? std::string() : " " + listing(how)},
                {"code", foreign(teller_.record(id)->code)}},
               notes));
  std::map<std::string, std::vector<std::string>> outcomes;
  std::map<std::string, std::vector<int>> outcome_notes;
  for (const Statement& one : teller_.said(id, "sought")) {
    const std::string outcome(one.content.qualifier("outcome"));
    outcomes[outcome].push_back(foreign(one.content.value));
    add_notes(outcome_notes[outcome], teller_.cite(one));
  }
  for (const char* outcome : {"found", "looked, none", "could not tell", "not looked"})
    if (const auto found = outcomes.find(outcome); found != outcomes.end())
      told.push_back(sentence("outcome." + std::string(outcome), {{"what", join(found->second, "; ")}},
                              outcome_notes[outcome]));
  std::vector<int> limits;
  std::vector<std::string> unreached;
  for (const Statement& one : teller_.said(id, "not-reached")) {
    unreached.push_back(foreign(one.content.value));
    add_notes(limits, teller_.cite(one));
  }
  if (!unreached.empty())
    told.push_back(sentence("examined.not-reached", {{"what", join(unreached, "; ")}}, limits));
  for (const Statement& note : teller_.said(id, "note"))
    told.push_back(as_sentence(foreign(note.content.value), teller_.cite(note)));
  return paragraph(std::move(told));
}

void Builder::add_samples(const Site& site) {
  List list;
  for (const std::size_t at : site.items)
    for (const Statement& taken : teller_.said_to(item(at).record.id, "sample-from")) {
      const Uuid id = taken.content.subject;
      const auto info = teller_.record(id);
      if (!info) continue;
      std::vector<int> notes = teller_.cite(taken);
      const std::string spot = teller_.said_in_words(id, "spot", notes);
      const std::string where = teller_.said_in_words(id, "laboratory", notes);
      list.entries.push_back(paragraph(
          {sentence("sample",
                    {{"code", foreign(info->code)},
                     {"name", foreign(inside(info->name))},
                     {"from", teller_.name(item(at).record.id)},
                     {"spot", spot.empty() ? spot : ": " + spot},
                     {"laboratory", where.empty() ? where : phrase("sample.laboratory", {{"who", where}})}},
                    notes)}));
    }
  add(std::move(list));
}

}  // namespace lathbook::report
