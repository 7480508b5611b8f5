// A shared library like any other: it exports something, but nothing that makes it a plugin.
#include "core/base/api.hpp"
#include "tests/plugin/broken/trace.hpp"

namespace {

const lathbook::test::LibraryTrace trace;

}  // namespace

extern "C" LATHBOOK_API int lathbook_plugin_of_another_kind(int number);
int lathbook_plugin_of_another_kind(int number) {
  return number + 1;
}
