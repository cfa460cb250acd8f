#!/bin/sh
# Native and WebAssembly give the same bytes for every example recipe. Usage: wasm_same_bytes_test.sh BUILD SOURCE
set -eu
build=$1
source=$2
[ -e "$build/bowlwright.wasm" ] || { echo "SKIPPED: this build has no WebAssembly module"; exit 77; }
export BOWLWRIGHT_TODAY=2026-11-25
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
"$build/bowlwright" check --quiet --json --for "$source/examples/saltmarsh.animals" "$source"/examples/*.recipe >"$work/native" || [ $? -eq 4 ]
node --no-warnings "$source/tests/wasm/answers.mjs" "$build/bowlwright.wasm" "$build/bowlwright.library" \
  "$source/examples/saltmarsh.animals" "$BOWLWRIGHT_TODAY" "$source"/examples/*.recipe >"$work/wasm"
[ -s "$work/native" ]
cmp "$work/native" "$work/wasm"
echo "$(wc -l <"$work/native") answers, the same bytes"
