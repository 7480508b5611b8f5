// The plugin of Dublin Core.
#include "core/plugin/descriptor.hpp"
#include "plugins/dublin-core/exporter.hpp"

namespace lathbook::dublin_core {

class DublinCorePlugin : public Plugin {
public:
  Exporter* exporter() override { return &exporter_; }

private:
  DublinCoreExporter exporter_;
};

}  // namespace lathbook::dublin_core

LATHBOOK_PLUGIN(lathbook::dublin_core::DublinCorePlugin, .name = "dublin-core", .version = "1.0",
                .kind = "export",
                .summary = "writes things and sources as Dublin Core, ready for a static harvest",
                .needs = "timeline@4", .works_without = "timeline");
