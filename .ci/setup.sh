# Installs what is missing of the named Debian packages; says nothing when nothing is.
# Use: sh .ci/setup.sh PACKAGE ...
set -eu
missing=
for package in "$@"; do
  if ! dpkg-query -W -f='${Status}' "$package" 2>/dev/null | grep -q 'ok installed'; then
    missing="$missing $package"
  fi
done
# Whoever wants a browser wants to test pages with it.
pages() {
  case " $* " in *" chromium "*) sh "$(dirname "$0")/browser.sh" ;; esac
}
if [ -z "$missing" ]; then
  pages "$@"
  exit 0
fi
if ! command -v apt-get >/dev/null 2>&1; then
  echo "This needs Debian 12's packages:$missing. There is no apt-get here; install them by other means." >&2
  exit 1
fi
if [ "$(id -u)" -ne 0 ]; then
  echo "These Debian packages are missing:$missing. Run this once as root, or: sudo apt-get install$missing" >&2
  exit 1
fi
echo "installing$missing" >&2
log=$(mktemp)
if ! { DEBIAN_FRONTEND=noninteractive apt-get update -qq &&
       DEBIAN_FRONTEND=noninteractive apt-get install -qq -y --no-install-recommends $missing; } >"$log" 2>&1 </dev/null; then
  tail -n 5 "$log" >&2
  echo "The packages could not be installed: is this machine offline? Connect it and run this again." >&2
  rm -f "$log"
  exit 1
fi
rm -f "$log"
pages "$@"
