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
  Sentence when = as_words(telling(kDate, moment.when), moment.what.notes);
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

std::string number_of(std::string_view name) {
  return is_plural(name) ? "many" : "one";
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
    moments.push_back({day, capital(std::string(trim(without_marks(when)))), std::move(what)});
  };
  const auto tell_span = [&](const Span& span, const std::string& key, MessageValues values,
                             std::vector<int> notes = {}) {
    if (!is_dated(span)) return;
    add_notes(notes, teller_.cite(span));
    values.emplace_back("surely", surely(span));
    tell(first_day(span), when(span, teller_.about(span)), sentence(key, values, notes));
  };
  const auto tell_period = [&](const Statement& said, const std::string& key, MessageValues values) {
    const std::string from(said.content.qualifier("from")), to(said.content.qualifier("to"));
    if (from.empty() && to.empty()) return;
    values.emplace_back("doubt", teller_.doubt(said));
    const std::string words =
        phrase(to.empty()     ? "period.from"
               : from.empty() ? "period.until"
                              : "period.both",
               {{"from", foreign(date_in_words(from))}, {"to", foreign(date_in_words(to))}});
    tell(first_day(from.empty() ? to : from), words, sentence(key, values, teller_.cite(said)));
  };

  const Timeline& timeline = material_.timeline;
  for (const TimelineWorks& works : timeline.works) {
    if (!teller_.record(works.record.id)) continue;
    const std::string name = teller_.name(works.record.id);
    tell_span(works.begins, "chronology.works-begin", {{"works", name}});
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
    for (const Statement& said : teller_.said(place, "use"))
      tell_period(said, "chronology.use",
                  {{"place", teller_.name(place)},
                   {"use", foreign(said.content.value)},
                   {"who", foreign(said.content.qualifier("used-by"))},
                   {"by", std::string(said.content.qualifier("used-by").empty() ? "no" : "yes")}});
  }
  material_.archive.each(Kind::agent, [&](const RecordView& agent) {
    for (const Statement* role : agent.all("role"))
      if (role->content.value == "owner" || role->content.value == "occupant")
        tell_period(*role, "chronology.role",
                    {{"who", teller_.name(agent.info.id)}, {"role", foreign(role->content.value)}});
  });
  for (std::size_t at = 0; at < timeline.items.size(); ++at) {
    const TimelineItem& one = item(at);
    if (!is_thing(at) || !teller_.record(one.record.id)) continue;
    const auto piecemeal = std::any_of(one.phases.begin(), one.phases.end(), [](const PhasePart& part) {
      return part.installed != Membership::no && part.how == "piecemeal";
    });
    const std::string of_class = teller_.view(one.record.id).text("element-class");
    if (has_own_date(one.begins) && (piecemeal || one.phases.empty() || one.placement > 1))
      tell_span(one.begins, "chronology.came",
                {{"thing", teller_.name(one.record.id)},
                 {"number", number_of(one.record.name)},
                 {"verb", phrase("verb", {{"class", choice(of_class)}})}});
    if (has_own_date(one.ends))
      tell_span(one.ends, "chronology.went",
                {{"thing", teller_.name(one.record.id)}, {"number", number_of(one.record.name)}});
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
  add_rulings(nullptr);
  end();
}

}  // namespace lathbook::report
