#!/bin/sh
# The same answers to the last bit, number of pivots and nodes included, from two compilers and two levels of optimisation.
# Usage: lp_same_bits_test.sh BUILD_DIR SOURCE_DIR
set -eu
source=$2
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
first=
for how in "gcc -O0" "gcc -O3" "clang -O2"; do
  # shellcheck disable=SC2010,SC2046,SC2086 # names of our own, without blanks
  $how -std=c17 -ffp-contract=off -I"$source/src" -I"$source/tests/lp" -o "$work/checksum" "$source/tests/lp/checksum.c" \
    $(ls "$source"/src/lp/*.c | grep -v _test.c) "$source"/src/base/arena.c "$source"/src/base/buf.c "$source"/src/base/base.c -lm
  sum=$("$work/checksum")
  echo "$how: $sum"
  [ -n "$first" ] || first=$sum
  if [ "$sum" != "$first" ]; then
    echo "the builds disagree" >&2
    exit 1
  fi
done
