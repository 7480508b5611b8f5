// The first page: what this is, on which state of the archive it stands, whose names appear, what is left
// out.
#include <algorithm>
#include <set>

#include "core/base/calendar.hpp"
#include "core/base/text.hpp"
#include "core/view/english.hpp"
#include "core/view/plain_words.hpp"
#include "plugins/report/build.hpp"

namespace lathbook::report {

namespace {

std::string trusted(Level level) {
  return level == Level::certain    ? "front.trusted-certain"
         : level == Level::probable ? "front.trusted-probable"
                                    : "front.trusted-possible";
}

}  // namespace

void Builder::add_front() {
  begin("front", phrase("chapter.front"));
  const Reading& reading = material_.timeline.reading;
  std::vector<Sentence> made;
  made.push_back(remark("front.made", {{"place", document_.subject}, {"archive", document_.archive}}));
  made.push_back(remark(reading.is_head ? "front.known" : "front.known-older", {{"day", document_.known}}));
  made.push_back(remark("front.again"));
  if (!options_.rooms.empty()) made.push_back(remark("front.rooms", {{"rooms", listing(options_.rooms)}}));
  add(paragraph(std::move(made)));
  add(remark(trusted(material_.timeline.level)));
  if (reading.with_private) chapter_.blocks.emplace_back(Warning{paragraph({remark("front.private")})});
  List left_out;
  for (const Digest& id : material_.leave_out)
    if (const auto one = teller_.statement(id))
      left_out.entries.push_back(paragraph({sentence(
          "front.left-out", {{"what", teller_.claim(*one)}, {"name", one->name()}}, teller_.cite(*one))}));
  add(std::move(left_out));
  section(2, "heading.withheld", [&] { add_withheld(); });
  for (const char* part : {"summary", "administrative data"})
    add_authored(material_.timeline.scope.id, part, 2);
  section(2, "heading.names", [&] { add_building_names(); });
  section(2, "heading.people", [&] { add_people(); });
  add_general_cautions();
  section(2, "heading.words", [&] {
    List words;
    for (const char* key :
         {"words.certain", "words.probably", "words.phase", "words.sure", "words.sight", "words.works",
          "words.proposed", "words.contested", "words.examined", "words.notes"})
      words.entries.push_back(paragraph({remark(key)}));
    add(std::move(words));
  });
  document_.front = std::move(chapter_.blocks);
  chapter_ = {};
}

void Builder::add_building_names() {
  const Uuid scope = material_.timeline.scope.id;
  List list;
  add_names_of(scope, list);
  for (const char* property : {"period-of-significance", "interpreted-date", "records-kept-at"})
    for (const Statement& said : teller_.said(scope, property)) {
      std::string who;
      if (said.content.author && teller_.record(*said.content.author))
        who = teller_.name(*said.content.author);
      std::vector<Sentence> told{
          sentence(std::string("front.") + property,
                   {{"value", telling(kDate, foreign(said.content.value))},
                    {"who", who},
                    {"day", telling(kDate, foreign(date_in_words(said.content.said_on)))}},
                   teller_.cite(said))};
      if (!said.content.why.empty())
        told.push_back(sentence("reason", {{"why", foreign(said.content.why)}}, teller_.cite(said)));
      list.entries.push_back(paragraph(std::move(told)));
    }
  add(std::move(list));
}

// Whose eyes, reading and memory the report rests on, by the form of the name that may be printed.
void Builder::add_people() {
  std::map<EvidenceClass, std::set<std::string>> by_class;
  bool described = false;
  std::set<Uuid> seen[5];
  teller_.reader().each_statement({}, [&](const Statement& one) {
    const auto kind = static_cast<std::size_t>(one.content.evidence);
    if (one.presence != Presence::present || !one.content.author || kind == 0 ||
        !seen[kind].insert(*one.content.author).second)
      return true;
    const auto agent = teller_.record(*one.content.author);
    if (!agent) return true;
    const std::string name = foreign(agent->name.empty() ? display(*agent) : agent->name);
    by_class[one.content.evidence].insert(name);
    described = described || (one.content.evidence == EvidenceClass::oral && name.starts_with("a "));
    return true;
  });
  std::vector<Sentence> said{remark("front.people")};
  for (const auto& [kind, names] : by_class)
    said.push_back(remark("front.people-" + std::string(word(kind)),
                          {{"names", listing({names.begin(), names.end()})}}));
  if (described) said.push_back(remark("front.described"));
  add(paragraph(std::move(said)));
}

void Builder::add_withheld() {
  const Reading& reading = material_.timeline.reading;
  std::vector<Sentence> said;
  said.push_back(remark(reading.with_private ? "front.nothing-withheld" : "front.withheld",
                        {{"n", static_cast<std::int64_t>(reading.withheld)}}));
  if (!reading.with_private && reading.withheld != 0) {
    if (!options_.narrower) {
      said.push_back(remark("front.narrower-unknown"));
    } else if (options_.narrower->empty()) {
      said.push_back(remark("front.narrower-none"));
    } else {
      said.push_back(remark("front.narrower", {{"things", listing(*options_.narrower)}}));
    }
  }
  add(paragraph(std::move(said)));
}

void Builder::add_missing() {
  const bool whole = !sites_.empty() && sites_.front().at_large;
  const bool room_only = sites_.size() == 1 && !whole;
  document_.title = phrase(whole && missing_.empty() ? "title.full" : "title.history");
  if (missing_.empty()) return;
  document_.front.emplace_back(Heading{2, phrase("heading.missing"), {}});
  document_.front.emplace_back(paragraph(
      {remark(room_only ? "front.missing-room" : "front.missing", {{"parts", listing(missing_)}})}));
}

Chapter Builder::reckoning() {
  begin("reckoning", phrase("chapter.reckoning"));
  add(paragraph({remark("reckoning.words"), remark("reckoning.confidence"), remark("reckoning.contested")}));
  List list;
  for (const ReasonStep& setting : material_.timeline.settings) {
    const auto said = teller_.statement(setting.statement);
    if (setting.statement != Digest{} && !said) continue;
    Sentence one = as_sentence(foreign(setting.words));
    one.of_report = true;
    if (said && !said->content.citations.empty()) one.notes = teller_.cite(*said);
    std::vector<Sentence> told{one};
    if (said)
      if (auto who = decision(*said, "decided")) {
        who->of_report = true;
        who->notes = one.notes;
        told.push_back(std::move(*who));
      }
    list.entries.push_back(paragraph(std::move(told)));
  }
  list.entries.push_back(paragraph(
      {remark("reckoning.used", {{"n", static_cast<std::int64_t>(material_.timeline.statements_used)}})}));
  add(std::move(list));
  if (material_.layers != nullptr && !material_.layers->method.empty()) {
    Sentence method = as_sentence(foreign(material_.layers->method));
    method.of_report = true;
    add(method);
  }
  Chapter done = std::move(chapter_);
  chapter_ = {};
  return done;
}

}  // namespace lathbook::report
