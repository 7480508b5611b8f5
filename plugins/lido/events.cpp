// Events of a record: made, put in, taken out, found, and what is recorded as done to it.
#include <algorithm>

#include "core/base/edtf.hpp"
#include "core/view/addresses.hpp"
#include "core/view/words.hpp"
#include "plugins/lido/record.hpp"
#include "plugins/lido/terms.hpp"

namespace lathbook::lido {

namespace {

/// ISO 8601 of a bound; years beyond four digits have no common form and are left out.
std::string iso(const std::optional<Day>& day) {
  if (!day) return {};
  const CivilDay civil = civil_from_days(*day);
  return civil.year >= 0 && civil.year <= 9999 ? iso_day(*day) : std::string();
}

std::optional<Day> day_of(const Bound& bound) {
  return bound.known ? std::optional(bound.day) : std::nullopt;
}

bool known(const Span& span) {
  return span.earliest.known || span.latest.known;
}

std::string span_in_words(const Span& span) {
  const auto earliest = span.earliest.known ? "not before " + plain_day(span.earliest.day) : std::string();
  const auto latest = span.latest.known ? "not after " + plain_day(span.latest.day) : std::string();
  return earliest + (earliest.empty() || latest.empty() ? "" : ", ") + latest;
}

/// The steps that fix both bounds, in words.
std::string reasons_in_words(const Span& span) {
  std::string words;
  std::vector<std::string> told;
  for (const Bound* bound : {&span.earliest, &span.latest}) {
    for (const ReasonStep& step : bound->reason) {
      if (std::find(told.begin(), told.end(), step.words) != told.end()) continue;
      told.push_back(step.words);
      words += (words.empty() ? "" : "; ") + step.words;
    }
  }
  return words;
}

}  // namespace

void RecordWriter::begin_event(const EventTerm& term, const std::string& words) {
  // The wrapper comes with the first event: an empty one says nothing.
  if (event_ == 0) xml_.start("lido:eventWrap");
  xml_.start("lido:eventSet").attribute("lido:sortorder", std::to_string(++event_));
  if (!words.empty()) xml_.element("lido:displayEvent", words);
  xml_.start("lido:event");
  concept_of("lido:eventType", std::string(term::base) + std::string(term.id), term.label);
}

void RecordWriter::end_event() {
  xml_.end().end();
}

void RecordWriter::days(const std::string& earliest, const std::string& latest) {
  if (earliest.empty() && latest.empty()) return;
  xml_.start("lido:date");
  if (!earliest.empty()) xml_.element("lido:earliestDate", earliest);
  if (!latest.empty()) xml_.element("lido:latestDate", latest);
  xml_.end();
}

void RecordWriter::date(const Span& span) {
  if (!known(span)) return;
  xml_.start("lido:eventDate").element("lido:displayDate", span_in_words(span));
  days(iso(day_of(span.earliest)), iso(day_of(span.latest)));
  xml_.end();
}

/// Inside an element that holds a date: how it was put, and its bounds.
void RecordWriter::date(const std::string& edtf, const std::string& typed) {
  xml_.element("lido:displayDate", typed.empty() || typed == edtf ? edtf : typed + " (" + edtf + ")");
  const auto parsed = Edtf::try_parse(edtf);
  if (parsed) days(iso(parsed->earliest()), iso(parsed->latest()));
}

void RecordWriter::events() {
  production();
  placements();
  finding();
  for (const RecordView& event : object_.events) recorded(event);
  if (event_ != 0) xml_.end();
}

void RecordWriter::production() {
  const Statement* made = record_.best("made");
  const Statement* not_before = record_.best("made-not-before");
  const Span* span = object_.items.empty() ? nullptr : &object_.items.front()->made;
  const bool derived = span != nullptr && known(*span);
  bool maker = false;
  for (const RecordView& mark : object_.inscriptions)
    maker = maker || mark.best("blank-maker") != nullptr || mark.best("decorator") != nullptr;
  // That it was made before it was put in goes without saying.
  const bool begun = derived && span->earliest.known;
  if (made == nullptr && not_before == nullptr && !begun && !maker) return;
  begin_event(kProduction, "");
  makers();
  if (derived) {
    date(*span);
  } else if (made != nullptr) {
    xml_.start("lido:eventDate");
    date(record_.edtf("made"), made->content.value);
    xml_.end();
  } else if (not_before != nullptr) {
    const auto parsed = Edtf::try_parse(record_.edtf("made-not-before"));
    xml_.start("lido:eventDate").element("lido:displayDate", "not before " + not_before->content.value);
    if (parsed) days(iso(parsed->earliest()), "");
    xml_.end();
  }
  event_notes({"made", "made-not-before"}, record_);
  end_event();
}

bool RecordWriter::begin_actor(const Content& said) {
  const auto id = Uuid::parse(said.value);
  const std::string name = id ? agent_in_words(reader_, *id) : std::string();
  if (name.empty()) return false;
  xml_.start("lido:eventActor").start("lido:actorInRole").start("lido:actor");
  identifier("lido:actorID", term::uri_id, record_address(ground_.base, *id));
  appellation("lido:nameActorSet", name);
  xml_.end();
  return true;
}

void RecordWriter::makers() {
  for (const RecordView& mark : object_.inscriptions) {
    for (const char* property : {"blank-maker", "decorator"}) {
      for (const Statement* one : mark.all(property)) {
        if (!begin_actor(one->content)) continue;
        concept_of("lido:roleActor", "",
                   std::string_view(property) == "decorator" ? "decorator or seller" : "maker");
        if (one->content.confidence > Confidence::certain)
          xml_.element("lido:attributionQualifierActor", word(one->content.confidence));
        const std::string sources = citations_in_words(reader_, one->content);
        xml_.element("lido:sourceActorInRole", display(mark.info) + (sources.empty() ? "" : "; " + sources));
        xml_.end().end();
      }
    }
  }
}

void RecordWriter::periods(std::initializer_list<std::string_view> properties, int placement) {
  for (const auto property : properties) {
    for (const Statement* one : record_.all(property)) {
      const std::string said(one->content.qualifier("placement"));
      const bool here = said.empty() ? placement <= 1 : said == std::to_string(placement);
      const std::string name = value_in_words(reader_, one->content);
      if (!here || name.empty()) continue;
      const auto id = Uuid::parse(one->content.value);
      concept_of("lido:periodName", id ? record_address(ground_.base, *id) : "", name);
    }
  }
}

void RecordWriter::place(const Uuid& id) {
  const auto info = reader_.record(id);
  if (!info) return;
  identifier("lido:placeID", term::uri_id, record_address(ground_.base, id));
  appellation("lido:namePlaceSet", display(*info));
  // Storey, building, site: a handful of steps, and a loop that a merge made ends with them.
  const RecordView view = RecordView::read(reader_, *info);
  const auto outer = view.record("within");
  if (!outer || xml_.depth() > 24 || !reader_.record(*outer)) return;
  xml_.start("lido:partOfPlace");
  place(*outer);
  xml_.end();
}

void RecordWriter::placement(const TimelineItem& item) {
  begin_event(kPartAddition, known(item.begins) ? "Put in " + span_in_words(item.begins) : "Put in");
  date(item.begins);
  periods({"of-campaign", "of-phase"}, item.placement);
  for (const Statement* one : record_.all("stands-in")) {
    const auto room = Uuid::parse(one->content.value);
    if (!room || !reader_.record(*room)) continue;
    xml_.start("lido:eventPlace").start("lido:place");
    place(*room);
    xml_.end().end();
  }
  const std::string reasons = reasons_in_words(item.begins);
  if (!reasons.empty())
    xml_.start("lido:eventDescriptionSet").element("lido:descriptiveNoteValue", reasons).end();
  end_event();
  if (!known(item.ends)) return;
  begin_event(kPartRemoval, "Taken away " + span_in_words(item.ends));
  date(item.ends);
  periods({"removed-in-campaign", "gone-in-phase"}, item.placement);
  const std::string why = reasons_in_words(item.ends);
  if (!why.empty()) xml_.start("lido:eventDescriptionSet").element("lido:descriptiveNoteValue", why).end();
  end_event();
}

/// What somebody stated, where no timeline could be had.
void RecordWriter::stated_placement() {
  const std::pair<const char*, const EventTerm*> stated[] = {{"installed", &kPartAddition},
                                                             {"removed-for-good", &kPartRemoval}};
  for (const auto& [property, term] : stated) {
    for (const Statement* one : record_.all(property)) {
      begin_event(*term, "");
      xml_.start("lido:eventDate");
      date(std::string(edtf_of(one->content)), one->content.value);
      xml_.end();
      end_event();
    }
  }
}

void RecordWriter::placements() {
  bool any = false;
  for (const TimelineItem* item : object_.items) {
    if (item->placement == 0) continue;
    any = true;
    placement(*item);
  }
  if (!any) stated_placement();
}

void RecordWriter::finding() {
  const auto found_in = record_.record("found-in");
  if (!found_in || !reader_.record(*found_in)) return;
  begin_event(kFinding, "");
  xml_.start("lido:eventPlace").start("lido:place");
  place(*found_in);
  xml_.end().end();
  event_notes({"found-in"}, record_);
  end_event();
}

void RecordWriter::event_notes(std::initializer_list<std::string_view> properties, const RecordView& record) {
  for (const auto property : properties) {
    for (const Statement* one : record.all(property)) {
      const std::string words = value_in_words(reader_, one->content);
      if (words.empty()) continue;
      const std::string grounds = ground_in_words(one->content);
      xml_.start("lido:eventDescriptionSet")
          .attribute("lido:type", Registry::standard().named(property).label);
      xml_.element("lido:descriptiveNoteValue", grounds.empty() ? words : words + " (" + grounds + ")");
      const std::string sources = citations_in_words(reader_, one->content);
      if (!sources.empty()) xml_.element("lido:sourceDescriptiveNote", sources);
      xml_.end();
    }
  }
}

void RecordWriter::recorded(const RecordView& event) {
  begin_event(event_term(event.text("event-type")), display(event.info));
  // Before the parts that the schema wants after them: the event's own address stands in its description.
  for (const Statement* one : event.all("done-by")) {
    if (begin_actor(one->content)) xml_.end().end();
  }
  if (const Statement* when = event.best("event-date")) {
    xml_.start("lido:eventDate");
    date(event.edtf("event-date"), when->content.value);
    xml_.end();
  }
  xml_.start("lido:eventDescriptionSet").start("lido:descriptiveNoteID").attribute("lido:type", term::uri_id);
  xml_.text(record_address(ground_.base, event.info.id)).end();
  xml_.element("lido:descriptiveNoteValue",
               event.text("event-type").empty() ? "event" : event.text("event-type"));
  xml_.end();
  event_notes({"tools", "outcome", "lesson", "hazard-met", "moved-to", "of-works", "note"}, event);
  end_event();
}

}  // namespace lathbook::lido
