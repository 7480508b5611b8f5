// The plugin of citations.
#include "core/plugin/descriptor.hpp"
#include "plugins/citations/exporter.hpp"

namespace lathbook::citations {

class CitationsPlugin : public Plugin {
public:
  Exporter* exporter() override { return &exporter_; }

private:
  CitationsExporter exporter_;
};

}  // namespace lathbook::citations

LATHBOOK_PLUGIN(lathbook::citations::CitationsPlugin, .name = "citations", .version = "1.0", .kind = "export",
                .summary = "writes the sources as CSL-JSON or BibTeX");
