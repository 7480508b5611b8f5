// What this study has done to the things of a site so far: opened, lifted, cleaned, propped, tried, put back.
#include <algorithm>
#include <limits>

#include "core/base/edtf.hpp"
#include "core/base/text.hpp"
#include "core/view/english.hpp"
#include "core/view/plain_words.hpp"
#include "plugins/report/build.hpp"

namespace lathbook::report {

namespace {

/// A look, or a sample, leaves nothing to be told apart from the old: these are told as evidence.
bool changes_nothing(std::string_view type) {
  return type == "photographed" || type == "sampled" || type == "planned" || type == "stopped";
}

}  // namespace

/// Done since the first examination: new work, which is to be told from the old.
bool Builder::is_by_this_study(const Uuid& event) {
  if (!first_look_) {
    first_look_ = std::numeric_limits<Day>::max();
    for (const Statement& said : teller_.all("examined-on"))
      if (const auto day = earliest_day(edtf_of(said.content))) first_look_ = std::min(*first_look_, *day);
  }
  for (const Statement& said : teller_.said(event, "event-date"))
    if (const auto day = earliest_day(edtf_of(said.content))) return *day >= *first_look_;
  return false;
}

/// Its events on things, pieces, coats and places of the site, each once, in the order of time.
std::vector<Uuid> Builder::works_on(const Site& site) {
  std::vector<Uuid> targets = records_of(site);
  for (const std::size_t at : site.items)
    if (is_thing(at))
      for (const Statement& piece : teller_.said_to(item(at).record.id, "piece-of"))
        targets.push_back(piece.content.subject);
  std::vector<std::pair<Day, Uuid>> found;
  std::set<Uuid> seen;
  for (const Uuid& target : targets)
    for (const Statement& done : teller_.said_to(target, "event-on")) {
      const Uuid event = done.content.subject;
      if (!teller_.record(event) || !seen.insert(event).second || !is_by_this_study(event) ||
          changes_nothing(teller_.view(event).text("event-type")))
        continue;
      Day day = 0;
      for (const Statement& said : teller_.said(event, "event-date"))
        day = earliest_day(edtf_of(said.content)).value_or(day);
      found.emplace_back(day, event);
    }
  std::sort(found.begin(), found.end(), [&](const auto& a, const auto& b) {
    if (a.first != b.first) return a.first < b.first;
    return compare_for_people(teller_.record(a.second)->code, teller_.record(b.second)->code) < 0;
  });
  std::vector<Uuid> events;
  for (const auto& [day, event] : found) events.push_back(event);
  return events;
}

std::string Builder::done_to(const Uuid& event) {
  std::vector<std::string> names, pieces;
  for (const Statement& said : teller_.said(event, "event-on")) {
    const auto id = Uuid::parse(said.content.value);
    const auto info = id ? teller_.record(*id) : std::nullopt;
    if (!info) continue;
    if (info->kind == Kind::piece)
      pieces.push_back(foreign(info->code));
    else
      add_once(names, teller_.label(*id));
  }
  if (!pieces.empty()) names.push_back(drawn_together(pieces));
  return join(names, ", ");
}

Row Builder::treatment_row(const Uuid& event) {
  const RecordView& view = teller_.view(event);
  std::vector<Statement> told;
  for (const Statement& said : view.facts)
    if (said.presence == Presence::present && !said.content.citations.empty()) told.push_back(said);
  if (told.empty()) told = teller_.said(event, "event-on");
  const std::vector<int> notes = teller_.notes().cite_together(told);
  const auto words = [&](std::string_view property) {
    std::vector<std::string> values;
    for (const Statement& said : teller_.said(event, property)) {
      const auto id = property == "moved-to" ? Uuid::parse(said.content.value) : std::nullopt;
      add_once(values, (id ? teller_.label(*id) : teller_.value(said)) + teller_.doubt(said));
    }
    return listing(values);
  };
  Cell what;
  what.sentences.push_back(sentence(
      "done.what",
      {{"what", foreign(view.info.name)}, {"code", foreign(view.info.code)}, {"on", done_to(event)}}, notes));
  if (view.text("to-return") == "yes") what.sentences.push_back(sentence("done.to-return", {}, notes));
  if (view.text("to-return") == "no") what.sentences.push_back(sentence("done.for-good", {}, notes));
  Cell how;
  for (const char* property :
       {"tools", "product", "outcome", "worked", "moved-to", "curing-days", "new-work-marked", "lesson"})
    if (const std::string said = words(property); !said.empty())
      how.sentences.push_back(
          sentence("done." + std::string(property), {{"value", without_full_stop(said)}}, notes));
  // One note tells of the whole row.
  const bool beside = !how.sentences.empty();
  for (Sentence& one : what.sentences) one.notes_beside = beside || &one != &what.sentences.back();
  for (Sentence& one : how.sentences) one.notes_beside = &one != &how.sentences.back();
  if (!beside) how.sentences.push_back(as_words(phrase("not-known")));
  const std::string who = words("done-by");
  Sentence when = as_words(
      phrase("done.when",
             {{"day", words("event-date")}, {"who", who}, {"told", std::string(who.empty() ? "no" : "yes")}}),
      notes);
  when.notes_beside = true;
  Row row;
  row.cells.push_back({{std::move(when)}, {}});
  row.cells.push_back(std::move(what));
  row.cells.push_back(std::move(how));
  return row;
}

void Builder::add_treatment(const Site& site) {
  Table table;
  table.caption = phrase("done.caption", {{"place", site.title}});
  table.columns = {phrase("done.column-when"), phrase("done.column-what"), phrase("done.column-how")};
  table.widths = {18, 36, 46};
  for (const Uuid& event : works_on(site)) table.rows.push_back(treatment_row(event));
  add(std::move(table));
}

}  // namespace lathbook::report
