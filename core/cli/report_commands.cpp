// The preservation report.
#include <algorithm>
#include <map>
#include <set>
#include <variant>

#include "core/analysis/result.hpp"
#include "core/base/paths.hpp"
#include "core/base/text.hpp"
#include "core/cli/commands.hpp"
#include "core/cli/lent_files.hpp"
#include "core/cli/scope_words.hpp"
#include "core/cli/statement_words.hpp"
#include "core/view/snapshot.hpp"

namespace lathbook::cli {

namespace {

std::string format_of(const ReportOn& wanted) {
  if (!wanted.form.empty()) return wanted.form;
  for (const auto& [ending, format] : {std::pair{".odt", "odt"}, {".html", "html"}, {".htm", "html"}})
    if (wanted.file.ends_with(ending)) return format;
  fail(ErrorKind::invalid, "the file name " + quote(wanted.file) +
                               " does not tell the form; end it in .html or .odt, or give --form");
}

Timeline timeline_of(Context& context, const Snapshot& archive, const ReportRequest& report) {
  AnalysisRequest request;
  request.scope = report.scope;
  request.level = report.level;
  request.leave_out = report.leave_out;
  return std::get<Timeline>(context.plugins().run_analysis("timeline", archive, request));
}

bool narrower(const Bound& with, const Bound& without) {
  return with.known && (!without.known || with.day != without.day);
}

// Codes of things told in the public report whose dates would be narrower with what is withheld: only this
// program can see both readings. Nothing of what is withheld is told but that.
std::string narrower_things(Context& context, const Archive& archive, const Snapshot& open,
                            const ReportRequest& report) {
  ReadOptions all = context.read_options();
  all.with_private = true;
  const auto reader = archive.read(all);
  const Timeline with = timeline_of(context, Snapshot(*reader), report);
  const Timeline without = timeline_of(context, open, report);
  std::map<std::pair<Uuid, int>, const TimelineItem*> shown;
  for (const TimelineItem& item : without.items) shown[{item.record.id, item.placement}] = &item;
  std::set<std::string> codes;
  for (const TimelineItem& item : with.items) {
    const auto found = shown.find({item.record.id, item.placement});
    if (found == shown.end() || found->second->record.code.empty()) continue;
    const TimelineItem& public_item = *found->second;
    const auto better = [](const Span& a, const Span& b) {
      return narrower(a.earliest, b.earliest) || narrower(a.latest, b.latest);
    };
    if (better(item.begins, public_item.begins) || better(item.ends, public_item.ends))
      codes.insert(public_item.record.code);
  }
  return join({codes.begin(), codes.end()}, ",");
}

}  // namespace

int report_on(Context& context, const ReportOn& wanted) {
  const auto archive = context.open(false);
  const auto reader = archive.read(context.read_options());
  const Snapshot snapshot(*reader);
  const LentFiles files(context, reader->reading());
  ReportRequest request;
  request.scope = scope_of(*reader, wanted.place);
  request.level = level_of(wanted.level);
  request.leave_out = statements_named(archive, wanted.without);
  request.format = format_of(wanted);
  request.settings.emplace_back("all-tasks", "yes");
  if (!wanted.order.empty()) request.settings.emplace_back("order", wanted.order);
  if (!wanted.rooms.empty()) request.settings.emplace_back("rooms", wanted.rooms);
  if (wanted.no_pictures) request.settings.emplace_back("pictures", "no");
  if (!reader->reading().with_private && reader->reading().withheld != 0)
    request.settings.emplace_back("narrower", narrower_things(context, archive, snapshot, request));
  if (wanted.file == "-") {
    context.plugins().report_to("report", snapshot, request, context.out(), &files);
    return kDone;
  }
  AtomicFile file(wanted.file);
  context.plugins().report_to("report", snapshot, request, file.stream(), &files);
  file.commit();
  if (!context.json()) context.out() << "wrote " << quote(wanted.file) << '\n';
  return kDone;
}

}  // namespace lathbook::cli
