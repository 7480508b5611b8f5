#!/bin/sh
# Every C++ file is laid out as .clang-format says.
set -eu
cd "$(dirname "$0")/../.."
find core plugins tests \( -name '*.cpp' -o -name '*.hpp' \) -print0 | xargs -0 clang-format-14 --dry-run -Werror
