// The plugin of tables.
#include "core/plugin/descriptor.hpp"
#include "plugins/tables/exporter.hpp"

namespace lathbook::tables {

class TablesPlugin : public Plugin {
public:
  Exporter* exporter() override { return &exporter_; }

private:
  TablesExporter exporter_;
};

}  // namespace lathbook::tables

LATHBOOK_PLUGIN(lathbook::tables::TablesPlugin, .name = "tables", .version = "1.0", .kind = "export",
                .summary = "writes a folder of CSV sheets with their CSV on the Web description");
