// A plugin whose descriptor is wrong in the way that the build names: magic word, interface or stamp.
#include "core/plugin/descriptor.hpp"
#include "tests/plugin/broken/trace.hpp"

namespace {

const lathbook::test::LibraryTrace trace;

struct Silent : lathbook::Plugin {};

}  // namespace

constinit const lathbook::LathbookDescriptor lathbook_plugin = {
    TEST_MAGIC,
    TEST_INTERFACE,
    sizeof(lathbook::LathbookDescriptor),
    TEST_STAMP,
    lathbook::PluginAbout{.name = TEST_NAME, .version = "1.0", .kind = TEST_KIND, .summary = "never runs"},
    &lathbook::create_plugin<Silent>};
