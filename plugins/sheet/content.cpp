// Title, names, dates with their reasons, cautions and settings of the sheet.
#include "plugins/sheet/content.hpp"

#include <algorithm>

#include "core/base/edtf.hpp"
#include "core/base/error.hpp"
#include "core/base/text.hpp"
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

Sheet build_sheet(const Snapshot& archive, const Timeline& timeline) {
  return Builder(archive, timeline).build();
}

Builder::Builder(const Snapshot& archive, const Timeline& timeline) : timeline_(timeline), teller_(archive) {
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
      thing.name +=
          ", placement " + std::to_string(item.placement) + " of " + std::to_string(item.placements);
    if (info.kind == Kind::element) thing.type = foreign(view.text("element-type"));
    if (info.kind == Kind::finish) thing.type = foreign(view.text("layer-role"));
    thing.material = foreign(view.text("material"));
    sheet_.things.push_back(std::move(thing));
  }
  add_title();
  add_names(*scope);
  add_phases();
  add_others();
  add_contradictions();
  add_rulings();
  add_cautions();
  add_settings();
  add_table();
  sheet_.sources = teller_.sources();
  sheet_.notes = teller_.take_notes();
  return std::move(sheet_);
}

void Builder::add_title() {
  const Reading& reading = timeline_.reading;
  sheet_.known = plain_day(reading.known_day) + (reading.is_head ? "" : " (an older state of the archive)");
  sheet_.fingerprint = reading.fingerprint.hex();
  sheet_.trusted = trusted_words(timeline_.level);
  if (reading.withheld != 0)
    sheet_.withheld = grouped(reading.withheld) +
                      (reading.withheld == 1 ? " statement is" : " statements are") +
                      " withheld; dates may be narrower in the private archive.";
  if (reading.with_private)
    sheet_.private_copy = "Private copy: it holds what is kept from the public. Do not pass it on.";
}

void Builder::add_names(const RecordInfo& scope) {
  const auto period = [](const std::string& from, const std::string& to) {
    if (from.empty() && to.empty()) return std::string();
    if (to.empty()) return "from " + date_words(from);
    return (from.empty() ? "until " : date_words(from) + " to ") + date_words(to);
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
          {name.sort, name.used_by.empty() ? "" : "used by " + name.used_by}, *statement);
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
      return date_words(date->text());
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
      const std::string words = status == "not tested" ? "not tested: presume present"
                                : status == "presumed" ? "presumed present"
                                                       : foreign(status);
      sheet_.cautions.push_back(sentence_of(
          capital(foreign(statement.content.value)) + ", " + words + ", in " + teller_.name(subject) + ".",
          teller_.cite(statement)));
    }
  if (!sheet_.cautions.empty())
    sheet_.cautions.push_back(
        sentence_of("Local code comes before anything said here, and work on any of these is for people "
                    "licensed to do it."));
}

void Builder::add_settings() {
  for (const ReasonStep& setting : timeline_.settings) {
    std::string words = capital(foreign(setting.words));
    std::vector<int> notes;
    if (setting.statement != Digest{}) {
      const auto statement = teller_.statement(setting.statement);
      if (!statement) continue;
      words += " (set by statement " + statement->name() + ")";
      if (!statement->content.citations.empty()) notes = teller_.cite(*statement);
    }
    sheet_.settings.push_back(sentence_of(words + ".", notes));
  }
  const auto contested = [](const Why& why) { return why.words.find(english().leaned) != std::string::npos; };
  if (std::any_of(sheet_.whys.begin(), sheet_.whys.end(), contested))
    sheet_.settings.push_back(
        sentence_of("A date is called contested when it would be another if conflicting evidence had not "
                    "been set aside."));
  sheet_.settings.push_back(
      sentence_of(grouped(timeline_.statements_used) + " statements took part in the dates."));
}

void Builder::add_table() {
  for (std::size_t at = 0; at < items_.size(); ++at) {
    Thing& thing = sheet_.things[at];
    const auto fill_in = [&](const Span& span, Side side, const std::string& label, std::string& words,
                             std::optional<std::size_t>& place) {
      if (!span.earliest.known && !span.latest.known) return;
      place = why(at, side, span, label + teller_.name(items_[at].record.id));
      Sentence sentence;
      add_date(sentence, *place);
      words = sentence.words();
      add_notes(thing.notes, sentence.notes);
    };
    if (is_piece(at)) {
      fill_in(items_[at].made, Side::made, "making of ", thing.begins, thing.begins_why);
      thing.begins = thing.begins.empty() ? "not dated" : "made " + thing.begins;
      continue;
    }
    fill_in(items_[at].begins, Side::begins, "beginning of ", thing.begins, thing.begins_why);
    fill_in(items_[at].ends, Side::ends, "end of ", thing.ends, thing.ends_why);
    if (thing.begins.empty()) thing.begins = "not dated";
    if (!items_[at].ends.latest.known)
      thing.ends = items_[at].last_seen.empty() ? "not known" : foreign(items_[at].last_seen);
  }
  sheet_.drawing = drawing_of(timeline_, items_, teller_);
}

}  // namespace lathbook::sheet
