#!/bin/sh
# Runs each fuzz target for 12 seconds on top of its saved cases. Needs the sanitized build.
set -eu
cd "$(dirname "$0")/../.."
for target in .build/fuzz/bin/fuzz_*; do
  name=$(basename "$target" | sed 's/^fuzz_//')
  corpus=$(mktemp -d)
  echo "fuzzing $name"
  "$target" -seed=1 -max_total_time=12 -rss_limit_mb=4096 -print_final_stats=1 "$corpus" "tests/fuzz/cases/$name" 2>"$corpus.log" || {
    tail -n 40 "$corpus.log" >&2
    exit 1
  }
  grep -E 'number_of_executed_units' "$corpus.log" || true
  rm -rf "$corpus" "$corpus.log"
done
