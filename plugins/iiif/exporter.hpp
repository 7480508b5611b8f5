// The photographs of an archive as IIIF manifests.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "core/plugin/plugin.hpp"

namespace lathbook::iiif {

/// Format "manifests", a folder to be put at base + "iiif/". Throws Error(invalid) for a base address that is
/// not of the web, and when no photograph with a picture file is shown. Same state, same bytes.
class IiifExporter : public Exporter {
public:
  std::vector<std::string> formats() const override;
  bool makes_folder(std::string_view format) const override;
  void write_folder(const Snapshot& archive, const ExportRequest& request, FolderSink& out,
                    Services& services) override;
};

}  // namespace lathbook::iiif
