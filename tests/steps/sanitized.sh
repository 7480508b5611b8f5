#!/bin/sh
# Builds core, plugins and tests with clang, address and undefined-behaviour sanitizers, and runs every
# test of that build. Plugins stay loaded so that leaks in them have names. Graphviz 2.42 keeps a few kilobytes
# of each layout with labelled edges; what it alone allocates is no finding of ours.
set -eu
cd "$(dirname "$0")/../.."
cmake --preset fuzz -DLATHBOOK_TESTS=ON >/dev/null
cmake --build .build/fuzz
leaks=$PWD/tests/steps/leaks.txt
LATHBOOK_KEEP_PLUGINS=1 LSAN_OPTIONS=suppressions=$leaks:print_suppressions=0 ASAN_OPTIONS=detect_leaks=1 UBSAN_OPTIONS=print_stacktrace=1 \
  ctest --test-dir .build/fuzz --output-on-failure --no-tests=error -j2
