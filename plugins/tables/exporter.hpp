// The archive as a folder of sheets.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "core/plugin/plugin.hpp"

namespace lathbook::tables {

/// Format "csvw", a folder. For a place: what belongs to it, the sources and people it rests on, and a row
/// without statements for every other record that is named. Same state, same bytes.
class TablesExporter : public Exporter {
public:
  std::vector<std::string> formats() const override;
  bool makes_folder(std::string_view format) const override;
  void write_folder(const Snapshot& archive, const ExportRequest& request, FolderSink& out,
                    Services& services) override;
};

}  // namespace lathbook::tables
