// The archive as a bag.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "core/plugin/plugin.hpp"

namespace lathbook::bag {

/// Format "bag", a folder. Always the whole reading: throws Error(invalid) when a place is named. Same state,
/// same bytes: the day of bagging is the day up to which the state is known.
class BagExporter : public Exporter {
public:
  std::vector<std::string> formats() const override;
  bool makes_folder(std::string_view format) const override;
  void write_folder(const Snapshot& archive, const ExportRequest& request, FolderSink& out,
                    Services& services) override;
};

}  // namespace lathbook::bag
