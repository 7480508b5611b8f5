// Walks the sources.
#include "plugins/citations/exporter.hpp"

#include <optional>
#include <set>

#include "core/view/addresses.hpp"
#include "core/view/scope.hpp"
#include "plugins/citations/writers.hpp"

namespace lathbook::citations {

std::vector<std::string> CitationsExporter::formats() const {
  return {"csl-json", "bibtex"};
}

void CitationsExporter::write(const Snapshot& archive, const ExportRequest& request, std::ostream& out,
                              Services& services) {
  require_base_address(request.base_iri);
  std::optional<std::set<Uuid>> wanted;
  if (request.scope != Uuid{}) wanted = sources_of(archive, belongings_of(archive, request.scope));
  const bool bibtex = request.format == "bibtex";
  const auto writer = bibtex ? bibtex_writer(out, request.base_iri) : csl_json_writer(out, request.base_iri);
  const StatementReader& reader = archive.statements();
  Uncarried uncarried;
  std::uint64_t done = 0;
  reader.each_record(Kind::source, [&](const RecordInfo& info) {
    if (services.stop_requested()) return false;
    if (!wanted || wanted->count(info.id) != 0)
      writer->write(item_of(reader, SourceView(RecordView::read(reader, info)), uncarried));
    services.progress(++done, 0);
    return true;
  });
  writer->finish();
  const std::string left = uncarried.sentence(bibtex ? "BibTeX" : "CSL-JSON");
  if (!left.empty()) services.note(Severity::note, left);
}

}  // namespace lathbook::citations
