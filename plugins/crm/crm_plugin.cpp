// Writes the archive as CIDOC CRM linked data: the plugin and its descriptor.
#include "core/plugin/descriptor.hpp"
#include "plugins/crm/exporter.hpp"

namespace lathbook::crm {

/// One exporter, nothing else.
class CrmPlugin : public Plugin {
public:
  Exporter* exporter() override { return &exporter_; }

private:
  CrmExporter exporter_;
};

}  // namespace lathbook::crm

LATHBOOK_PLUGIN(lathbook::crm::CrmPlugin, .name = "crm", .version = "1.1", .kind = "export",
                .summary = "writes the archive as CIDOC CRM linked data, in Turtle, N-Triples or TriG",
                .needs = "timeline@4", .works_without = "timeline");
