// A plugin whose constructor throws what the build names.
#include <stdexcept>

#include "core/plugin/descriptor.hpp"

namespace lathbook::bad_start {

struct BadStart : Plugin {
  BadStart() { throw TEST_THROWS; }
};

}  // namespace lathbook::bad_start

LATHBOOK_PLUGIN(lathbook::bad_start::BadStart, .name = TEST_NAME, .version = "1.0", .kind = "report");
