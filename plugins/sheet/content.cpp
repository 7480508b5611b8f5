// Title, names, dates with their reasons, cautions and settings of the sheet.
#include "plugins/sheet/content.hpp"

#include <algorithm>

#include "core/base/edtf.hpp"
#include "core/base/error.hpp"
#include "core/base/text.hpp"
#include "core/view/plain_words.hpp"
#include "core/view/stops.hpp"
#include "plugins/sheet/builder.hpp"
#include "plugins/sheet/draw_model.hpp"
#include "plugins/sheet/phrases.hpp"

namespace lathbook::sheet {

std::string Sentence::words() const {
  std::string all;
  for (const Part& part : parts) all += part.words;
  return all;
}

Sentence sentence_of(std::string words, const std::vector<int>& notes) {
  Sentence sentence;
  sentence.parts.push_back({std::move(words), std::nullopt, false});
  add_notes(sentence.notes, notes);
  return sentence;
}

Sheet build_sheet(const Snapshot& archive, const Timeline& timeline, const std::vector<Digest>& leave_out) {
  return Builder(archive, timeline, leave_out).build();
}

Builder::Builder(const Snapshot& archive, const Timeline& timeline, const std::vector<Digest>& leave_out)
    : timeline_(timeline), leave_out_(leave_out), teller_(archive, leave_out_) {
  for (const TimelineItem& item : timeline.items)
    if (teller_.record(item.record.id)) items_.push_back(item);
  told_.resize(items_.size());
}

Sheet Builder::build() {
  const auto scope = teller_.record(timeline_.scope.id);
  if (!scope)
    fail(ErrorKind::not_found, "this reading of the archive has no such place; name a room or a building");
  sheet_.code = foreign(scope->code);
  sheet_.title = foreign(scope->name.empty() ? display(*scope) : scope->name);
  for (const TimelineItem& item : items_) {
    const RecordInfo info = *teller_.record(item.record.id);
    const RecordView view = RecordView::read(teller_.reader(), info);
    Thing thing;
    thing.code = foreign(info.code);
    thing.name = foreign(info.name.empty() ? display(info) : info.name);
    if (item.placements > 1)
      thing.name += fill(english().placement_of,
                         {{"n", std::to_string(item.placement)}, {"m", std::to_string(item.placements)}});
    if (info.kind == Kind::element) thing.type = foreign(view.text("element-type"));
    if (info.kind == Kind::finish) thing.type = foreign(view.text("layer-role"));
    thing.material = foreign(view.text("material"));
    sheet_.things.push_back(std::move(thing));
  }
  add_title();
  add_stops();
  add_what_if();
  add_names(*scope);
  add_phases();
  add_others();
  add_works();
  add_contradictions();
  add_rulings();
  add_examinations();
  add_tasks();
  add_cautions();
  add_settings();
  add_table();
  sheet_.sources = teller_.sources();
  sheet_.notes = teller_.take_notes();
  return std::move(sheet_);
}

void Builder::add_title() {
  const Reading& reading = timeline_.reading;
  sheet_.known =
      plain_day(reading.known_day) + (reading.is_head ? std::string() : std::string(english().older_state));
  sheet_.fingerprint = reading.fingerprint.hex();
  sheet_.trusted = trusted_words(timeline_.level);
  if (reading.withheld != 0)
    sheet_.withheld = fill(reading.withheld == 1 ? english().withheld_one : english().withheld_many,
                           {{"n", grouped(reading.withheld)}});
  if (reading.with_private) sheet_.private_copy = english().private_copy;
}

// Whoever opens the history of a room is told first that nothing may be touched there.
void Builder::add_stops() {
  const Snapshot archive(teller_.reader());
  const auto stops = stops_around(archive, {timeline_.scope.id});
  std::vector<int> notes;
  for (const auto& stop : stops)
    if (const auto statement = teller_.statement(stop.statement)) add_notes(notes, teller_.cite(*statement));
  for (const auto& line : stop_lines(stops)) sheet_.stopped.push_back(sentence_of(line));
  if (!sheet_.stopped.empty()) sheet_.stopped.back().notes = notes;
}

void Builder::add_what_if() {
  for (const Digest& id : leave_out_) {
    const auto statement = teller_.statement(id);
    if (!statement) continue;
    sheet_.what_if.push_back(sentence_of(
        fill(english().left_out, {{"what", teller_.say(*statement)}, {"name", statement->name()}}),
        teller_.cite(*statement)));
  }
}

void Builder::add_names(const RecordInfo& scope) {
  const auto period = [](const std::string& from, const std::string& to) {
    if (from.empty() && to.empty()) return std::string();
    const Words& words = english();
    const std::string first = date_in_words(from), last = date_in_words(to);
    if (to.empty()) return fill(words.from_date, {{"from", first}});
    return fill(from.empty() ? words.until_date : words.from_to, {{"from", first}, {"to", last}});
  };
  const auto add = [&](std::vector<Sentence>& list, const std::string& text, const std::string& dates,
                       const std::vector<std::string>& details, const Statement& statement) {
    Sentence sentence;
    sentence.parts.push_back({foreign(text), std::nullopt, false});
    if (!dates.empty()) {
      sentence.parts.push_back({", ", std::nullopt, false});
      sentence.parts.push_back({foreign(dates), std::nullopt, true});
    }
    for (const std::string& detail : details)
      if (!detail.empty()) sentence.parts.push_back({", " + foreign(detail), std::nullopt, false});
    sentence.parts.push_back({".", std::nullopt, false});
    sentence.notes = teller_.cite(statement);
    list.push_back(std::move(sentence));
  };
  const PlaceView place(RecordView::read(teller_.reader(), scope));
  for (const NameView& name : place.names)
    if (const auto statement = teller_.statement(name.statement))
      add(sheet_.names, "“" + name.text + "”", period(name.from, name.to),
          {name.sort, name.used_by.empty() ? "" : fill(english().used_by, {{"who", name.used_by}})},
          *statement);
  for (const Statement* use : place.record.all("use"))
    add(sheet_.uses, capital(use->content.value),
        period(std::string(use->content.qualifier("from")), std::string(use->content.qualifier("to"))),
        {std::string(use->content.qualifier("used-by"))}, *use);
}

std::string Builder::about(const Span& span) const {
  if (!span.earliest.known || !span.latest.known || span.earliest.day == span.latest.day) return {};
  const Day middle = span.earliest.day + (span.latest.day - span.earliest.day) / 2;
  for (const ReasonStep& step : span.earliest.reason) {
    const auto same = [&](const ReasonStep& other) { return other.statement == step.statement; };
    if (step.statement == Digest{} ||
        std::none_of(span.latest.reason.begin(), span.latest.reason.end(), same))
      continue;
    const auto statement = teller_.statement(step.statement);
    if (!statement) continue;
    const auto date = Edtf::try_parse(edtf_of(statement->content));
    const EdtfDate* point = date && date->shape() == EdtfShape::date ? date->first_date() : nullptr;
    if (point && point->qualifier().approximate && point->earliest <= middle && middle <= point->latest)
      return date_in_words(date->text());
  }
  return {};
}

Chain Builder::chain(const Bound& bound, bool earliest) {
  Chain chain;
  chain.words = one_bound(bound, earliest);
  if (!bound.known) return chain;
  chain.day = bound.day;
  std::set<Digest> shown;
  for (const ReasonStep& reason : bound.reason) chain.steps.push_back(teller_.step(reason, shown));
  return chain;
}

std::size_t Builder::why(std::size_t at, Side side, const Span& span, const std::string& label) {
  const auto [place, is_new] = why_places_.try_emplace({at, side}, sheet_.whys.size());
  if (is_new)
    sheet_.whys.push_back({label, when(span, about(span)) + caveat(span), chain(span.earliest, true),
                           chain(span.latest, false)});
  return place->second;
}

void Builder::add_date(Sentence& sentence, std::size_t why_at) const {
  const Why& reasons = sheet_.whys[why_at];
  const bool fixed = reasons.earliest.day || reasons.latest.day;
  sentence.parts.push_back({reasons.words, fixed ? std::optional<std::size_t>(why_at) : std::nullopt, fixed});
  for (const Chain* chain : {&reasons.earliest, &reasons.latest})
    for (const Step& step : chain->steps) add_notes(sentence.notes, step.notes);
}

void Builder::add_cautions() {
  std::vector<Uuid> subjects = Snapshot(teller_.reader()).places_within(timeline_.scope.id);
  for (const TimelineItem& item : items_) subjects.push_back(item.record.id);
  std::set<Digest> seen;
  for (const Uuid& subject : subjects)
    for (const Statement& statement : teller_.said(subject, "hazard")) {
      if (!seen.insert(statement.id).second) continue;
      const std::string status(statement.content.qualifier("status"));
      const std::string found = status == "not tested" ? std::string(english().not_tested)
                                : status == "presumed" ? std::string(english().presumed)
                                                       : foreign(status);
      sheet_.cautions.push_back(
          sentence_of(fill(english().hazard, {{"hazard", capital(foreign(statement.content.value))},
                                              {"status", found},
                                              {"where", teller_.name(subject)}}),
                      teller_.cite(statement)));
    }
  for (const auto& stop : stops_around(Snapshot(teller_.reader()), {timeline_.scope.id}))
    for (const auto& hazard : stop.hazards)
      for (const auto& at : stop.at)
        sheet_.cautions.push_back(
            sentence_of(fill(english().hazard, {{"hazard", capital(foreign(hazard))},
                                                {"status", std::string(english().presumed)},
                                                {"where", teller_.name(at.id)}})));
  if (!sheet_.cautions.empty()) sheet_.cautions.push_back(sentence_of(std::string(english().local_code)));
}

void Builder::add_settings() {
  for (const ReasonStep& setting : timeline_.settings) {
    std::string words = capital(foreign(setting.words));
    std::vector<int> notes;
    if (setting.statement != Digest{}) {
      const auto statement = teller_.statement(setting.statement);
      if (!statement) continue;
      words += fill(english().set_by, {{"name", statement->name()}});
      if (!statement->content.citations.empty()) notes = teller_.cite(*statement);
    }
    sheet_.settings.push_back(sentence_of(words + ".", notes));
  }
  const auto contested = [](const Why& why) { return why.words.find(english().leaned) != std::string::npos; };
  if (std::any_of(sheet_.whys.begin(), sheet_.whys.end(), contested))
    sheet_.settings.push_back(sentence_of(std::string(english().contested_means)));
  sheet_.settings.push_back(
      sentence_of(fill(english().took_part, {{"n", grouped(timeline_.statements_used)}})));
}

void Builder::add_table() {
  for (std::size_t at = 0; at < items_.size(); ++at) {
    Thing& thing = sheet_.things[at];
    const auto fill_in = [&](const Span& span, Side side, std::string_view label, std::string& words,
                             std::optional<std::size_t>& place) {
      if (!span.earliest.known && !span.latest.known) return;
      place = why(at, side, span, std::string(label) + teller_.name(items_[at].record.id));
      Sentence sentence;
      add_date(sentence, *place);
      words = sentence.words();
      add_notes(thing.notes, sentence.notes);
    };
    if (is_piece(at)) {
      fill_in(items_[at].made, Side::made, english().making_of, thing.begins, thing.begins_why);
      thing.begins = thing.begins.empty() ? std::string(english().not_dated)
                                          : fill(english().made_when, {{"when", thing.begins}});
      continue;
    }
    fill_in(items_[at].begins, Side::begins, english().beginning_of, thing.begins, thing.begins_why);
    fill_in(items_[at].ends, Side::ends, english().end_of, thing.ends, thing.ends_why);
    if (thing.begins.empty()) thing.begins = english().not_dated;
    if (!items_[at].ends.latest.known)
      thing.ends =
          items_[at].last_seen.empty() ? std::string(english().not_known) : foreign(items_[at].last_seen);
  }
  sheet_.drawing = drawing_of(timeline_, items_, teller_);
  add_source_dates();
}

// What the network knows of a source's own day, where that is a stretch: it may be narrower than its label.
void Builder::add_source_dates() {
  for (Tick& tick : sheet_.drawing.ticks)
    for (std::size_t at = 0; at < timeline_.sources.size(); ++at) {
      const TimelineEvent& event = timeline_.sources[at];
      const Span& when = event.when;
      if (event.source != tick.source || !when.earliest.known || !when.latest.known) continue;
      if (when.earliest.day == when.latest.day) continue;
      tick.sentence.parts.front().words.pop_back();
      tick.sentence.parts.push_back({std::string(english().source_made), std::nullopt, false});
      const std::size_t key = items_.size() + timeline_.phases.size() + timeline_.works.size() + at;
      add_date(tick.sentence,
               why(key, Side::source, when, std::string(english().making_of) + teller_.name(event.source)));
      tick.sentence.parts.push_back({".", std::nullopt, false});
    }
}

}  // namespace lathbook::sheet
