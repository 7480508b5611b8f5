// The plugin of LIDO.
#include "core/plugin/descriptor.hpp"
#include "plugins/lido/exporter.hpp"

namespace lathbook::lido {

class LidoPlugin : public Plugin {
public:
  Exporter* exporter() override { return &exporter_; }

private:
  LidoExporter exporter_;
};

}  // namespace lathbook::lido

LATHBOOK_PLUGIN(lathbook::lido::LidoPlugin, .name = "lido", .version = "1.0", .kind = "export",
                .summary = "writes elements, finds and pieces of note as LIDO 1.1 records",
                .needs = "timeline@4", .works_without = "timeline");
