// Arguments in, exit code out.
#pragma once

#include <iosfwd>

#include "core/base/clock.hpp"

namespace lathbook::cli {

/// Runs one command line. Results go to `out`, everything else to `err`.
int run_command_line(int argc, char** argv, const Clock& clock, std::ostream& out, std::ostream& err);

}  // namespace lathbook::cli
