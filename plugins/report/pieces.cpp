// What came away and where it is, what was found, what was replaced and how the new work is marked, and what
// can hurt.
#include <algorithm>
#include <array>
#include <iterator>

#include "core/base/edtf.hpp"
#include "core/base/text.hpp"
#include "core/view/english.hpp"
#include "core/view/hazards.hpp"
#include "core/view/piece_states.hpp"
#include "core/view/plain_words.hpp"
#include "plugins/report/build.hpp"

namespace lathbook::report {

namespace {

/// The statement that tells the state last reached.
const Statement* latest(const std::vector<Statement>& all) {
  const Statement* found = nullptr;
  Day day = 0;
  for (const Statement& one : all) {
    const auto date = Edtf::try_parse(one.content.qualifier("on"));
    const Day on = date ? date->earliest().value_or(0) : -1'000'000;
    if (found == nullptr || on >= day) {
      found = &one;
      day = on;
    }
  }
  return found;
}

PieceState state_of(const Statement* said) {
  return said == nullptr ? PieceState::unknown : piece_state_from_word(said->content.value);
}

}  // namespace

std::string Builder::container_of(const Statement& held) {
  const auto id = Uuid::parse(held.content.value);
  return id ? teller_.label(*id) : phrase("not-given");
}

// Pieces of one thing in one state and one container are told together, with the count and where it is noted.
void Builder::add_pieces(const Site& site) {
  struct Lot {
    PieceState state;
    std::string container;
    std::vector<std::string> codes;
    std::vector<Statement> said;
  };
  List list;
  std::set<Uuid> done;
  for (const std::size_t at : site.items) {
    const Uuid element = item(at).record.id;
    if (!is_thing(at) || !done.insert(element).second) continue;
    std::vector<Lot> lots;
    for (const Statement& piece : teller_.said_to(element, "piece-of")) {
      const Uuid id = piece.content.subject;
      const auto info = teller_.record(id);
      const auto states = teller_.said(id, "piece-state");
      const Statement* state = latest(states);
      const PieceState now = state_of(state);
      if (!info || state == nullptr || now == PieceState::in_place) continue;
      const auto containers = teller_.said(id, "in-container");
      const Statement* held = now == PieceState::in_container ? latest(containers) : nullptr;
      const std::string container = held == nullptr ? std::string() : container_of(*held);
      auto lot = std::find_if(lots.begin(), lots.end(),
                              [&](const Lot& one) { return one.state == now && one.container == container; });
      if (lot == lots.end()) lot = lots.insert(lots.end(), {now, container, {}, {}});
      lot->codes.push_back(foreign(info->code));
      lot->said.push_back(*state);
      if (held != nullptr) lot->said.push_back(*held);
    }
    if (lots.empty()) continue;
    std::vector<Sentence> told;
    for (const Lot& lot : lots) {
      const auto n = static_cast<std::int64_t>(lot.codes.size());
      told.push_back(sentence("pieces",
                              {{"thing", teller_.name(element)},
                               {"of", std::string(told.empty() ? "yes" : "no")},
                               {"n", n},
                               {"codes", drawn_together(lot.codes)},
                               {"state", choice(word(lot.state))},
                               {"container", lot.container},
                               {"held", std::string(lot.container.empty() ? "no" : "yes")}},
                              teller_.notes().cite_together(lot.said)));
      told.back().runs.front().tells |= kCount;
    }
    list.entries.push_back(paragraph(std::move(told)));
  }
  if (!list.entries.empty() && !pieces_explained_) {
    add(remark("pieces.words"));
    pieces_explained_ = true;
  }
  add(std::move(list));
}

void Builder::add_finds(const Site& site) {
  List list;
  const auto add_from = [&](const Uuid& place) {
    for (const Statement& found : teller_.said_to(place, "found-in")) {
      const Uuid id = found.content.subject;
      if (!teller_.record(id)) continue;
      std::vector<int> notes = teller_.cite(found);
      const std::string what = teller_.said_in_words(id, "material", notes);
      const std::string spot = teller_.said_in_words(id, "find-spot", notes);
      const auto states = teller_.said(id, "piece-state");
      const Statement* state = latest(states);
      const auto containers = teller_.said(id, "in-container");
      const Statement* held = latest(containers);
      if (state != nullptr) add_notes(notes, teller_.cite(*state));
      const std::string name = teller_.record(id)->name;
      const std::string number = is_plural(name.substr(0, name.find(','))) ? "many" : "one";
      std::string where = state == nullptr ? phrase("find.unknown") : foreign(state->content.value);
      if (held != nullptr && state_of(state) == PieceState::in_container) {
        where = phrase("find.held", {{"container", container_of(*held)}});
        add_notes(notes, teller_.cite(*held));
      }
      std::vector<Sentence> told{sentence("find",
                                          {{"find", teller_.name(id)},
                                           {"what", what.empty() ? what : ", " + what},
                                           {"number", number},
                                           {"spot", spot.empty() ? spot : " " + spot},
                                           {"where", where}},
                                          notes)};
      for (const Statement& made : teller_.said(id, "made"))
        told.push_back(sentence("find.made", {{"day", teller_.value(made)}, {"doubt", teller_.doubt(made)}},
                                teller_.cite(made)));
      for (const Statement& note : teller_.said(id, "note"))
        told.push_back(as_sentence(foreign(note.content.value), teller_.cite(note)));
      list.entries.push_back(paragraph(std::move(told)));
    }
  };
  for (const Uuid& place : places_of(site)) add_from(place);
  if (list.entries.empty()) return;
  heading(3, "heading.finds");
  add(std::move(list));
}

void Builder::add_replaced(const Site& site) {
  List list;
  std::vector<Uuid> unmarked;
  for (const std::size_t at : site.items) {
    const Uuid id = item(at).record.id;
    if (item(at).placement > 1) continue;
    std::vector<Sentence> told;
    for (const Statement& said : teller_.said(id, "replaces"))
      if (is_thing(at) && said.content.confidence != Confidence::conjecture)
        told.push_back(sentence(
            "replaced",
            {{"thing", teller_.name(id)}, {"other", teller_.value(said)}, {"doubt", teller_.doubt(said)}},
            teller_.cite(said)));
    bool ours = !teller_.said(id, "new-fabric").empty();
    for (const Statement& said : teller_.said(id, "new-fabric"))
      told.push_back(sentence("new-fabric",
                              {{"thing", teller_.name(id)},
                               {"what", foreign(said.content.value)},
                               {"share", foreign(said.content.qualifier("share"))},
                               {"where", foreign(said.content.qualifier("where"))}},
                              teller_.cite(said)));
    for (const Statement& done : teller_.said_to(id, "event-on")) {
      const Uuid event = done.content.subject;
      const std::string type = teller_.view(event).text("event-type");
      if (!teller_.record(event) || (type != "repaired" && type != "replaced")) continue;
      // What this study did is told with all its work.
      if (is_by_this_study(event)) {
        ours = true;
        continue;
      }
      std::vector<int> notes = teller_.cite(done);
      const std::string day = teller_.said_in_words(event, "event-date", notes);
      const std::string who = teller_.said_in_words(event, "done-by", notes);
      const std::string outcome = teller_.said_in_words(event, "outcome", notes);
      told.push_back(sentence("repaired",
                              {{"thing", teller_.name(id)},
                               {"what", foreign(teller_.record(event)->name)},
                               {"day", day.empty() ? day : ", " + day},
                               {"who", who.empty() ? who : phrase("repaired.by", {{"who", who}})},
                               {"outcome", outcome.empty() ? outcome : ": " + outcome}},
                              notes));
    }
    bool marked = false;
    for (const Statement& said : teller_.said(id, "new-work-marked")) {
      told.push_back(sentence("new-work-marked", {{"how", foreign(said.content.value)}}, teller_.cite(said)));
      marked = true;
    }
    for (const Statement& done : teller_.said_to(id, "event-on"))
      marked = marked || !teller_.said(done.content.subject, "new-work-marked").empty();
    if (!marked && ours) unmarked.push_back(id);
    if (told.empty()) continue;
    list.entries.push_back(paragraph(std::move(told)));
  }
  add(std::move(list));
  std::vector<std::string> names;
  for (const Uuid& id : unmarked) names.push_back(teller_.name(id));
  if (!names.empty()) add(remark("replaced.unmarked", {{"names", listing(names)}}));
}

// ", on 3 February 2025, by Ines Calloway: asbestos, “grey board”".
std::string Builder::stop_words(const Uuid& event, std::vector<int>& notes) {
  const std::string day = teller_.said_in_words(event, "event-date", notes);
  const std::string who = teller_.said_in_words(event, "done-by", notes);
  const std::string danger = teller_.said_in_words(event, "hazard-met", notes);
  const std::string alarm = danger.empty() ? teller_.said_in_words(event, "alarm", notes) : std::string();
  const std::string words = teller_.said_in_words(event, "outcome", notes);
  return (day.empty() ? day : ", " + day) + (who.empty() ? who : phrase("repaired.by", {{"who", who}})) +
         (danger.empty() ? (alarm.empty() ? alarm : ": " + alarm) : ": " + danger) +
         (words.empty() ? words : phrase("stop.words", {{"words", words}}));
}

void Builder::tell_stops(const Uuid& at, std::vector<Paragraph>& standing, std::vector<Paragraph>& lifted) {
  for (const Statement& on : teller_.said_to(at, "event-on")) {
    const Uuid event = on.content.subject;
    if (!teller_.record(event) || teller_.view(event).text("event-type") != "stopped") continue;
    std::vector<int> notes = teller_.cite(on);
    const std::string how = stop_words(event, notes);
    Paragraph told = paragraph({sentence("stop", {{"where", teller_.name(at)}, {"how", how}}, notes)});
    const auto liftings = teller_.said_to(event, "lifts-stop");
    if (liftings.empty()) {
      told.sentences.push_back(remark("stop.stands"));
      standing.push_back(std::move(told));
      continue;
    }
    std::vector<int> more = teller_.cite(liftings.front());
    const std::string ended = stop_words(liftings.front().content.subject, more);
    told.sentences.push_back(sentence("stop.lifted", {{"how", ended}}, more));
    lifted.push_back(std::move(told));
  }
}

void Builder::add_cautions(const Site& site) {
  std::set<Digest> seen;
  // What is there comes first, what was tested and not found last.
  std::array<std::vector<Paragraph>, 4> by_gravity;
  std::vector<Uuid> subjects = records_of(site);
  // What holds for the floor or the whole house holds in the room.
  const std::vector<Uuid> around = teller_.places_around(site.place.id);
  subjects.insert(subjects.end(), around.begin(), around.end());
  // What bounds or crosses the room endangers who works in it.
  for (const std::size_t at : site.elsewhere) subjects.push_back(item(at).record.id);
  for (const Uuid& subject : subjects)
    for (const Statement& said : teller_.said(subject, "hazard")) {
      if (!seen.insert(said.id).second) continue;
      const std::string_view status = said.content.qualifier("status");
      Paragraph entry = paragraph({sentence("hazard",
                                            {{"hazard", foreign(said.content.value)},
                                             {"kind", choice(said.content.value)},
                                             {"status", choice(status)},
                                             {"where", teller_.name(subject)}},
                                            teller_.cite(said))});
      if (!said.content.why.empty() && said.content.targets.empty())
        entry.sentences.push_back(as_sentence(foreign(said.content.why), teller_.cite(said)));
      by_gravity[static_cast<std::size_t>(3 - hazard_gravity(status))].push_back(std::move(entry));
    }
  std::set<Uuid> once;
  for (const Uuid& subject : subjects)
    if (once.insert(subject).second) tell_stops(subject, by_gravity[0], by_gravity[3]);
  List list;
  for (auto& entries : by_gravity)
    std::move(entries.begin(), entries.end(), std::back_inserter(list.entries));
  Paragraph close;
  if (list.entries.empty()) close.sentences.push_back(remark("hazard.none"));
  close.sentences.push_back(remark("hazard.see", {{"where", pointing("cautions", phrase("hazard.where"))}}));
  add(std::move(list));
  add(std::move(close));
}

/// What holds in every room, told once at the front.
void Builder::add_general_cautions() {
  chapter_.blocks.emplace_back(Heading{2, phrase("heading.general-cautions"), "cautions"});
  chapter_.blocks.emplace_back(
      Warning{paragraph({remark("hazard.general"), remark("open.caution"), remark("hazard.code")})});
  std::vector<Paragraph> standing, lifted;
  std::set<Uuid> once;
  for (const Site& site : sites_)
    for (const Uuid& subject : records_of(site))
      if (once.insert(subject).second) tell_stops(subject, standing, lifted);
  for (Paragraph& one : standing) chapter_.blocks.emplace_back(Warning{std::move(one)});
}

}  // namespace lathbook::report
