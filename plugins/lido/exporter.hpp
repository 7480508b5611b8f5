// The things of an archive as LIDO records.
#pragma once

#include <string>
#include <vector>

#include "core/plugin/plugin.hpp"

namespace lathbook::lido {

/// Formats "lido" (elements, finds, pieces of note) and "every-piece". Throws Error(invalid) when there is
/// nothing to write, for a document without a record is not valid. Same state, same bytes.
class LidoExporter : public Exporter {
public:
  std::vector<std::string> formats() const override;
  void write(const Snapshot& archive, const ExportRequest& request, std::ostream& out,
             Services& services) override;
};

}  // namespace lathbook::lido
