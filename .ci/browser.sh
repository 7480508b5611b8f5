# Fetches what the tests of pages need besides a browser (tests/browser/package.json), with npm. Without npm those
# tests say so and end. Use: sh .ci/browser.sh
set -eu
folder=$(cd "$(dirname "$0")/../tests/browser" && pwd)
[ -f "$folder/node_modules/axe-core/axe.min.js" ] && exit 0
if ! command -v npm >/dev/null 2>&1; then
  DEBIAN_FRONTEND=noninteractive apt-get install -qq -y --no-install-recommends nodejs npm >/dev/null 2>&1 || true
fi
if command -v npm >/dev/null 2>&1; then
  npm ci --prefix "$folder" --silent --no-audit --no-fund >/dev/null 2>&1 ||
    echo "axe-core could not be fetched: pages are not tested for accessibility" >&2
else
  echo "there is no npm: pages are not tested for accessibility" >&2
fi
