// Basis and limits: who looked at what and how, what was sought, what could not be reached, what nobody
// looked at.
#include <algorithm>

#include "core/base/text.hpp"
#include "core/view/english.hpp"
#include "core/view/plain_words.hpp"
#include "plugins/report/build.hpp"

namespace lathbook::report {

namespace {

/// More parts than these are counted where a whole place was looked at.
constexpr std::int64_t kMostNamed = 5;

}  // namespace

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
  for (const Uuid& id : examinations) {
    const auto [told, is_new] = told_examinations_.emplace(id, &site);
    if (is_new)
      list.entries.push_back(examination(id));
    else
      list.entries.push_back(paragraph(
          {remark("examined.told", {{"code", foreign(teller_.record(id)->code)},
                                    {"where", pointing(told->second->anchor, told->second->title)}})}));
  }
  add(std::move(list));
  add_samples(site);
  std::set<Uuid> all, never;
  for (const std::size_t at : site.items) {
    if (!is_thing(at) || item(at).placement < item(at).placements) continue;
    all.insert(item(at).record.id);
    if (seen.count(item(at).record.id) == 0) never.insert(item(at).record.id);
  }
  if (!never.empty() && !examinations.empty())
    add(remark("examined.never", {{"n", static_cast<std::int64_t>(never.size())},
                                  {"left", static_cast<std::int64_t>(all.size() - never.size())},
                                  {"all", static_cast<std::int64_t>(all.size())}}));
}

Paragraph Builder::examination(const Uuid& id) {
  std::vector<int> notes;
  std::vector<std::string> what, how, who;
  std::int64_t parts = 0;
  for (const Statement& one : teller_.said(id, "examined")) {
    const auto looked_at = Uuid::parse(one.content.value);
    const auto info = looked_at ? teller_.record(*looked_at) : std::nullopt;
    parts += info && info->kind == Kind::element;
    what.push_back(teller_.value(one));
    add_notes(notes, teller_.cite(one));
  }
  // Of a whole place the parts are counted: the table of their condition names them.
  if (parts > kMostNamed && static_cast<std::size_t>(parts) < what.size()) {
    what.clear();
    for (const Statement& one : teller_.said(id, "examined"))
      if (const auto place = teller_.record(Uuid::parse(one.content.value).value_or(Uuid{}));
          place && place->kind != Kind::element)
        what.push_back(teller_.value(one));
    what.push_back(phrase("examined.parts", {{"n", parts}}));
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
  for (const std::size_t at : site.items) {
    if (item(at).placement > 1) continue;
    for (const Statement& taken : teller_.said_to(item(at).record.id, "sample-from"))
      if (teller_.record(taken.content.subject)) list.entries.push_back(sample(taken.content.subject, taken));
  }
  add(std::move(list));
}

/// What is said at the same place of the same source of other things: a report on a sample gives its results
/// there.
std::vector<Statement> Builder::results_of(const Uuid& sample, const Statement& taken) {
  std::vector<Statement> results;
  for (const Citation& citation : taken.content.citations)
    for (const Statement& said : teller_.citing(citation.source)) {
      if (said.content.subject == sample || said.content.evidence != EvidenceClass::physical) continue;
      const bool same =
          std::any_of(said.content.citations.begin(), said.content.citations.end(), [&](const Citation& one) {
            return one.source == citation.source && !one.locator.empty() && one.locator == citation.locator;
          });
      const auto info = same ? teller_.record(said.content.subject) : std::nullopt;
      if (info && (info->kind == Kind::element || info->kind == Kind::piece)) results.push_back(said);
    }
  return results;
}

// From where it was taken, and what it gave: materials and what else the laboratory says of the thing, the
// layers that it shows, and the dates that rest on it.
Paragraph Builder::sample(const Uuid& id, const Statement& taken) {
  const Uuid from = *Uuid::parse(taken.content.value);
  std::vector<int> notes = teller_.cite(taken);
  const std::string spot = teller_.said_in_words(id, "spot", notes);
  const std::string where = teller_.said_in_words(id, "laboratory", notes);
  std::vector<Sentence> told{
      sentence("sample",
               {{"code", foreign(teller_.record(id)->code)},
                {"name", foreign(inside(teller_.record(id)->name))},
                {"from", teller_.name(from)},
                {"spot", spot.empty() ? spot : ": " + spot},
                {"laboratory", where.empty() ? where : phrase("sample.laboratory", {{"who", where}})}},
               notes)};
  const std::vector<Statement> results = results_of(id, taken);
  std::vector<std::string> found;
  std::vector<Statement> said_so;
  for (const Statement& said : results) {
    const Property* property = Registry::standard().find(said.content.property);
    if (property == nullptr || property->type == ValueType::record) continue;
    found.push_back(phrase("sample.found", {{"what", std::string(property->label)},
                                            {"value", without_full_stop(teller_.value(said))},
                                            {"doubt", teller_.doubt(said)}}));
    said_so.push_back(said);
  }
  if (!found.empty())
    told.push_back(
        sentence("sample.result", {{"what", join(found, "; ")}}, teller_.notes().cite_together(said_so)));
  if (auto layers = layers_in(from, id)) told.push_back(std::move(*layers));
  std::vector<std::string> dated;
  for (const TimelineItem& one : material_.timeline.items)
    for (const Bound* bound : {&one.begins.earliest, &one.begins.latest})
      for (const ReasonStep& step : bound->reason)
        for (const Statement& said : results)
          if (bound->known && step.statement == said.id) add_once(dated, teller_.name(one.record.id));
  if (!dated.empty()) told.push_back(remark("sample.dates", {{"names", listing(dated)}}));
  if (told.size() == 1) told.push_back(remark("sample.no-result"));
  std::vector<int> kept;
  if (const std::string rest = teller_.said_in_words(id, "remainder", kept); !rest.empty())
    told.push_back(sentence("sample.remainder", {{"where", rest}}, kept));
  return paragraph(std::move(told));
}

/// "It shows 8 layers, from pinkish white to white": of a thing whose layers were read in a sample.
std::optional<Sentence> Builder::layers_in(const Uuid& from, const Uuid& id) {
  if (material_.layers == nullptr) return std::nullopt;
  for (const FinishSequence& sequence : material_.layers->sequences) {
    const bool own = sequence.sample.id == id;
    if (sequence.element.id != from || sequence.coats.empty() || (sequence.sample.id != Uuid{} && !own))
      continue;
    const std::vector<FinishCoat>& coats = sequence.coats;
    std::vector<Statement> said;
    for (const FinishCoat& coat : coats)
      for (const Digest& one : coat.said)
        if (const auto found = teller_.statement(one)) said.push_back(*found);
    const auto words = [](const FinishCoat& coat) {
      const std::string colour = foreign(coat.colour.empty() ? coat.role : coat.colour);
      return colour + (coat.munsell.empty() ? "" : " (" + foreign(coat.munsell) + ")");
    };
    return sentence("sample.layers",
                    {{"n", static_cast<std::int64_t>(coats.size())},
                     {"first", words(coats.front())},
                     {"last", words(coats.back())}},
                    teller_.notes().cite_together(said));
  }
  return std::nullopt;
}

}  // namespace lathbook::report
