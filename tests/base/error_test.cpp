#include <catch2/catch.hpp>

#include "core/base/error.hpp"

TEST_CASE("findings tell a fault from a warning") {
  using namespace lathbook;
  CHECK_FALSE(has_fault({}));
  CHECK_FALSE(has_fault({{Severity::warning, "a", "b", "c"}}));
  CHECK(has_fault({{Severity::warning, "a", "b", "c"}, {Severity::fault, "a", "b", "c"}}));
}
