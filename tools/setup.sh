#!/bin/sh
# Installs what is missing. Usage: setup.sh run|test|site|deb|check|bench
#   run    what building and running the program needs
#   site   that, and what the page and its WebAssembly core need
#   deb    site, and what finds out which libraries a package depends on
#   check  what the tests need that do without a page
#   test   site and check, and a browser
#   lint   run, and what reads the sources
#   bench  check, and the baselines of bench/
# On Debian it asks apt for missing packages (as root, or through sudo); the two food tables come through npm, pinned by
# library/package-lock.json with their checksums. Nothing is done when everything is there.
set -eu
cd "$(dirname "$0")/.."
what=${1:-run}

packages="gcc libc6-dev cmake ninja-build libutf8proc-dev libsqlite3-dev libmicrohttpd-dev libjansson-dev libxxhash-dev pkg-config libcairo2-dev libpango1.0-dev fonts-dejavu-core"
case $what in
  site | deb | check | test | bench) packages="$packages clang lld wasi-libc libclang-rt-14-dev libclang-rt-14-dev-wasm32" ;;
esac
case $what in
  check | test | bench)
    packages="$packages libcmocka-dev libgsl-dev libglpk-dev python3 python3-scipy gawk poppler-utils"
    ;;
esac
[ "$what" != deb ] || packages="$packages dpkg-dev"
[ "$what" != lint ] || packages="$packages clang-tidy cppcheck shellcheck libcmocka-dev libgsl-dev libglpk-dev"
[ "$what" != test ] || packages="$packages chromium"
[ "$what" != bench ] || packages="$packages python3-numpy coinor-libcbc-dev coinor-libclp-dev"
command -v npm >/dev/null 2>&1 || packages="$packages npm"

missing=
for p in $packages; do
  dpkg-query -W -f='${Status}' "$p" 2>/dev/null | grep -q 'ok installed' || missing="$missing $p"
done
if [ -n "$missing" ]; then
  echo "Installing:$missing" >&2
  as_root=
  if [ "$(id -u)" != 0 ]; then
    command -v sudo >/dev/null 2>&1 || {
      echo "Please install these packages as root, then try again:$missing" >&2
      exit 1
    }
    as_root=sudo
  fi
  log=$(mktemp)
  # shellcheck disable=SC2086
  if ! { $as_root apt-get update && DEBIAN_FRONTEND=noninteractive $as_root apt-get install -y --no-install-recommends $missing; } >"$log" 2>&1; then
    cat "$log" >&2
    rm -f "$log"
    exit 1
  fi
  rm -f "$log"
fi

if ! cmp -s library/package-lock.json library/node_modules/.installed-lock; then
  echo "Fetching the two food tables (npm, pinned)" >&2
  (cd library && npm ci --ignore-scripts --no-audit --no-fund >&2)
  cp library/package-lock.json library/node_modules/.installed-lock
fi

case $what in
  site | deb | test) page=yes ;;
  *) page=no ;;
esac
if [ "$what" = test ] && ! cmp -s tests/sheet/package-lock.json tests/sheet/node_modules/.installed-lock; then
  echo "Fetching what the sheet is held against (npm, pinned)" >&2
  (cd tests/sheet && npm ci --ignore-scripts --no-audit --no-fund >&2)
  cp tests/sheet/package-lock.json tests/sheet/node_modules/.installed-lock
fi
if [ "$page" = yes ] && ! cmp -s page/package-lock.json page/node_modules/.installed-lock; then
  echo "Fetching what the page is built with (npm, pinned)" >&2
  (cd page && npm ci --ignore-scripts --no-audit --no-fund >&2)
  cp page/package-lock.json page/node_modules/.installed-lock
fi
