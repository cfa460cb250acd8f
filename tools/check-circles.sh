#!/bin/sh
# No two files of a room need each other, neither directly nor by way of others: what the linker would look up from file to
# file can be put in order, room by room. Usage: check-circles.sh BUILD_DIR SOURCE_DIR
# (of a build without optimisation at link time)
set -eu
source=$(cd "$2" && pwd)
cd "$1"

# Lines "FILE NEEDS-FILE" of all object files whose names nm prints: "libbw_lp.a:simplex.c.o:0000 T name".
needs() {
  nm -A "$@" 2>/dev/null | awk '
    { file = $1; sub(/\.o:.*/, "", file); sub(/.*[\/:]/, "", file) }
    $(NF - 1) ~ /^[TDRBVW]$/ { home[$NF] = file }
    $(NF - 1) ~ /U$/ { n++; from[n] = file; name[n] = $NF }
    END { for (i = 1; i <= n; i++) if (name[i] in home && home[name[i]] != from[i]) print from[i], home[name[i]] }' | sort -u
}

bad=0
arrows=0
check() {
  room=$1
  shift
  list=$(needs "$@")
  [ -n "$list" ] && arrows=$((arrows + $(echo "$list" | wc -l)))
  if ! loop=$(echo "$list" | tsort 2>&1 >/dev/null); then
    echo "files of $room need each other:" >&2
    echo "$loop" | sed 's/^tsort: /  /' >&2
    bad=1
  fi
}

for archive in libbw_*.a; do
  room=${archive#libbw_}
  [ -d "$source/src/${room%.a}" ] && check "src/${room%.a}" "$archive"
done
check src/cli CMakeFiles/bowlwright.dir/src/cli/*.o
check src/served CMakeFiles/bowlwright-serve.dir/src/served/*.o
[ ! -d CMakeFiles/bowlwright-sheet.dir ] || check src/paper CMakeFiles/bowlwright-sheet.dir/src/paper/*.o
check library CMakeFiles/bowlwright-library-build.dir/library/*.o
[ "$arrows" -gt 200 ] || { echo "only $arrows arrows between files were found in $PWD" >&2; exit 1; }
exit $bad
