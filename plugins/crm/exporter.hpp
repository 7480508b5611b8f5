// The archive as CIDOC CRM: which records, in which order.
#pragma once

#include <string>
#include <vector>

#include "core/plugin/plugin.hpp"

namespace lathbook::crm {

/// Formats "turtle" and "ntriples" hold the same triples; "trig" has them in its default graph, and what is
/// claimed but not held in a named graph for each claim. Same state, scope, level and base: same
/// bytes. Throws Error(invalid) for a base address that cannot begin an IRI.
class CrmExporter : public Exporter {
public:
  std::vector<std::string> formats() const override;
  void write(const Snapshot& archive, const ExportRequest& request, std::ostream& out,
             Services& services) override;
};

}  // namespace lathbook::crm
