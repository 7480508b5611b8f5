// The sample house's report, made once for all tests of this folder.
#pragma once

#include <filesystem>
#include <string>
#include <vector>

#include "plugins/report/build.hpp"
#include "plugins/report/tree.hpp"
#include "tests/support/sample.hpp"

namespace lathbook::test {

/// The archive of the sample, in a folder that lives as long as the tests.
Sample& fairlead();
/// A report on it, in process.
report::Document report_of(const std::string& place, report::Options options = {},
                           const std::vector<std::pair<std::string, std::string>>& settings = {});
/// The whole house, made once.
const report::Document& whole_house();
/// Runs the program on the sample's archive; throws what it said when it fails.
std::string lathbook_says(const std::vector<std::string>& arguments);
/// Whether a program can be run here; says aloud when not.
bool can_run(const std::string& program);

}  // namespace lathbook::test
