// The history of a room or building, and what would help most there.
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

std::string number_words(double number) {
  std::string text = std::to_string(number);
  text.erase(text.find('.') + 2);
  return text.ends_with(".0") ? text.substr(0, text.size() - 2) : text;
}

std::string gain_words(const TimelineTask& task) {
  std::string words = "would narrow " + number_words(task.narrows) + (task.narrows == 1 ? " date" : " dates");
  if (static_cast<double>(task.at_least) < task.narrows)
    words += " on average, " + std::to_string(task.at_least) + " at least";
  return words + ", by " + std::to_string(static_cast<long>(task.years + 0.5)) + " years in all";
}

void json_task(JsonWriter& json, const StatementReader& reader, const TimelineTask& task) {
  json.begin_object().key("sort").string(task.sort).key("task").string(task.words);
  json.key("about").begin_array();
  for (const Uuid& id : task.records)
    if (const auto record = reader.record(id)) json.string(record->code);
  json.end_array().key("narrows").number(task.narrows).key("at-least").number(task.at_least);
  json.key("years").number(task.years).key("outcomes-tried").number(task.outcomes.size());
  json.key("known").begin_array();
  for (const auto& step : task.on) json.string(step.words);
  json.end_array().end_object();
}

}  // namespace

int history(Context& context, const History& wanted) {
  const auto archive = context.open(false);
  const auto reader = archive.read(context.read_options());
  const Snapshot snapshot(*reader);
  ReportRequest request;
  request.scope = scope_of(*reader, wanted.place);
  request.level = level_of(wanted.level);
  request.leave_out = statements_named(archive, wanted.without);
  request.format = context.json() ? "json" : "text";
  if (wanted.reasons) request.settings.emplace_back("why", "yes");
  if (!wanted.answer.empty()) request.settings.emplace_back("answer", wanted.answer);
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

int would_help(Context& context, const WouldHelp& wanted) {
  const auto archive = context.open(false);
  const auto reader = archive.read(context.read_options());
  const Snapshot snapshot(*reader);
  AnalysisRequest request;
  request.scope = scope_of(*reader, wanted.place);
  request.level = level_of(wanted.level);
  request.settings.emplace_back("tasks", "yes");
  const auto& result = context.plugins().run_analysis("timeline", snapshot, request);
  const auto* timeline = std::get_if<Timeline>(&result);
  if (timeline == nullptr) fail(ErrorKind::unsupported, "the timeline plugin gave no timeline");
  if (context.json()) {
    JsonWriter json(context.out());
    json.begin_array();
    for (const auto& task : timeline->tasks) json_task(json, *reader, task);
    json.end_array().finish();
    return kDone;
  }
  if (timeline->tasks.empty()) context.out() << "nothing that can be tried would narrow a date here\n";
  int number = 1;
  for (const auto& task : timeline->tasks) {
    tell_wrapped(context, std::to_string(number++) + ". ", task.words);
    tell_wrapped(context, "   ", gain_words(task) + ".");
    for (const auto& step : task.on) tell_wrapped(context, "   - ", step.words);
  }
  if (!timeline->tasks.empty())
    context.err() << "Before anything is scraped, opened or sampled read docs/cautions.md; presume lead and "
                     "asbestos present until tested, and leave the last sound patch of a finish in place.\n";
  tell_withheld(context, reader->reading());
  return kDone;
}

}  // namespace lathbook::cli
