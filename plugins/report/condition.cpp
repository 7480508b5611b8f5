// Condition: what was seen of each part on a day, with its three classes and its forms of damage.
#include <array>
#include <map>

#include "core/base/text.hpp"
#include "core/view/english.hpp"
#include "core/view/plain_words.hpp"
#include "plugins/report/build.hpp"

namespace lathbook::report {

namespace {

constexpr std::array kClasses{"condition-class", "urgency-class", "recommendation-class"};

/// What was said of one part on one day.
struct Look {
  std::array<std::vector<std::string>, kClasses.size()> classes;
  std::vector<Statement> words;
  std::vector<std::string> damages;
  std::vector<Statement> all;
};

}  // namespace

void Builder::add_condition(const Site& site) {
  Table table;
  table.caption = phrase("condition.caption", {{"place", site.title}});
  for (const char* column :
       {"condition.part", "condition.day", "condition.c", "condition.u", "condition.r", "condition.seen"})
    table.columns.push_back(phrase(column));
  table.widths = {27, 13, 6, 6, 6, 42};
  // A thing that was moved is told of where it is now.
  for (const std::size_t at : site.items)
    if (is_thing(at) && item(at).placement == item(at).placements) add_looks(item(at).record.id, table);
  if (table.rows.empty()) {
    if (!site.items.empty()) add(remark("condition.none-here"));
    return;
  }
  if (!condition_explained_) add(remark("condition.key"));
  condition_explained_ = true;
  add(std::move(table));
}

/// A row for each day on which somebody looked; a class that nobody gave stays a dash.
void Builder::add_looks(const Uuid& id, Table& table) {
  std::map<std::string, Look> looks;
  const auto look_of = [&](const Statement& said) -> Look& {
    Look& look = looks[std::string(said.content.qualifier("on"))];
    look.all.push_back(said);
    return look;
  };
  for (const Statement& said : teller_.said(id, "condition")) look_of(said).words.push_back(said);
  for (std::size_t scale = 0; scale < kClasses.size(); ++scale)
    for (const Statement& said : teller_.said(id, kClasses[scale]))
      look_of(said).classes[scale].push_back(foreign(said.content.value));
  for (const Statement& said : teller_.said(id, "damage")) {
    const std::string where = foreign(said.content.qualifier("where"));
    look_of(said).damages.push_back(foreign(said.content.value) + (where.empty() ? "" : " (" + where + ")"));
  }
  for (const auto& [day, look] : looks) {
    const std::vector<int> notes = teller_.notes().cite_together(look.all);
    const std::string when = day.empty() ? phrase("not-known") : telling(kDate, foreign(date_in_words(day)));
    Row row;
    row.cells.push_back({{as_words(teller_.name(id))}, {}});
    row.cells.push_back({{as_words(when, notes)}, {}});
    for (const auto& given : look.classes)
      row.cells.push_back({{as_words(given.empty() ? phrase("not-known") : join(given, ", "))}, {}});
    Cell seen;
    for (const Statement& said : look.words)
      seen.sentences.push_back(sentence(
          "condition",
          {{"words", without_full_stop(foreign(said.content.value))}, {"doubt", teller_.doubt(said)}},
          notes));
    if (!look.damages.empty())
      seen.sentences.push_back(sentence("condition.damage", {{"damages", join(look.damages, "; ")}}, notes));
    row.cells.push_back(std::move(seen));
    table.rows.push_back(std::move(row));
  }
}

}  // namespace lathbook::report
