#!/bin/sh
# Builds core, plugins and tests with clang, address and undefined-behaviour sanitizers, and runs every
# test of that build. Plugins stay loaded so that leaks in them have names.
set -eu
cd "$(dirname "$0")/../.."
cmake --preset fuzz -DLATHBOOK_TESTS=ON >/dev/null
cmake --build .build/fuzz
LATHBOOK_KEEP_PLUGINS=1 ASAN_OPTIONS=detect_leaks=1 UBSAN_OPTIONS=print_stacktrace=1 \
  ctest --test-dir .build/fuzz --output-on-failure --no-tests=error -j2
