// Statements that cannot all hold, told on both sides; rulings that set a statement aside.
#include <algorithm>

#include "core/base/text.hpp"
#include "core/view/plain_words.hpp"
#include "plugins/sheet/builder.hpp"
#include "plugins/sheet/phrases.hpp"

namespace lathbook::sheet {

namespace {

bool among(const std::vector<Digest>& ids, const Digest& id) {
  return std::find(ids.begin(), ids.end(), id) != ids.end();
}

}  // namespace

void Builder::add_contradictions() {
  for (const TimelineConflict& conflict : timeline_.conflicts)
    sheet_.contradictions.push_back(contradiction(conflict));
}

Contradiction Builder::contradiction(const TimelineConflict& conflict) {
  Contradiction told;
  bool all_given = true;
  std::vector<int> notes;
  std::size_t aside = 0;
  std::set<Digest> shown;
  for (const ReasonStep& reason : conflict.statements) {
    const bool given = reason.statement == Digest{} || teller_.statement(reason.statement);
    all_given = all_given && given;
    Step step = teller_.step(reason, shown);
    add_notes(notes, step.notes);
    const bool left_out = among(conflict.set_aside, reason.statement);
    aside += left_out ? 1 : 0;
    (left_out ? told.set_aside : told.one_side).push_back(std::move(step));
  }
  told.clash = conflict.clash_days < 1
                   ? std::string(english().clash_circle)
                   : fill(english().clash, {{"span", duration_words(conflict.clash_days)}});
  if (aside == 0) {
    told.proposal = english().none_aside;
  } else if (told.one_side.empty()) {
    told.one_side.swap(told.set_aside);
    told.proposal = english().all_aside;
  } else {
    told.proposal = english().some_aside;
  }
  add_ways_out(conflict, told);
  told.head = sentence_of(head_of(conflict, all_given), notes);
  told.beside = beside(conflict);
  return told;
}

void Builder::add_ways_out(const TimelineConflict& conflict, Contradiction& told) {
  const auto said = [&](const std::vector<ReasonStep>& steps, std::string words) {
    Sentence sentence;
    for (std::size_t at = 0; at < steps.size(); ++at) {
      const auto statement = teller_.statement(steps[at].statement);
      words += (at == 0 ? "" : "; and that ") + foreign(steps[at].words);
      if (statement) add_notes(sentence.notes, teller_.cite(*statement));
    }
    sentence.parts.push_back({with_full_stop(std::move(words)), std::nullopt, false});
    return sentence;
  };
  const std::string ways = grouped(conflict.ways_out.size());
  if (conflict.ways_out.size() > 1) {
    told.proposal = conflict.way_taken == 0
                        ? fill(english().undecided, {{"n", ways}})
                        : fill(english().way_taken, {{"n", ways}, {"k", grouped(conflict.way_taken)}});
    for (std::size_t at = 0; at < conflict.ways_out.size(); ++at)
      told.ways_out.push_back(said(conflict.ways_out[at], fill(english().way_out, {{"k", grouped(at + 1)}})));
  }
  for (const ReasonStep& step : conflict.fallen_with) told.fallen_with.push_back(said({step}, {}));
  for (Sentence& one : told.fallen_with)
    for (Part& part : one.parts) part.words = capital(part.words);
}

/// What a clash is about. A single statement that cannot hold needs the words of the timeline to say why.
std::string Builder::head_of(const TimelineConflict& conflict, bool all_given) {
  if (conflict.statements.size() == 1 && all_given && !conflict.words.empty())
    return with_full_stop(capital(foreign(conflict.words)));
  std::vector<std::string> names;
  for (const ReasonStep& reason : conflict.statements)
    if (const auto statement = teller_.statement(reason.statement)) {
      const std::string name = teller_.name(statement->content.subject);
      if (std::find(names.begin(), names.end(), name) == names.end()) names.push_back(name);
    }
  return fill(names.empty() ? english().cannot_all : english().cannot_all_of,
              {{"n", grouped(conflict.statements.size())}, {"names", listed(names)}});
}

std::vector<Sentence> Builder::beside(const TimelineConflict& conflict) {
  std::vector<Uuid> subjects;
  std::vector<Digest> part_of_it = conflict.set_aside;
  for (const ReasonStep& reason : conflict.statements) {
    part_of_it.push_back(reason.statement);
    const auto statement = teller_.statement(reason.statement);
    if (!statement) continue;
    const auto info = teller_.record(statement->content.subject);
    if (info && (info->kind == Kind::element || info->kind == Kind::finish) &&
        std::find(subjects.begin(), subjects.end(), info->id) == subjects.end())
      subjects.push_back(info->id);
  }
  for (const TimelineConflict& other : timeline_.conflicts)
    part_of_it.insert(part_of_it.end(), other.set_aside.begin(), other.set_aside.end());
  std::vector<Sentence> said;
  for (const Uuid& subject : subjects) {
    const std::string name = capital(teller_.name(subject));
    for (const Telling& telling_of : english().tellings)
      for (const Statement& statement : teller_.said(subject, telling_of.property)) {
        if (among(part_of_it, statement.id)) continue;
        if (auto sentence = telling(statement, telling_of.pattern)) {
          sentence->parts.insert(sentence->parts.begin(), {name + ": ", std::nullopt, false});
          said.push_back(std::move(*sentence));
        }
      }
    for (const Statement& note : teller_.said(subject, "note"))
      said.push_back(
          sentence_of(name + ": " + with_full_stop(foreign(note.content.value)), teller_.cite(note)));
  }
  return said;
}

void Builder::add_rulings() {
  if (timeline_.set_aside_by_ruling.empty()) return;
  Query query;
  query.properties = {Registry::standard().named("set-aside").id};
  std::vector<Statement> rulings;
  teller_.reader().each_statement(query, [&](const Statement& statement) {
    if (statement.presence == Presence::present) rulings.push_back(statement);
    return true;
  });
  for (const Statement& ruling : rulings) {
    const auto id = Digest::from_hex(ruling.content.value);
    const auto target = id ? teller_.statement(*id) : std::nullopt;
    if (!target || std::find(timeline_.set_aside_by_ruling.begin(), timeline_.set_aside_by_ruling.end(),
                             target->name()) == timeline_.set_aside_by_ruling.end())
      continue;
    std::vector<int> notes = teller_.cite(*target);
    add_notes(notes, teller_.cite(ruling));
    sheet_.rulings.push_back(sentence_of(
        fill(english().ruled, {{"what", teller_.say(*target)},
                               {"name", target->name()},
                               {"why", with_full_stop(foreign(ruling.content.qualifier("reason")))}}),
        notes));
  }
}

}  // namespace lathbook::sheet
