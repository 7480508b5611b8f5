// The sources of an archive as citations.
#pragma once

#include <string>
#include <vector>

#include "core/plugin/plugin.hpp"

namespace lathbook::citations {

/// Formats "csl-json" and "bibtex". Sources in natural order of codes; for a place, those that statements
/// about it and what belongs to it cite or name. Same state, same bytes.
class CitationsExporter : public Exporter {
public:
  std::vector<std::string> formats() const override;
  void write(const Snapshot& archive, const ExportRequest& request, std::ostream& out,
             Services& services) override;
};

}  // namespace lathbook::citations
