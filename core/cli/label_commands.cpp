// Labels: the room each means, linking a component to it, and what else was made for a room.
#include <algorithm>
#include <map>

#include "core/base/json_writer.hpp"
#include "core/base/text.hpp"
#include "core/cli/drafting.hpp"
#include "core/cli/scope_words.hpp"
#include "core/evidence/registry.hpp"
#include "core/view/snapshot.hpp"

namespace lathbook::cli {

namespace {

constexpr double kWorthListing = 0.15;  // share of a room among all a label may mean

void set(Settings& settings, const std::string& name, const std::string& value) {
  if (!value.empty()) settings.emplace_back(name, value);
}

const LabelReadings& readings_of(Context& context, const Snapshot& snapshot, const Uuid& scope) {
  AnalysisRequest request;
  request.scope = scope;
  const auto& result = context.plugins().run_analysis("labels", snapshot, request);
  const auto* found = std::get_if<LabelReadings>(&result);
  if (found == nullptr) fail(ErrorKind::unsupported, "the labels plugin gave no readings");
  return *found;
}

bool is_component(Kind kind) {
  return kind == Kind::element || kind == Kind::piece || kind == Kind::find;
}

std::uint32_t id_of(const char* property) {
  return Registry::standard().named(property).id;
}

// --- linking

// The label that is meant: the one named, else the only one on the component; nothing without either.
std::optional<RecordInfo> label_meant(const StatementReader& reader, const RecordInfo& component,
                                      const Link& wanted) {
  if (!wanted.label.empty()) return need_record(reader, wanted.label);
  if (!wanted.room.empty()) return std::nullopt;
  std::vector<RecordInfo> labels;
  Query query;
  query.object = component.id;
  query.properties = {id_of("label-on")};
  reader.each_statement(query, [&](const Statement& statement) {
    if (const auto label = reader.record(statement.content.subject)) labels.push_back(*label);
    return true;
  });
  if (labels.size() == 1) return labels.front();
  if (labels.empty())
    fail(ErrorKind::invalid,
         display(component) + " bears no label on record; name the room you judge it was made for");
  std::vector<std::string> names;
  for (const auto& label : labels) names.push_back(label.code);
  fail(ErrorKind::invalid,
       display(component) + " bears several labels; say which with --label: " + join(names, ", "));
}

void check_carrier(const StatementReader& reader, const RecordView& label, const RecordInfo& component) {
  if (const auto carrier = label.record("label-on"); carrier && *carrier != component.id) {
    const auto other = reader.record(*carrier);
    fail(ErrorKind::invalid, display(label.info) + " is written on " +
                                 (other ? display(*other) : "another thing") + ", not on " +
                                 display(component) + "; a label speaks for what carries it");
  }
  if (label.best("transcription") == nullptr)
    fail(ErrorKind::invalid, display(label.info) + " has no transcription; record what it says first");
}

// The reading of the best transcription, when the plugin is there; without it a room must be named.
std::optional<LabelReading> reading_of(Context& context, const StatementReader& reader,
                                       const RecordView& label, const Link& wanted) {
  const Snapshot snapshot(reader);
  try {
    const Digest best = label.best("transcription")->id;
    for (const auto& reading : readings_of(context, snapshot, label.info.id).labels)
      if (reading.transcription == best) return reading;
  } catch (const Error& error) {
    if (wanted.room.empty() || error.kind() == ErrorKind::io) throw;
    context.err() << "the label was not read: " << safe_display(error.what()) << '\n';
  }
  return std::nullopt;
}

RecordInfo room_meant(const StatementReader& reader, const std::optional<LabelReading>& reading,
                      const Link& wanted) {
  if (!wanted.room.empty()) return need_record(reader, wanted.room);
  if (!reading) fail(ErrorKind::unsupported, "the label was not read; name the room you judge it means");
  if (reading->verdict == LabelVerdict::clear) return reading->candidates.front().place;
  fail(ErrorKind::invalid, reading->label.code + " names no one room for sure. " + reading->words +
                               " Name the room you judge it means (lathbook where-to " + reading->label.code +
                               " has the reasons)");
}

// What is on packing or says no place is taken for one only at a person's own reasoned word.
void refuse_address(const LabelReading& reading, const Link& wanted) {
  const bool address =
      reading.verdict == LabelVerdict::not_a_destination || reading.verdict == LabelVerdict::assembly_number;
  if (!address || !wanted.ground.why.empty() || !wanted.fit.empty()) return;
  fail(ErrorKind::invalid, reading.label.code + " is not taken for a place. " + reading.words +
                               " If you judge otherwise, say why with --why");
}

const LabelCandidate* candidate_of(const std::optional<LabelReading>& reading, const Uuid& room) {
  if (!reading) return nullptr;
  for (const auto& candidate : reading->candidates)
    if (candidate.place.id == room) return &candidate;
  return nullptr;
}

// The label's own reading is the ground, and its source the citation, unless others are named.
void rest_on_label(const StatementReader& reader, const RecordView& label, const LabelCandidate* candidate,
                   Ground& ground) {
  const Statement* said = label.best("transcription");
  if (ground.because.empty()) {
    ground.because.push_back(said->id.hex());
    if (candidate != nullptr) {
      for (const auto& factor : candidate->factors) {
        const std::string hex = factor.statement.hex();
        const bool known =
            std::find(ground.because.begin(), ground.because.end(), hex) != ground.because.end();
        if (factor.statement != Digest{} && !known) ground.because.push_back(hex);
      }
    }
  }
  if (!ground.source.empty() || said->content.citations.empty()) return;
  const auto& citation = said->content.citations.front();
  if (const auto source = reader.record(citation.source)) ground.source = source->code;
  if (ground.locator.empty()) ground.locator = citation.locator;
  if (ground.quote.empty()) ground.quote = said->content.value;
}

void tell_marked(const Context& context, const std::optional<LabelReading>& reading,
                 const LabelCandidate* candidate) {
  if (reading && candidate == nullptr)
    context.out() << "  the label's own reading does not lead to this room: " << safe_display(reading->words)
                  << '\n';
  if (candidate != nullptr)
    for (const auto& open : candidate->left_open)
      context.out() << "  left open: " << safe_display(open) << '\n';
  if (reading)
    for (const auto& caution : reading->cautions)
      context.out() << "  take care: " << safe_display(caution) << '\n';
  context.out()
      << "  marked for the room, fit not tested: when holes, ghost, size or finish fit, or somebody "
         "saw it there,\n  say so with --fit (and --tested)\n";
}

// --- what was made for a room

struct MadeRow {
  RecordInfo component;
  std::string state;
  std::string part;
  std::string by;  // the label's words
};

// "L-01 “CHART RM O/ OFF.”": the transcription among the grounds, else the quotation.
std::string label_words(const StatementReader& reader, const Content& content) {
  for (const auto& ground : content.grounds) {
    const auto statement = reader.statement(ground);
    if (!statement || statement->content.property != id_of("transcription")) continue;
    const auto label = reader.record(statement->content.subject);
    return (label ? label->code + " " : std::string()) + quote(statement->content.value);
  }
  for (const auto& citation : content.citations)
    if (!citation.quote.empty()) return quote(citation.quote);
  return {};
}

std::vector<MadeRow> made_rows(const StatementReader& reader, const Uuid& room, const Uuid& but) {
  std::vector<MadeRow> rows;
  Query query;
  query.object = room;
  query.properties = {id_of("intended-for"), id_of("fitted-in")};
  reader.each_statement(query, [&](const Statement& statement) {
    const auto component = reader.record(statement.content.subject);
    if (!component || component->id == but) return true;
    const bool fits = statement.content.property == id_of("fitted-in");
    auto row = std::find_if(rows.begin(), rows.end(),
                            [&](const MadeRow& known) { return known.component.id == component->id; });
    if (row == rows.end())
      row = rows.insert(rows.end(), {*component, "marked for it; fit not tested", {}, {}});
    if (fits) {
      const auto tested = statement.content.qualifier("tested");
      row->state = "fitted: " + std::string(statement.content.qualifier("fit")) +
                   (tested.empty() ? "" : " (" + std::string(tested) + ")");
    } else {
      row->part = statement.content.qualifier("part");
      row->by = label_words(reader, statement.content);
    }
    return true;
  });
  std::stable_sort(rows.begin(), rows.end(), [](const MadeRow& a, const MadeRow& b) {
    return compare_for_people(a.component.code, b.component.code) < 0;
  });
  return rows;
}

// Components whose labels may mean the room and that nobody has linked to any yet.
std::vector<MadeRow> perhaps_rows(const LabelReadings& readings, const StatementReader& reader,
                                  const Uuid& room, const Uuid& but) {
  std::vector<MadeRow> rows;
  for (const auto& reading : readings.labels) {
    if (!is_component(reading.carrier.kind) || reading.carrier.id == but) continue;
    if (reading.verdict != LabelVerdict::clear && reading.verdict != LabelVerdict::ambiguous) continue;
    const auto fits = [&](const LabelCandidate& one) {
      return one.place.id == room && one.share >= kWorthListing;
    };
    if (std::none_of(reading.candidates.begin(), reading.candidates.end(), fits)) continue;
    Query query;
    query.subject = reading.carrier.id;
    query.properties = {id_of("intended-for"), id_of("fitted-in")};
    bool linked = false;
    reader.each_statement(query, [&](const Statement&) {
      linked = true;
      return false;
    });
    if (linked) continue;
    rows.push_back({reading.carrier,
                    reading.verdict == LabelVerdict::clear ? "not linked yet; its label means it"
                                                           : "not linked; its label may mean it",
                    reading.part, reading.label.code + " " + quote(reading.text)});
  }
  return rows;
}

void add_perhaps(Context& context, const StatementReader& reader, const Uuid& room, const Uuid& but,
                 std::vector<MadeRow>& rows) {
  const Snapshot snapshot(reader);
  try {
    for (auto& row : perhaps_rows(readings_of(context, snapshot, {}), reader, room, but))
      rows.push_back(std::move(row));
  } catch (const Error& error) {
    if (error.kind() == ErrorKind::io || error.kind() == ErrorKind::corrupt) throw;
    context.err() << "labels not linked yet were not read: " << safe_display(error.what()) << '\n';
  }
}

void json_rows(JsonWriter& json, const RecordInfo& room, const std::vector<MadeRow>& rows) {
  for (const auto& row : rows) {
    json.begin_object().key("code").string(row.component.code).key("name").string(row.component.name);
    json.key("state").string(row.state).key("part").string(row.part).key("label").string(row.by);
    json.key("room").string(room.code).end_object();
  }
}

// Two columns, and under each thing its part and the words of its label.
void tell_rows(const Context& context, const std::vector<MadeRow>& rows) {
  std::size_t widest = 0;
  for (const auto& row : rows) widest = std::max(widest, display_width(safe_display(display(row.component))));
  for (const auto& row : rows) {
    const std::string name = safe_display(display(row.component));
    context.out() << context.strong(name) << std::string(widest - display_width(name) + 2, ' ')
                  << safe_display(row.state) << '\n';
    if (row.part.empty() && row.by.empty()) continue;
    context.out() << "  " << safe_display(row.part) << (row.part.empty() || row.by.empty() ? "" : "; ")
                  << safe_display(row.by) << '\n';
  }
}

// The rooms a component is marked for or fitted in.
std::vector<RecordInfo> rooms_of(const StatementReader& reader, const RecordInfo& component) {
  std::vector<RecordInfo> rooms;
  Query query;
  query.subject = component.id;
  query.properties = {id_of("intended-for"), id_of("fitted-in")};
  reader.each_statement(query, [&](const Statement& statement) {
    const auto id = Uuid::parse(statement.content.value);
    const auto room = id ? reader.record(*id) : std::nullopt;
    const auto same = [&](const RecordInfo& known) { return known.id == room->id; };
    if (room && std::none_of(rooms.begin(), rooms.end(), same)) rooms.push_back(*room);
    return true;
  });
  return rooms;
}

int no_home(Context& context, const StatementReader& reader) {
  const Snapshot snapshot(reader);
  const auto& readings = readings_of(context, snapshot, {});
  std::map<std::string, std::pair<RecordInfo, std::vector<const LabelReading*>>> things;
  for (const auto& reading : readings.labels) {
    if (!is_component(reading.carrier.kind) || !rooms_of(reader, reading.carrier).empty()) continue;
    auto& thing = things[sort_key(reading.carrier.code)];
    thing.first = reading.carrier;
    thing.second.push_back(&reading);
  }
  if (context.json()) {
    JsonWriter json(context.out());
    json.begin_array();
    for (const auto& [key, thing] : things) {
      for (const auto* reading : thing.second) {
        json.begin_object().key("code").string(thing.first.code).key("name").string(thing.first.name);
        json.key("label").string(reading->label.code).key("text").string(reading->text);
        json.key("verdict").string(word(reading->verdict)).key("words").string(reading->words).end_object();
      }
    }
    json.end_array().finish();
    return kDone;
  }
  if (things.empty()) context.out() << "every labelled component has a room\n";
  for (const auto& [key, thing] : things) {
    context.out() << context.strong(display(thing.first)) << '\n';
    for (const auto* reading : thing.second) {
      context.out() << "  " << reading->label.code << "  " << safe_display(reading->text) << '\n';
      for (const auto& line : wrap(safe_display(reading->words), 94)) context.out() << "    " << line << '\n';
    }
  }
  tell_withheld(context, reader.reading());
  return kDone;
}

}  // namespace

int where_to(Context& context, const WhereTo& wanted) {
  const auto archive = context.open(false);
  const auto reader = archive.read(context.read_options());
  const Snapshot snapshot(*reader);
  ReportRequest request;
  request.format = context.json() ? "json" : "text";
  if (!wanted.text.empty()) {
    if (!wanted.what.empty())
      fail(ErrorKind::invalid, "name a label of the archive or type one with --text, not both");
    request.scope = scope_of(*reader, wanted.within);
    set(request.settings, "text", wanted.text);
    set(request.settings, "carrier", wanted.carrier);
  } else {
    if (!wanted.within.empty() || !wanted.carrier.empty())
      fail(ErrorKind::invalid, "--in and --carrier go with a label typed in with --text");
    if (!wanted.what.empty()) {
      const auto record = need_record(*reader, wanted.what);
      if (record.kind != Kind::label && record.kind != Kind::container && !is_component(record.kind))
        fail(ErrorKind::invalid,
             display(record) + " is no label and bears none; name a label or a component");
      request.scope = record.id;
    }
  }
  set(request.settings, "date", wanted.written);
  set(request.settings, "storeys", wanted.storeys);
  set(request.settings, "left", wanted.left);
  const bool all = wanted.what.empty() && wanted.text.empty();
  if (wanted.brief || all) set(request.settings, "brief", "yes");
  context.plugins().report_to("labels", snapshot, request, context.out());
  return kDone;
}

int link(Context& context, const Link& wanted) {
  auto archive = context.open(true);
  auto writer = session(context, archive);
  const auto component = need_record(*writer, wanted.component);
  Ground ground = wanted.ground;
  if (ground.evidence.empty()) ground.evidence = "physical";
  if (!wanted.tested.empty() && wanted.fit.empty())
    fail(ErrorKind::invalid, "--tested says how a fit was found; say what fits with --fit");
  const auto reader =
      archive.read({.with_private = true, .known_on = {}, .by_entry_day = false, .fingerprint = {}});
  std::optional<LabelReading> reading;
  const auto label = label_meant(*reader, component, wanted);
  std::optional<RecordView> view;
  if (label) {
    view = RecordView::read(*reader, *label);
    check_carrier(*reader, *view, component);
    // What is read goes into the new statement: of private matter only when that was asked for.
    const auto open_reader = archive.read(context.read_options());
    reading = reading_of(context, *open_reader, *view, wanted);
    if (reading) refuse_address(*reading, wanted);
  }
  const auto room = room_meant(*reader, reading, wanted);
  const LabelCandidate* candidate = candidate_of(reading, room.id);
  if (view) rest_on_label(*reader, *view, candidate, ground);
  std::string part = wanted.part;
  std::string open = wanted.open;
  if (wanted.fit.empty() && candidate != nullptr) {
    if (part.empty()) part = reading->part;
    if (open.empty()) open = join(candidate->left_open, "; ");
  }
  if (!part.empty()) ground.details.push_back("part=" + part);
  if (!open.empty()) ground.details.push_back("open=" + open);
  if (!wanted.fit.empty()) ground.details.push_back("fit=" + wanted.fit);
  if (!wanted.tested.empty()) ground.details.push_back("tested=" + wanted.tested);
  if (ground.confidence.empty())
    ground.confidence =
        reading && reading->verdict != LabelVerdict::clear && wanted.fit.empty() ? "probable" : "certain";
  const std::string property = wanted.fit.empty() ? "intended-for" : "fitted-in";
  const auto id = writer->add(draft(context, archive, *writer, component.id, property, room.code, ground));
  tell_entered(context, *writer, id);
  writer->commit();
  if (!context.json() && wanted.fit.empty()) tell_marked(context, reading, candidate);
  return kDone;
}

int made_for(Context& context, const MadeFor& wanted) {
  const auto archive = context.open(false);
  const auto reader = archive.read(context.read_options());
  if (wanted.no_home) return no_home(context, *reader);
  if (wanted.what.empty()) fail(ErrorKind::invalid, "name a room or a component, or ask for --no-home");
  const auto record = need_record(*reader, wanted.what);
  const bool asked_of_thing = is_component(record.kind);
  if (!asked_of_thing && record.kind != Kind::place)
    fail(ErrorKind::invalid, display(record) + " is neither a room nor a component");
  const auto rooms = asked_of_thing ? rooms_of(*reader, record) : std::vector<RecordInfo>{record};
  const Uuid but = asked_of_thing ? record.id : Uuid{};
  std::optional<JsonWriter> json;
  if (context.json()) json.emplace(context.out()).begin_array();
  for (const auto& room : rooms) {
    auto rows = made_rows(*reader, room.id, but);
    add_perhaps(context, *reader, room.id, but, rows);
    if (json) {
      json_rows(*json, room, rows);
      continue;
    }
    if (asked_of_thing) context.out() << "made for " << context.strong(display(room)) << " too:\n";
    if (rows.empty())
      context.out() << "nothing" << (asked_of_thing ? " else" : "") << " is marked for, or fitted in, "
                    << display(room) << '\n';
    tell_rows(context, rows);
  }
  if (json) {
    json->end_array().finish();
    return kDone;
  }
  if (rooms.empty()) {
    context.out() << display(record) << " is marked for no room yet; lathbook where-to " << record.code
                  << " reads its labels\n";
  }
  tell_withheld(context, reader->reading());
  return kDone;
}

}  // namespace lathbook::cli
