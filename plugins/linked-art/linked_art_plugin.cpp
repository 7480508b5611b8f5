// Writes the archive as Linked Art: the plugin and its descriptor.
#include "core/plugin/descriptor.hpp"
#include "plugins/linked-art/exporter.hpp"

namespace lathbook::linked_art {

/// One exporter, nothing else.
class LinkedArtPlugin : public Plugin {
public:
  Exporter* exporter() override { return &exporter_; }

private:
  LinkedArtExporter exporter_;
};

}  // namespace lathbook::linked_art

LATHBOOK_PLUGIN(lathbook::linked_art::LinkedArtPlugin, .name = "linked-art", .version = "1.0",
                .kind = "export",
                .summary = "writes the archive as Linked Art, a folder with one JSON-LD file a record");
