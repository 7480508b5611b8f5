#!/bin/sh
# Builds everything and runs every test: sets itself up, works from any folder, can be run again.
# The last lines are ctest's own. Steps with their times are printed as they end.
set -eu
root=$(cd "$(dirname "$0")/.." && pwd)
. "$root/.ci/packages.sh"
started=$(date +%s)
step() {
  now=$(date +%s)
  echo "== $1 ($((now - started)) s since the start)"
}
sh "$root/.ci/setup.sh" $test_packages
step "packages are there"
cd "$root"
cmake --preset release -DLATHBOOK_TESTS=ON -DLATHBOOK_BENCH=ON -DLATHBOOK_STEPS=ON >/dev/null
cmake --build .build/release
step "release build done"
status=0
ctest --test-dir .build/release --output-on-failure --no-tests=error -j2 || status=$?
now=$(date +%s)
if [ $((now - started)) -gt 4500 ]; then
  echo "the whole run took $((now - started)) s, over the 75 minutes allowed" >&2
  status=1
fi
exit $status
