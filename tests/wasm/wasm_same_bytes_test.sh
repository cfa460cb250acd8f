#!/bin/sh
# Native and WebAssembly give the same bytes for every verb over the examples. Usage: wasm_same_bytes_test.sh BUILD SOURCE
set -eu
build=$1
source=$2
[ -e "$build/bowlwright.wasm" ] || { echo "SKIPPED: this build has no WebAssembly module"; exit 77; }
export BOWLWRIGHT_TODAY=2026-11-25
animals="$source/examples/saltmarsh.animals"
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
total=0

# same CALL TEXT...: what the native program wrote into native, against the module's answers.
same() {
  node "$source/tests/wasm/answers.mjs" "$build/bowlwright.wasm" "$build/bowlwright.library" "$animals" "$BOWLWRIGHT_TODAY" "$@" >"$work/wasm"
  [ -s "$work/native" ]
  cmp "$work/native" "$work/wasm" || { echo "$1 differs"; exit 1; }
  total=$((total + $(wc -l <"$work/native")))
}

# Exit codes 4 (refused) and 5 (no recipe exists) are answers too.
native() { "$build/bowlwright" "$@" --quiet --json --for "$animals" >>"$work/native" || { code=$?; [ $code -eq 4 ] || [ $code -eq 5 ]; }; }

: >"$work/native"
native check "$source"/examples/*.recipe
same check "$source"/examples/*.recipe

: >"$work/native"
for recipe in rice-pot weeknight-bowl; do native mend "$source/examples/$recipe.recipe"; done
same mend "$source/examples/rice-pot.recipe" "$source/examples/weeknight-bowl.recipe"

: >"$work/native"
native swap "$source/examples/weeknight-bowl.recipe" 6
same swap "$source/examples/weeknight-bowl.recipe"

: >"$work/native"
native compose "$source/examples/chest-freezer.larder"
same compose "$source/examples/chest-freezer.larder"

# The names of the two differ (a file's name on the command line is not known here), so both recipes name themselves.
: >"$work/native"
native side "$source/examples/weeknight-bowl.recipe" "$source/examples/rice-pot.recipe"
same side "$source/examples/weeknight-bowl.recipe" "$source/examples/rice-pot.recipe"

echo "$total answers, the same bytes"
