// Reading: one record with all that is said of it, search, the registry.
#include <algorithm>
#include <map>

#include "core/base/json_writer.hpp"
#include "core/base/table.hpp"
#include "core/base/text.hpp"
#include "core/cli/commands.hpp"
#include "core/cli/statement_words.hpp"
#include "core/evidence/registry.hpp"
#include "core/view/hazards.hpp"
#include "core/view/piece_states.hpp"
#include "core/view/record_view.hpp"
#include "core/view/snapshot.hpp"
#include "core/view/stops.hpp"

namespace lathbook::cli {

namespace {

// Statements about a record, by property in the registry's order, current ones first.
std::vector<std::pair<const Property*, std::vector<Statement>>> by_property(const StatementReader& reader,
                                                                            const Uuid& id, bool all) {
  std::map<std::uint32_t, std::vector<Statement>> found;
  Query query;
  query.subject = id;
  query.current_only = !all;
  reader.each_statement(query, [&](const Statement& statement) {
    found[statement.content.property].push_back(statement);
    return true;
  });
  std::vector<std::pair<const Property*, std::vector<Statement>>> grouped;
  for (auto& [property, statements] : found) {
    std::stable_sort(statements.begin(), statements.end(),
                     [](const Statement& a, const Statement& b) { return a.current > b.current; });
    if (const auto* row = Registry::standard().find(property))
      grouped.emplace_back(row, std::move(statements));
  }
  return grouped;
}

bool can_be_stopped(const RecordInfo& record) {
  return record.kind == Kind::place || record.kind == Kind::element || record.kind == Kind::piece ||
         record.kind == Kind::find || record.kind == Kind::finish;
}

void show_stops(const Context& context, const StatementReader& reader, const RecordInfo& record) {
  if (!can_be_stopped(record)) return;
  for (const auto& line : stop_lines(stops_around(Snapshot(reader), {record.id})))
    for (const auto& part : wrap(safe_display(line), 96)) context.out() << context.strong(part) << '\n';
}

// Whoever opens a room or a thing in it is told first.
void show_hazards(const Context& context, const StatementReader& reader, const RecordInfo& record) {
  if (record.kind != Kind::place && record.kind != Kind::element) return;
  context.out() << "\n  " << context.strong("take care") << '\n';
  for (const auto& line : hazard_lines(hazards_of(Snapshot(reader), {record.id})))
    for (const auto& part : wrap(line, 92)) context.out() << "    " << part << '\n';
}

// A thing that was put into this container and has left it since: where it is now.
std::string left_words(const StatementReader& reader, const Statement& statement, const RecordInfo& subject,
                       const RecordInfo& container) {
  static const std::uint32_t in_container = Registry::standard().named("in-container").id;
  if (statement.content.property != in_container) return {};
  const auto record = RecordView::read(reader, subject);
  if (const Statement* state = record.latest("piece-state");
      state != nullptr && piece_state_from_word(state->content.value) != PieceState::in_container)
    return "   [no longer: " + state->content.value + ", since " +
           std::string(state->content.qualifier("on")) + "]";
  const Statement* latest = record.latest("in-container");
  if (latest == nullptr || latest->content.value == container.id.text()) return {};
  const auto other = Uuid::parse(latest->content.value);
  const auto box = other ? reader.record(*other) : std::nullopt;
  return "   [no longer: in " + (box ? display(*box) : std::string("another container")) + "]";
}

void show_text(const Context& context, const StatementReader& reader, const RecordInfo& record, bool all) {
  show_stops(context, reader, record);
  context.out() << context.strong(display(record)) << "  (" << word(record.kind) << ", " << record.id.text()
                << ")\n";
  show_hazards(context, reader, record);
  for (const auto& [property, statements] : by_property(reader, record.id, all)) {
    context.out() << "\n  " << context.strong(property->label) << '\n';
    for (const auto& statement : statements) {
      context.out() << "    " << value_words(reader, statement);
      if (!statement.current) context.out() << "   [" << superseded_words(reader, statement) << "]";
      context.out() << "\n      " << statement.name() << ": " << ground_words(reader, statement) << '\n';
    }
  }
  Query query;
  query.object = record.id;
  bool first = true;
  reader.each_statement(query, [&](const Statement& statement) {
    const auto* property = Registry::standard().find(statement.content.property);
    const auto subject = reader.record(statement.content.subject);
    if (property == nullptr || !subject) return true;
    if (first) context.out() << "\n  " << context.strong("said of it elsewhere") << '\n';
    first = false;
    context.out() << "    " << display(*subject) << ' ' << property->label << " this   (" << statement.name()
                  << ")" << left_words(reader, statement, *subject, record) << '\n';
    return true;
  });
}

void show_json(const Context& context, const StatementReader& reader, const RecordInfo& record, bool all) {
  JsonWriter json(context.out());
  json.begin_object().key("code").string(record.code).key("name").string(record.name);
  json.key("kind").string(word(record.kind)).key("id").string(record.id.text());
  json.key("stopped").begin_array();
  if (can_be_stopped(record))
    for (const auto& stop : stops_around(Snapshot(reader), {record.id})) json.string(stop_in_words(stop));
  json.end_array();
  json.key("statements").begin_array();
  for (const auto& [property, statements] : by_property(reader, record.id, all)) {
    for (const auto& statement : statements) write_statement(json, reader, statement);
  }
  json.end_array().key("named-by").begin_array();
  Query query;
  query.object = record.id;
  reader.each_statement(query, [&](const Statement& statement) {
    write_statement(json, reader, statement);
    return true;
  });
  json.end_array().key("withheld").number(reader.reading().withheld).end_object().finish();
}

}  // namespace

int show(Context& context, const Show& wanted) {
  const auto archive = context.open(false);
  const auto reader = archive.read(context.read_options());
  const auto record = need_record(*reader, wanted.code);
  if (context.json()) {
    show_json(context, *reader, record, wanted.all);
  } else {
    show_text(context, *reader, record, wanted.all);
  }
  return kDone;
}

int find(Context& context, const Find& wanted) {
  const auto archive = context.open(false);
  const auto hits = archive.search(join(wanted.words, " "), context.read_options(), wanted.most);
  if (context.json()) {
    JsonWriter json(context.out());
    json.begin_array();
    for (const auto& hit : hits) {
      json.begin_object().key("code").string(hit.record.code).key("name").string(hit.record.name);
      json.key("kind").string(word(hit.record.kind)).key("property").string(hit.property);
      json.key("text").string(hit.text).key("id").string(hit.statement.hex()).end_object();
    }
    json.end_array().finish();
    return kDone;
  }
  if (hits.empty()) {
    context.out() << "nothing holds these words\n";
    return kDone;
  }
  for (const auto& hit : hits) {
    context.out() << context.strong(display(hit.record)) << "  (" << hit.property << ")\n";
    for (const auto& line : wrap(safe_display(hit.text), 96)) context.out() << "    " << line << '\n';
  }
  return kDone;
}

int properties(Context& context, const std::string& of_kind) {
  std::optional<Kind> kind;
  if (!of_kind.empty()) {
    kind = kind_from_word(of_kind);
    if (!kind) fail(ErrorKind::invalid, quote(of_kind) + " is no kind of record");
  }
  const auto& rows = Registry::standard().properties();
  if (context.json()) {
    JsonWriter json(context.out());
    json.begin_array();
    for (const auto& property : rows) {
      if (kind && !property.said_of(*kind)) continue;
      json.begin_object().key("id").number(property.id).key("name").string(property.name);
      json.key("value").string(word(property.type)).key("many").boolean(property.many);
      json.key("dating")
          .string(property.dating)
          .key("label")
          .string(property.label)
          .key("help")
          .string(property.help);
      json.key("qualifiers").begin_array();
      for (const auto& qualifier : property.qualifiers) {
        json.begin_object().key("name").string(qualifier.name).key("value").string(qualifier.type);
        json.key("required").boolean(qualifier.required).end_object();
      }
      json.end_array().end_object();
    }
    json.end_array().finish();
    return kDone;
  }
  Table table({"property", "value", "dates", "details", "what it says"});
  for (const auto& property : rows) {
    if (kind && !property.said_of(*kind)) continue;
    std::string details;
    for (const auto& qualifier : property.qualifiers) {
      details += (details.empty() ? "" : " ") + qualifier.name + (qualifier.required ? "!" : "");
    }
    table.add({property.name, std::string(word(property.type)),
               property.dating.empty() ? "-" : property.dating, details.empty() ? "-" : details,
               property.help});
  }
  table.print(context.out());
  return kDone;
}

int plugins(Context& context, const Plugins& wanted) {
  const auto found = context.plugins().discover();
  bool refused = false;
  for (const auto& plugin : found) refused = refused || !plugin.loaded;
  if (context.json()) {
    JsonWriter json(context.out());
    json.begin_array();
    for (const auto& plugin : found) {
      json.begin_object().key("name").string(plugin.name).key("kind").string(plugin.kind);
      json.key("version").string(plugin.version).key("file").string(plugin.file.string());
      json.key("loaded").boolean(plugin.loaded).key("reason").string(plugin.reason).end_object();
    }
    json.end_array().finish();
  } else {
    Table table({"name", "kind", "version", "state", "file"});
    for (const auto& plugin : found) {
      table.add({plugin.name.empty() ? "-" : plugin.name, plugin.kind.empty() ? "-" : plugin.kind,
                 plugin.version.empty() ? "-" : plugin.version, plugin.loaded ? "loaded" : "refused",
                 plugin.file.string()});
    }
    table.print(context.out());
    for (const auto& plugin : found) {
      if (!plugin.loaded)
        context.out() << "refused " << plugin.file.string() << ": " << plugin.reason << '\n';
    }
  }
  return refused && wanted.strict ? kFaultsFound : kDone;
}

}  // namespace lathbook::cli
