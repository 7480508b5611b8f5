// Writes the sheets, the files and the description.
#include "plugins/tables/exporter.hpp"

#include "core/base/copy_stream.hpp"
#include "core/base/error.hpp"
#include "core/view/addresses.hpp"
#include "core/view/words.hpp"
#include "plugins/tables/metadata.hpp"
#include "plugins/tables/record_sheet.hpp"
#include "plugins/tables/statement_sheet.hpp"

namespace lathbook::tables {

namespace {

void copy_files(const std::map<Digest, std::string>& files, FolderSink& out, Services& services) {
  std::uint64_t done = 0;
  for (const auto& [digest, path] : files) {
    if (services.stop_requested()) return;
    const auto bytes = services.files().media(digest);
    if (!bytes)
      fail(ErrorKind::not_found, "the file " + digest.hex() + " went missing while it was being copied");
    copy_stream(*bytes, out.file(path), "the file " + digest.hex());
    services.progress(++done, files.size());
  }
}

}  // namespace

std::vector<std::string> TablesExporter::formats() const {
  return {"csvw"};
}

bool TablesExporter::makes_folder(std::string_view) const {
  return true;
}

void TablesExporter::write_folder(const Snapshot& archive, const ExportRequest& request, FolderSink& out,
                                  Services& services) {
  require_base_address(request.base_iri);
  Carried carried(archive, request.scope, services);
  const std::set<Kind> kinds = kinds_with_rows(archive, carried);
  std::vector<Sheet> sheets;
  for (const Kind kind : all_kinds()) {
    const auto sheet = record_sheet(archive, carried, kind, kinds);
    if (!sheet) continue;
    write_records(archive, carried, *sheet, kind, out.file(sheet->file), request.base_iri, services);
    sheets.push_back(*sheet);
  }
  sheets.push_back(statement_sheet(carried, kinds.count(Kind::agent) != 0));
  const auto files = write_statements(archive, carried, sheets.back(), out.file(sheets.back().file),
                                      request.base_iri, services);
  copy_files(files, out, services);
  write_metadata(out.file("csv-metadata.json"), archive_name(archive.statements()), archive.reading(),
                 sheets);
  const std::string left = carried.uncarried().sentence("a folder of sheets");
  if (!left.empty()) services.note(Severity::note, left);
}

}  // namespace lathbook::tables
