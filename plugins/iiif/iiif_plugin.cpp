// The plugin of IIIF.
#include "core/plugin/descriptor.hpp"
#include "plugins/iiif/exporter.hpp"

namespace lathbook::iiif {

class IiifPlugin : public Plugin {
public:
  Exporter* exporter() override { return &exporter_; }

private:
  IiifExporter exporter_;
};

}  // namespace lathbook::iiif

LATHBOOK_PLUGIN(
    lathbook::iiif::IiifPlugin, .name = "iiif", .version = "1.0", .kind = "export",
    .summary = "writes a folder of IIIF manifests for the photographs of rooms, things and marks");
