#!/bin/sh
# A row of the table of dangers without words would be found by nobody: the builder refuses it, with file and line. So it does an
# empty alternative, and words that are none.
build=$1 source=$2
packages=$(sed -n 's/^BW_PACKAGES:[A-Z]*=//p' "$build/CMakeCache.txt")
[ -n "$packages" ] || packages=$source/library/node_modules
[ -d "$packages" ] || exit 77
work=$(mktemp -d) || exit 1
trap 'rm -rf "$work"' EXIT
fail() {
  echo "$1" >&2
  exit 1
}
refuses() { # words for column 'said', what the complaint says
  cp -r "$source/data" "$work/data" || exit 1
  awk -F'\t' -v OFS='\t' -v words="$1" '$1 == "hops" { $12 = words } { print }' "$source/data/hazards.tsv" >"$work/data/hazards.tsv"
  if "$build/bowlwright-library-build" "$packages" "$work/data" "$work/image" 2>"$work/err"; then
    fail "a row with '$1' was taken"
  fi
  grep -q "hazards.tsv:[0-9]*: .*$2" "$work/err" || fail "no place or reason: $(cat "$work/err")"
  rm -r "$work/data"
}
refuses "" "needs words in 'said'"
refuses "hop||hops" "an empty alternative"
refuses "hop|---" "without words"
exit 0
