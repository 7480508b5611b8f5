// Key functions of the contract's classes: their tables live in the core, not in every plugin.
#include "core/plugin/plugin.hpp"

namespace lathbook {

ArchiveFiles::~ArchiveFiles() = default;
FolderSink::~FolderSink() = default;
Services::~Services() = default;
const ArchiveFiles& Services::files() const {
  fail(ErrorKind::unsupported, "it asked for the archive's files, which are not lent here");
}
Analysis::~Analysis() = default;
Exporter::~Exporter() = default;
Report::~Report() = default;
Importer::~Importer() = default;

bool Exporter::makes_folder(std::string_view) const {
  return false;
}
void Exporter::write(const Snapshot&, const ExportRequest& request, std::ostream&, Services&) {
  fail(ErrorKind::unsupported, "it does not write '" + request.format + "' to one file");
}
void Exporter::write_folder(const Snapshot&, const ExportRequest& request, FolderSink&, Services&) {
  fail(ErrorKind::unsupported, "it does not write '" + request.format + "' to a folder");
}

Plugin::~Plugin() = default;
Analysis* Plugin::analysis() {
  return nullptr;
}
Exporter* Plugin::exporter() {
  return nullptr;
}
Report* Plugin::report() {
  return nullptr;
}
Importer* Plugin::importer() {
  return nullptr;
}

}  // namespace lathbook
