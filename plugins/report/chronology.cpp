// Development and use of the building in the order of time.
#include <algorithm>
#include <limits>

#include "core/base/edtf.hpp"
#include "core/base/text.hpp"
#include "core/view/english.hpp"
#include "core/view/plain_words.hpp"
#include "plugins/report/build.hpp"

namespace lathbook::report {

namespace {

constexpr Day kNever = std::numeric_limits<Day>::max();

struct Moment {
  Day day = kNever;  ///< for the order only
  std::string when;
  Sentence what;
};

/// The notes stand with the event; those of the day beside it are the same.
Row row_of(Moment moment) {
  Sentence when = as_label(moment.when, moment.what.notes);
  when.notes_beside = true;
  return {{}, {{{std::move(when)}, {}}, {{std::move(moment.what)}, {}}}};
}

Day first_day(std::string_view edtf) {
  const auto date = edtf.empty() ? std::nullopt : Edtf::try_parse(edtf);
  return date ? date->earliest().value_or(kNever) : kNever;
}

Day first_day(const Span& span) {
  return span.earliest.known ? span.earliest.day : span.latest.known ? span.latest.day : kNever;
}

/// From the first day that the period may have begun to the last that it may have ended.
DayRange period_of(const Statement& said) {
  DayRange range{std::numeric_limits<Day>::min(), kNever};
  if (const auto from = Edtf::try_parse(said.content.qualifier("from")))
    range.first = from->earliest().value_or(range.first);
  if (const auto to = Edtf::try_parse(said.content.qualifier("to")))
    range.last = to->latest().value_or(range.last);
  return range;
}

/// Whether a thing has a date of its own and not only that of the works it belongs to.
bool has_own_date(const Span& span) {
  return span.earliest.known && span.latest.known && span.latest.day - span.earliest.day < 12 * 366;
}

}  // namespace

void Builder::add_chronology() {
  begin("chronology", phrase("chapter.chronology"));
  std::vector<Moment> moments;
  const auto tell = [&](Day day, const std::string& when, Sentence what) {
    moments.push_back({day, when, std::move(what)});
  };
  const auto tell_span = [&](const Span& span, const std::string& key, MessageValues values,
                             std::vector<int> notes = {}) {
    if (!is_dated(span)) return;
    add_notes(notes, teller_.cite(span));
    values.emplace_back("surely", surely(span));
    tell(first_day(span), when(span), sentence(key, values, notes));
  };
  const Timeline& timeline = material_.timeline;
  for (const TimelineWorks& works : timeline.works) {
    if (!teller_.record(works.record.id)) continue;
    const std::string name = teller_.name(works.record.id);
    tell_span(works.begins, "chronology.works-begin", {{"works", name}});
    // Some day of the works: after they may have begun, and before they had ended.
    if (const Span during{works.begins.earliest, works.ends.latest, {}}; is_dated(during))
      for (const char* relation : {"of-campaign", "removed-in-campaign"})
        if (auto told = share_of_works(works.record.id, relation)) {
          add_notes(told->notes, teller_.cite(during));
          tell(first_day(during), when(during), std::move(*told));
        }
    // Works that nothing ends are still going on, for all that is known.
    if (works.ends.latest.known) tell_span(works.ends, "chronology.works-end", {{"works", name}});
  }
  for (const TimelinePhase& phase : timeline.phases)
    if (teller_.record(phase.record.id)) {
      std::vector<int> notes;
      for (const Statement& said : teller_.said(phase.record.id, "description"))
        add_notes(notes, teller_.cite(said));
      tell_span(phase.opens, "chronology.phase", {{"phase", foreign(phase.record.name)}}, notes);
    }
  for (const Uuid& place : material_.archive.places_within(timeline.scope.id)) {
    for (const char* property : {"place-began", "place-ended"})
      for (const Statement& said : teller_.said(place, property))
        tell(first_day(edtf_of(said.content)), teller_.value(said),
             sentence("chronology." + std::string(property),
                      {{"place", teller_.name(place)}, {"doubt", teller_.doubt(said)}}, teller_.cite(said)));
  }
  for (const auto& [who, role] : roles_in_house())
    if (role.content.value == "owner" && !period_words(role).empty())
      tell(period_of(role).first, period_words(role),
           sentence("chronology.role",
                    {{"who", teller_.name(who)},
                     {"role", foreign(role.content.value)},
                     {"now", std::string(role.content.qualifier("to").empty() ? "yes" : "no")},
                     {"doubt", teller_.doubt(role)}},
                    teller_.cite(role)));
  for (std::size_t at = 0; at < timeline.items.size(); ++at) {
    const TimelineItem& one = item(at);
    if (!is_thing(at) || !teller_.record(one.record.id)) continue;
    const auto piecemeal = std::any_of(one.phases.begin(), one.phases.end(), [](const PhasePart& part) {
      return part.installed != Membership::no && part.how == "piecemeal";
    });
    const auto tell_thing = [&](const Span& span, bool of_end) {
      const auto [be, verb] = happening(at, of_end);
      tell_span(span, "chronology.thing",
                {{"thing", teller_.name(one.record.id)}, {"be", be}, {"verb", verb}});
    };
    if (has_own_date(one.begins) && (piecemeal || one.phases.empty() || one.placement > 1))
      tell_thing(one.begins, false);
    if (has_own_date(one.ends)) tell_thing(one.ends, true);
  }
  std::stable_sort(moments.begin(), moments.end(),
                   [](const Moment& a, const Moment& b) { return a.day < b.day; });
  if (!moments.empty()) add(sentence("chronology.words"));
  if (auto chart = building_chart()) add(std::move(*chart));
  Table table;
  table.caption = phrase("chronology.caption", {{"building", document_.subject}});
  table.columns = {phrase("chronology.when"), phrase("chronology.what")};
  table.widths = {28, 72};
  for (Moment& moment : moments) table.rows.push_back(row_of(std::move(moment)));
  add(std::move(table));
  section(2, "heading.phases-of-house", [&] { add_phase_bounds(); });
  section(2, "heading.ownership", [&] { add_ownership(); });
  section(2, "heading.rulings", [&] { add_rulings(nullptr); });
  end();
}

/// What a course of works put in or took out, by the evidence that says so of each part.
std::optional<Sentence> Builder::share_of_works(const Uuid& works, const std::string& relation) {
  std::vector<std::string> things;
  std::vector<int> notes;
  for (const Statement& said : teller_.said_to(works, relation)) {
    if (!teller_.record(said.content.subject)) continue;
    add_once(things, teller_.name(said.content.subject));
    add_notes(notes, teller_.cite(said));
  }
  if (things.empty()) return std::nullopt;
  constexpr std::size_t kNamed = 20;  // a house is not listed in its chronology
  const bool many = things.size() > kNamed;
  return sentence("chronology." + relation,
                  {{"works", teller_.name(works)},
                   {"many", std::string(many ? "yes" : "no")},
                   {"n", telling(kCount, std::to_string(things.size()))},
                   {"things", listing(things)}},
                  notes);
}

// Where the phases were parted, by whom, and why.
void Builder::add_phase_bounds() {
  List list;
  for (const TimelinePhase& phase : material_.timeline.phases) {
    const auto info = teller_.record(phase.record.id);
    if (!info) continue;
    std::vector<Sentence> told{phase_opening(phase, foreign(info->name) + ":")};
    for (const Statement& said : teller_.said(phase.record.id, "description"))
      told.push_back(as_sentence(foreign(said.content.value), teller_.cite(said)));
    for (const Statement& said : teller_.said(phase.record.id, "opened-by"))
      if (auto words = decision(said, "phase.divided")) told.push_back(std::move(*words));
    list.entries.push_back(paragraph(std::move(told)));
  }
  add(std::move(list));
}

std::vector<std::pair<Uuid, Statement>> Builder::roles_in_house() {
  std::vector<std::pair<Uuid, Statement>> found;
  material_.archive.each(Kind::agent, [&](const RecordView& agent) {
    for (const Statement* role : agent.all("role"))
      if (role->content.value == "owner" || role->content.value == "occupant")
        found.emplace_back(agent.info.id, *role);
  });
  std::stable_sort(found.begin(), found.end(), [](const auto& a, const auto& b) {
    return period_of(a.second).first < period_of(b.second).first;
  });
  return found;
}

// One row for each owner's time, with who else lived there and what the rooms were used for; a time without
// an owner of record is told as such.
void Builder::add_ownership() {
  std::vector<std::pair<Uuid, Statement>> owners, others;
  for (auto& one : roles_in_house()) (one.second.content.value == "owner" ? owners : others).push_back(one);
  std::vector<Statement> uses;
  for (const Uuid& place : material_.archive.places_within(material_.timeline.scope.id))
    for (const Statement& said : teller_.said(place, "use")) uses.push_back(said);
  Table table;
  table.caption = phrase("ownership.caption", {{"building", document_.subject}});
  table.columns = {phrase("ownership.when"), phrase("ownership.who"), phrase("ownership.use")};
  table.widths = {18, 27, 55};
  // A use that only touches the time of an owner by a year belongs to the other one.
  const auto meets = [](const DayRange& a, const DayRange& b) {
    constexpr Day kTouch = 366;
    return a.first < b.last - kTouch && b.first < a.last - kTouch;
  };
  std::vector<bool> told(uses.size());
  const auto uses_in = [&](const DayRange& time) {
    Cell cell;
    for (std::size_t at = 0; at < uses.size(); ++at)
      if (!period_words(uses[at]).empty() && meets(period_of(uses[at]), time)) {
        told[at] = true;
        cell.sentences.push_back(use_in_table(uses[at]));
      }
    if (cell.sentences.empty()) cell.sentences.push_back(as_words(phrase("ownership.none")));
    return cell;
  };
  std::optional<Day> covered;
  std::vector<int> before;
  for (const auto& [who, role] : owners) {
    const DayRange time = period_of(role);
    if (covered && time.first > *covered + 366) {
      // The notes are those of the owners before and after.
      add_notes(before, teller_.cite(role));
      Sentence when = as_label(telling(kDate, phrase("when.between", {{"from", closing_day(*covered)},
                                                                      {"to", opening_day(time.first)}})),
                               before);
      table.rows.push_back(
          {{}, {{{std::move(when)}, {}}, {{remark("ownership.gap")}, {}}, uses_in({*covered, time.first})}});
    }
    before = teller_.cite(role);
    covered = std::max(covered.value_or(time.last), time.last);
    Cell people;
    people.sentences.push_back(sentence(
        "ownership.owner", {{"who", teller_.name(who)}, {"doubt", teller_.doubt(role)}}, teller_.cite(role)));
    for (const auto& [other, as] : others)
      if (meets(period_of(as), time))
        people.sentences.push_back(sentence(
            "ownership.occupant",
            {{"who", teller_.name(other)}, {"period", period_words(as)}, {"doubt", teller_.doubt(as)}},
            teller_.cite(as)));
    Sentence when = as_label(period_words(role).empty() ? phrase("ownership.undated") : period_words(role),
                             teller_.cite(role));
    when.notes_beside = true;
    table.rows.push_back({{}, {{{std::move(when)}, {}}, std::move(people), uses_in(time)}});
  }
  Cell rest;
  for (std::size_t at = 0; at < uses.size(); ++at)
    if (!told[at]) rest.sentences.push_back(use_in_table(uses[at]));
  if (!rest.sentences.empty())
    table.rows.push_back({{},
                          {{{as_label(phrase("ownership.undated"))}, {}},
                           {{as_words(phrase("ownership.none"))}, {}},
                           std::move(rest)}});
  add(std::move(table));
}

Sentence Builder::use_in_table(const Statement& use) {
  const std::string who = foreign(use.content.qualifier("used-by"));
  const std::string period = period_words(use);
  return sentence("ownership.room",
                  {{"place", teller_.name(use.content.subject)},
                   {"period", period},
                   {"dated", std::string(period.empty() ? "no" : "yes")},
                   {"who", who},
                   {"by", std::string(who.empty() ? "no" : "yes")},
                   {"use", foreign(use.content.value)},
                   {"doubt", teller_.doubt(use)}},
                  teller_.cite(use));
}

}  // namespace lathbook::report
