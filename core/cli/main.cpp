// The program: makes the real clock and hands over.
#include <iostream>

#include "core/base/progress.hpp"
#include "core/cli/command_line.hpp"

int main(int argc, char** argv) {
  std::ios::sync_with_stdio(false);
  lathbook::install_stop_signal();
  const lathbook::SystemClock clock;
  return lathbook::cli::run_command_line(argc, argv, clock, std::cout, std::cerr);
}
