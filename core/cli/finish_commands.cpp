// Layers of paint: the finish schedule of a place or thing, as text, JSON or a drawing.
#include "core/base/paths.hpp"
#include "core/base/text.hpp"
#include "core/cli/commands.hpp"
#include "core/cli/scope_words.hpp"
#include "core/view/snapshot.hpp"

namespace lathbook::cli {

int layers(Context& context, const Layers& wanted) {
  const auto archive = context.open(false);
  const auto reader = archive.read(context.read_options());
  const Snapshot snapshot(*reader);
  ReportRequest request;
  if (!wanted.where.empty()) request.scope = need_record(*reader, wanted.where).id;
  request.level = level_of(wanted.level);
  if (!wanted.reference.empty()) request.settings.emplace_back("reference", wanted.reference);
  if (wanted.narrow) request.settings.emplace_back("width", "narrow");
  request.format = context.json() ? "json" : "text";
  if (wanted.svg.empty()) {
    context.plugins().report_to("finishes", snapshot, request, context.out());
    return kDone;
  }
  request.format = "svg";
  AtomicFile file(wanted.svg);
  context.plugins().report_to("finishes", snapshot, request, file.stream());
  file.commit();
  if (!context.json()) context.out() << "wrote " << quote(wanted.svg) << '\n';
  return kDone;
}

}  // namespace lathbook::cli
