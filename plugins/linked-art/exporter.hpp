// The archive as a folder of Linked Art records.
#pragma once

#include <string>
#include <vector>

#include "core/plugin/plugin.hpp"

namespace lathbook::linked_art {

/// One format, "json-ld": record/<uuid>.json for each record (its address under the base and .json), the
/// places, files and types that belong to them, and index.json. Same state, scope and base: same bytes.
/// Throws Error(invalid) for a base address that is not http or https.
class LinkedArtExporter : public Exporter {
public:
  std::vector<std::string> formats() const override;
  bool makes_folder(std::string_view format) const override;
  void write_folder(const Snapshot& archive, const ExportRequest& request, FolderSink& out,
                    Services& services) override;
};

}  // namespace lathbook::linked_art
