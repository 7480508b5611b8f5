#!/bin/sh
# Builds the program, makes the Fairlead's archive from its sheets, prints one room's history, and writes
# the page and the linked data. Works from any folder, as often as you like.
set -eu
here=$(cd "$(dirname "$0")" && pwd)
root=$(cd "$here/.." && pwd)
. "$root/.ci/packages.sh"
sh "$root/.ci/setup.sh" $build_packages

build="$root/.build/release"
if [ ! -f "$build/CMakeCache.txt" ]; then
  echo "building (the first time takes a few minutes) ..." >&2
  cmake -S "$root" --preset release -DLATHBOOK_TESTS=OFF -DLATHBOOK_BENCH=OFF >/dev/null
fi
cmake --build "$build" --target program

out="$root/.build/fairlead"
rm -rf "$out"
mkdir -p "$out"
# The sample is taken in on a fixed day and remembers nothing on this machine, so that it can be made again.
export XDG_STATE_HOME="$out/state" LATHBOOK_NOW=2025-02-03T09:00:00Z
lathbook="$build/bin/lathbook"
"$lathbook" begin "$out/archive" --name "The Fairlead, Port Ellery" >/dev/null
export LATHBOOK_ARCHIVE="$out/archive"
"$lathbook" take-in "$here/sheets" --media "$here/media"
"$lathbook" say ARCHIVE jurisdiction US >/dev/null
# The archivist rules on the letter that has the front wall stand in 1884: it stays on record and dates nothing.
letter=$("$lathbook" show E-H.01 | sed -n '/^  stood by$/,/^$/s/^ *\([0-9a-f]*-[0-9]*\): .*/\1/p')
"$lathbook" say ARCHIVE set-aside "$letter" --by A-24 --recorder A-24 --on 2024-12-05 --source S-87 --at "leaf 1" --with "reason=The writer \
was born after the house was built. Contract and newspaper are of 1888, and the winter of his mother's birth, by \
which he dates it, was that of 1889 by the town's register." >/dev/null
"$lathbook" take-in-marks "$here/marks/invented-marks.csv" --code ML-1 \
  --title "Tile makers' marks, an invented list" --creator "The Fairlead's authors" \
  --rights "https://creativecommons.org/publicdomain/zero/1.0/" --note "Every maker in it is invented."
echo
"$lathbook" history 202
echo
"$lathbook" history 202 --html "$out/chart-room.html" >/dev/null
"$lathbook" sequence 202 --html "$out/chart-room-sequence.html" >/dev/null
"$lathbook" layers 105 --svg "$out/dining-room-paint.svg" >/dev/null
"$lathbook" report FL-H "$out/report.html" >/dev/null
"$lathbook" report FL-H "$out/report.odt" >/dev/null
"$lathbook" export crm "$out/fairlead.ttl" >/dev/null
"$lathbook" write-out "$out/fairlead.xml" >/dev/null
echo "The same as a page:         $out/chart-room.html"
echo "What came after what:       $out/chart-room-sequence.html"
echo "Paint of the Dining Room:   $out/dining-room-paint.svg"
echo "The preservation report:    $out/report.html, and report.odt to edit"
echo "The archive as linked data: $out/fairlead.ttl"
echo "The archive for exchange:   $out/fairlead.xml"
echo "Look around with:           export LATHBOOK_ARCHIVE=$out/archive"
echo "                            $lathbook show N-203.14"
echo "                            $lathbook why N-204 begins"
