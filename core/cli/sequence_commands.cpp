// What came after what, and how likely it is where the evidence leaves it open.
#include "core/base/paths.hpp"
#include "core/base/text.hpp"
#include "core/cli/commands.hpp"
#include "core/cli/scope_words.hpp"
#include "core/view/snapshot.hpp"

namespace lathbook::cli {

namespace {

// A place, or one thing that has a beginning.
Uuid need_dated(const StatementReader& reader, const std::string& code) {
  const auto record = need_record(reader, code);
  if (record.kind != Kind::place && record.kind != Kind::element && record.kind != Kind::finish)
    fail(ErrorKind::invalid, display(record) + " is a " + std::string(word(record.kind)) +
                                 "; name a place, an element or a finish");
  return record.id;
}

void write_drawing(Context& context, const Snapshot& snapshot, const ReportRequest& request,
                   const std::string& path) {
  AtomicFile file(path);
  context.plugins().report_to("sequence", snapshot, request, file.stream());
  file.commit();
  if (!context.json()) context.out() << "wrote " << quote(path) << '\n';
}

}  // namespace

int sequence(Context& context, const SequenceOf& wanted) {
  const auto archive = context.open(false);
  const auto reader = archive.read(context.read_options());
  const Snapshot snapshot(*reader);
  ReportRequest request;
  request.scope = need_dated(*reader, wanted.scope);
  request.level = level_of(wanted.level);
  request.settings = {{"redundant", wanted.redundant ? "yes" : "no"},
                      {"sources", wanted.sources ? "yes" : "no"},
                      {"shape", wanted.narrow ? "narrow" : "wide"},
                      {"steps", std::to_string(wanted.steps)}};
  for (const auto& [format, path] : {std::pair{"svg", wanted.svg}, std::pair{"html", wanted.html}}) {
    if (path.empty()) continue;
    request.format = format;
    write_drawing(context, snapshot, request, path);
  }
  if (!wanted.svg.empty() || !wanted.html.empty()) return kDone;
  request.format = context.json() ? "json" : "text";
  context.plugins().report_to("sequence", snapshot, request, context.out());
  return kDone;
}

int chances(Context& context, const ChancesOf& wanted) {
  const auto archive = context.open(false);
  const auto reader = archive.read(context.read_options());
  const Snapshot snapshot(*reader);
  ReportRequest request;
  request.level = level_of(wanted.level);
  request.format = context.json() ? "json" : "text";
  request.settings = {{"seed", std::to_string(wanted.seed)}};
  if (wanted.second.empty()) {
    request.scope = need_dated(*reader, wanted.first);
  } else {
    // Between two things evidence from anywhere may count, so the whole archive is asked.
    request.settings.emplace_back("first", need_dated(*reader, wanted.first).text());
    request.settings.emplace_back("second", need_dated(*reader, wanted.second).text());
    request.settings.emplace_back("first-placement", std::to_string(wanted.first_placement));
    request.settings.emplace_back("second-placement", std::to_string(wanted.second_placement));
  }
  context.plugins().report_to("chances", snapshot, request, context.out());
  return kDone;
}

}  // namespace lathbook::cli
