// The plugin of bags.
#include "core/plugin/descriptor.hpp"
#include "plugins/bag/exporter.hpp"

namespace lathbook::bag {

class BagPlugin : public Plugin {
public:
  Exporter* exporter() override { return &exporter_; }

private:
  BagExporter exporter_;
};

}  // namespace lathbook::bag

LATHBOOK_PLUGIN(lathbook::bag::BagPlugin, .name = "bag", .version = "1.0", .kind = "export",
                .summary = "packs the whole archive with its files as a BagIt 1.0 bag");
