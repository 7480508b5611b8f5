// The works, who looked at what and what came of it, and what would help most.
#include <algorithm>

#include "core/base/text.hpp"
#include "plugins/sheet/builder.hpp"
#include "plugins/sheet/phrases.hpp"

namespace lathbook::sheet {

namespace {

std::string counted(double number, const std::string& unit) {
  std::string text = std::to_string(number);
  text.erase(text.find('.') + 2);
  if (text.ends_with(".0")) text.erase(text.size() - 2);
  return text + " " + unit + (text == "1" ? "" : "s");
}

}  // namespace

void Builder::add_works() {
  const Words& words = english();
  for (std::size_t at = 0; at < timeline_.works.size(); ++at) {
    const TimelineWorks& works = timeline_.works[at];
    if (!teller_.record(works.record.id)) continue;
    const std::string name = teller_.name(works.record.id);
    const std::size_t key = items_.size() + timeline_.phases.size() + at;
    const auto add = [&](const Span& span, Side side, std::string_view pattern, std::string_view label) {
      if (!span.earliest.known && !span.latest.known) return false;
      Sentence sentence = sentence_of(capital(fill(pattern, {{"works", name}})));
      add_date(sentence, why(key, side, span, std::string(label) + name));
      sentence.parts.push_back({".", std::nullopt, false});
      sheet_.works.push_back(std::move(sentence));
      return true;
    };
    const bool began = add(works.begins, Side::works_begin, words.works_began, words.beginning_of);
    const bool over = add(works.ends, Side::works_end, words.works_over, words.end_of);
    if (!began && !over) {
      sheet_.works.push_back(sentence_of(capital(fill(words.works_undated, {{"works", name}}))));
    }
  }
}

// The values of a property in one list, each with a detail in brackets.
std::string Builder::all_said(const Uuid& subject, std::string_view property, std::vector<int>& notes,
                              std::string_view detail) {
  std::vector<std::string> said;
  for (const Statement& statement : teller_.said(subject, property)) {
    const std::string more = detail.empty() ? std::string() : foreign(statement.content.qualifier(detail));
    const std::string words = teller_.value(statement) + (more.empty() ? "" : " (" + more + ")");
    if (std::find(said.begin(), said.end(), words) == said.end()) said.push_back(words);
    add_notes(notes, teller_.cite(statement));
  }
  return join(said, "; ");
}

void Builder::add_examination(const Uuid& examination) {
  const Words& words = english();
  std::vector<int> notes;
  const RecordInfo info = *teller_.record(examination);
  const std::string title = info.name.empty() ? display(info) : info.name + " (" + info.code + ")";
  std::string said = capital(fill(words.looked_at, {{"examination", foreign(title)},
                                                    {"what", all_said(examination, "examined", notes)}}));
  const auto add = [&](std::string_view pattern, std::string_view slot, const std::string& value) {
    if (!value.empty()) said += fill(pattern, {{slot, value}});
  };
  add(words.looked_on, "day", all_said(examination, "examined-on", notes));
  add(words.looked_how, "how", all_said(examination, "method", notes));
  add(words.looked_by, "who", all_said(examination, "examined-by", notes));
  said += ".";
  add(words.sought, "what", all_said(examination, "sought", notes, "outcome"));
  add(words.not_reached, "what", all_said(examination, "not-reached", notes));
  sheet_.examined.push_back(sentence_of(std::move(said), notes));
}

// 'Looked, none' and 'could not tell' stand with what was sought; what nobody looked at is named last.
void Builder::add_examinations() {
  std::vector<Uuid> looked_at = Snapshot(teller_.reader()).places_within(timeline_.scope.id);
  for (const TimelineItem& item : items_)
    if (!is_piece(static_cast<std::size_t>(&item - items_.data()))) looked_at.push_back(item.record.id);
  std::vector<RecordInfo> examinations;
  std::vector<Uuid> seen;
  for (const Uuid& one : looked_at)
    for (const Statement& examined : teller_.said_to(one, "examined")) {
      seen.push_back(one);
      const auto info = teller_.record(examined.content.subject);
      const auto same = [&](const RecordInfo& other) { return other.id == info->id; };
      if (info && std::none_of(examinations.begin(), examinations.end(), same)) examinations.push_back(*info);
    }
  if (examinations.empty()) return;
  std::stable_sort(examinations.begin(), examinations.end(), [](const RecordInfo& a, const RecordInfo& b) {
    return compare_for_people(a.code, b.code) < 0;
  });
  for (const RecordInfo& examination : examinations) add_examination(examination.id);
  std::vector<std::string> never;
  for (const TimelineItem& item : items_) {
    if (item.record.kind != Kind::element || item.placement > 1) continue;
    if (std::find(seen.begin(), seen.end(), item.record.id) == seen.end())
      never.push_back(teller_.name(item.record.id));
  }
  if (!never.empty())
    sheet_.examined.push_back(sentence_of(fill(english().never_looked, {{"names", join(never, "; ")}})));
}

void Builder::add_tasks() {
  const Words& words = english();
  for (const TimelineTask& task : timeline_.tasks) {
    const bool all_given = std::all_of(task.records.begin(), task.records.end(),
                                       [&](const Uuid& id) { return teller_.record(id).has_value(); });
    if (!all_given) continue;
    Task& shown = sheet_.tasks.emplace_back();
    shown.task = sentence_of(foreign(task.words));
    const bool varies = static_cast<double>(task.at_least) < task.narrows;
    shown.gain = fill(varies ? words.gain_on_average : words.gain,
                      {{"dates", counted(task.narrows, "date")},
                       {"least", std::to_string(task.at_least)},
                       {"years", counted(static_cast<double>(static_cast<long>(task.years + 0.5)), "year")}});
    for (const ReasonStep& step : task.on) {
      std::set<Digest> told;
      const Step known = teller_.step(step, told);
      shown.known.push_back(sentence_of(known.words + ".", known.notes));
    }
  }
}

}  // namespace lathbook::sheet
