// History and its reasons: the room sheet, why a date or value stands.
#include <fstream>
#include <iostream>
#include <variant>

#include "core/analysis/result.hpp"
#include "core/base/json_writer.hpp"
#include "core/base/paths.hpp"
#include "core/base/text.hpp"
#include "core/cli/commands.hpp"
#include "core/cli/scope_words.hpp"
#include "core/cli/statement_words.hpp"
#include "core/view/snapshot.hpp"

namespace lathbook::cli {

namespace {

std::string bound_words(const Bound& bound, bool earliest) {
  if (!bound.known) return earliest ? "no evidence of an earliest day" : "no evidence of a latest day";
  std::string words = (earliest ? "not before " : "not after ") + plain_day(bound.day);
  if (bound.level == Level::probable) words += " (probable)";
  if (bound.level == Level::possible) words += " (possible)";
  if (bound.perhaps_wide) words += ", may be wider than necessary";
  if (bound.leaned) words += ", contested";
  return words;
}

void tell_steps(const Context& context, const StatementReader& reader, const std::vector<ReasonStep>& steps) {
  int number = 1;
  for (const auto& step : steps) {
    context.out() << "      " << number++ << ". " << safe_display(step.words) << '\n';
    const auto statement = step.statement == Digest{} ? std::nullopt : reader.statement(step.statement);
    if (!statement) continue;
    context.out() << "         " << statement->name();
    for (const auto& citation : statement->content.citations)
      context.out() << "; " << citation_words(reader, citation);
    context.out() << '\n';
  }
}

void tell_span(const Context& context, const StatementReader& reader, const std::string& what,
               const Span& span) {
  for (const bool earliest : {true, false}) {
    const auto& bound = earliest ? span.earliest : span.latest;
    context.out() << "  " << context.strong(what) << ": " << bound_words(bound, earliest) << '\n';
    tell_steps(context, reader, bound.reason);
  }
}

void json_bound(JsonWriter& json, const StatementReader& reader, const Bound& bound) {
  json.begin_object().key("known").boolean(bound.known);
  if (bound.known) json.key("day").string(iso_day(bound.day));
  json.key("reason").begin_array();
  for (const auto& step : bound.reason) {
    json.begin_object().key("words").string(step.words);
    const auto statement = step.statement == Digest{} ? std::nullopt : reader.statement(step.statement);
    if (statement) {
      json.key("statement").string(statement->name()).key("citations").begin_array();
      for (const auto& citation : statement->content.citations) json.string(citation_words(reader, citation));
      json.end_array();
    }
    json.end_object();
  }
  json.end_array().end_object();
}

void json_span(JsonWriter& json, const StatementReader& reader, const char* what, const Span& span) {
  json.key(what).begin_object().key("earliest");
  json_bound(json, reader, span.earliest);
  json.key("latest");
  json_bound(json, reader, span.latest);
  json.end_object();
}

const Timeline& timeline(Context& context, const Snapshot& snapshot, const std::string& level,
                         const std::vector<Digest>& without) {
  AnalysisRequest request;
  request.level = level_of(level);
  request.leave_out = without;
  const auto& result = context.plugins().run_analysis("timeline", snapshot, request);
  const auto* found = std::get_if<Timeline>(&result);
  if (found == nullptr) fail(ErrorKind::unsupported, "the timeline plugin gave no timeline");
  return *found;
}

// A value's chain: the statement, what it cites, and the statements it was concluded from, to the sources.
void tell_value(const Context& context, const StatementReader& reader, const Statement& statement,
                int depth) {
  const std::string indent(static_cast<std::size_t>(2 + 4 * depth), ' ');
  const auto* property = Registry::standard().find(statement.content.property);
  const auto subject = reader.record(statement.content.subject);
  context.out() << indent << (subject ? display(*subject) : "a withheld record") << ' '
                << (property == nullptr ? "" : property->label) << ' ' << value_words(reader, statement)
                << '\n'
                << indent << "  " << statement.name() << ": " << ground_words(reader, statement) << '\n';
  if (depth > 20) return;
  for (const auto& ground : statement.content.grounds) {
    if (const auto from = reader.statement(ground)) tell_value(context, reader, *from, depth + 1);
  }
}

int why_value(const Context& context, const StatementReader& reader, const RecordInfo& record,
              const std::string& what) {
  const Property& property = Registry::standard().named(what);
  Query query;
  query.subject = record.id;
  query.properties = {property.id};
  std::vector<Statement> statements;
  reader.each_statement(query, [&](const Statement& statement) {
    statements.push_back(statement);
    return true;
  });
  if (statements.empty()) {
    fail(ErrorKind::not_found, "nothing is said of " + display(record) + " under " + quote(property.label));
  }
  if (context.json()) {
    JsonWriter json(context.out());
    json.begin_array();
    for (const auto& statement : statements) {
      write_statement(json, reader, statement);
      for (const auto& ground : statement.content.grounds) {
        if (const auto from = reader.statement(ground)) write_statement(json, reader, *from);
      }
    }
    json.end_array().finish();
    return kDone;
  }
  for (const auto& statement : statements) tell_value(context, reader, statement, 0);
  return kDone;
}

int why_date(Context& context, const StatementReader& reader, const RecordInfo& record, const Why& wanted,
             const std::vector<Digest>& without) {
  const Snapshot snapshot(reader);
  const auto& found = timeline(context, snapshot, wanted.level, without);
  std::vector<const TimelineItem*> items;
  for (const auto& item : found.items) {
    if (item.record.id == record.id) items.push_back(&item);
  }
  if (items.empty()) {
    fail(ErrorKind::not_found,
         display(record) +
             " has no dates of its own; ask for one of its properties, or for the thing it belongs to");
  }
  if (context.json()) {
    JsonWriter json(context.out());
    json.begin_array();
    for (const auto* item : items) {
      json.begin_object().key("code").string(item->record.code).key("placement").number(item->placement);
      json_span(json, reader, "made", item->made);
      json_span(json, reader, "begins", item->begins);
      json_span(json, reader, "ends", item->ends);
      json.end_object();
    }
    json.end_array().finish();
    return kDone;
  }
  for (const auto* item : items) {
    context.out() << context.strong(display(item->record));
    if (item->placements > 1)
      context.out() << ", placement " << item->placement << " of " << item->placements;
    context.out() << '\n';
    if (wanted.what.empty() || wanted.what == "made") tell_span(context, reader, "made", item->made);
    if (wanted.what.empty() || wanted.what == "begins") tell_span(context, reader, "in place", item->begins);
    if (wanted.what.empty() || wanted.what == "ends") tell_span(context, reader, "gone", item->ends);
    if (!item->last_seen.empty()) context.out() << "  " << item->last_seen << '\n';
  }
  tell_withheld(context, reader.reading());
  return kDone;
}

}  // namespace

int history(Context& context, const History& wanted) {
  const auto archive = context.open(false);
  const auto reader = archive.read(context.read_options());
  const Snapshot snapshot(*reader);
  ReportRequest request;
  request.scope = scope_of(*reader, wanted.place);
  request.level = level_of(wanted.level);
  request.format = context.json() ? "json" : "text";
  if (wanted.html.empty()) {
    context.plugins().report_to("sheet", snapshot, request, context.out());
    return kDone;
  }
  request.format = "html";
  AtomicFile file(wanted.html);
  context.plugins().report_to("sheet", snapshot, request, file.stream());
  file.commit();
  if (!context.json()) context.out() << "wrote " << quote(wanted.html) << '\n';
  return kDone;
}

int why(Context& context, const Why& wanted) {
  const auto archive = context.open(false);
  const auto reader = archive.read(context.read_options());
  const auto record = need_record(*reader, wanted.code);
  std::vector<Digest> without;
  for (const auto& name : wanted.without) without.push_back(archive.statement_named(name));
  const bool date =
      wanted.what.empty() || wanted.what == "made" || wanted.what == "begins" || wanted.what == "ends";
  const bool dated_kind = record.kind == Kind::element || record.kind == Kind::finish ||
                          record.kind == Kind::piece || record.kind == Kind::find;
  if (date && dated_kind) return why_date(context, *reader, record, wanted, without);
  if (wanted.what.empty()) {
    fail(ErrorKind::invalid, "say which value is meant: lathbook why " + record.code +
                                 " PROPERTY ('lathbook properties --of " + std::string(word(record.kind)) +
                                 "' lists them)");
  }
  return why_value(context, *reader, record, wanted.what);
}

}  // namespace lathbook::cli
