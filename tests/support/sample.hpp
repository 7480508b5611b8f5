// The sheets of the sample house, taken into a new archive in a temporary folder.
#pragma once

#include <memory>
#include <string>

#include "core/storage/archive.hpp"
#include "tests/support/support.hpp"

namespace lathbook::test {

struct Sample {
  TempFolder folder;
  FixedClock clock{Moment{1'750'000'000, 0}};
  std::unique_ptr<Archive> archive;
  std::string faults;  ///< of rows; empty when all is well
  Sample();
};

}  // namespace lathbook::test
