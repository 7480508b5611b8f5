// A plugin that calls a function which nobody has.
#include "core/plugin/descriptor.hpp"

namespace lathbook::unresolved {

int nobody_wrote_this();

struct Unresolved : Plugin {
  Report* report() override { return nobody_wrote_this() == 1 ? nullptr : Plugin::report(); }
};

}  // namespace lathbook::unresolved

LATHBOOK_PLUGIN(lathbook::unresolved::Unresolved, .name = "unresolved", .version = "1.0", .kind = "report");
