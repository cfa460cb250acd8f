#!/bin/sh
# "make dist" gives the same bytes every time, whatever the clock, the time zone and the umask say, and everything that is committed.
# Usage: cli_dist_test.sh BUILD_DIR SOURCE_DIR
set -eu
source=$2
git -C "$source" rev-parse HEAD >/dev/null 2>&1 || exit 77 # sources without their history
scratch=$(mktemp -d)
trap 'rm -rf "$scratch"' EXIT
sh "$source/tools/dist.sh" "$scratch/one" >/dev/null
(umask 077; TZ=Pacific/Auckland LC_ALL=C sh "$source/tools/dist.sh" "$scratch/two" >/dev/null)
cmp "$scratch"/one/*.tar.gz "$scratch"/two/*.tar.gz
tar -tzf "$scratch"/one/*.tar.gz | sed 's,^[^/]*/,,' | grep -v '/$' | grep . | sort >"$scratch/packed"
git -C "$source" ls-tree -r --name-only HEAD | sort >"$scratch/committed"
cmp "$scratch/packed" "$scratch/committed"
