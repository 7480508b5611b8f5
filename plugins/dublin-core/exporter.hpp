// The things and sources of an archive as Dublin Core.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "core/plugin/plugin.hpp"

namespace lathbook::dublin_core {

/// Formats "repository" (one list file) and "records" (a folder). Places, elements, pieces, finds, marks,
/// labels and sources; for a place, those that belong to it and the sources that speak of it. Throws
/// Error(invalid) when a list is wanted and the archive does not say who keeps it.
class DublinCoreExporter : public Exporter {
public:
  std::vector<std::string> formats() const override;
  bool makes_folder(std::string_view format) const override;
  void write(const Snapshot& archive, const ExportRequest& request, std::ostream& out,
             Services& services) override;
  void write_folder(const Snapshot& archive, const ExportRequest& request, FolderSink& out,
                    Services& services) override;
};

}  // namespace lathbook::dublin_core
