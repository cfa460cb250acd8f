#!/bin/sh
# Builds one fuzz target with clang and runs it on the cases. Usage, from the top of the sources: tests/fuzz/fuzz_corpus.sh recipe|animal|label|larder|post|journal [SECONDS]
set -eu
kind=$1
seconds=${2:-60}
out=build/fuzz
mkdir -p "$out/seeds-$kind"
awk -v out="$out/seeds-$kind/" '
  /^=== /        { n++; text = ""; inside = 1; next }
  /^--- gives/   { if (inside) { printf "%s", text > (out FILENAME_SAFE() n ".txt"); close(out FILENAME_SAFE() n ".txt") } inside = 0; next }
  inside         { text = text $0 "\n" }
  function FILENAME_SAFE(  f) { f = FILENAME; gsub(/.*\//, "", f); return f "-" }
' tests/cases/"$kind"*.case $( [ "$kind" = recipe ] && echo tests/cases/words_*.case )
sources=$(for room in base foods judge text animal label recipe post larder journal; do ls src/$room/*.c; done | grep -v '_test\.c$')
# shellcheck disable=SC2086
clang -g -O1 -std=c17 -ffp-contract=off -fsanitize=fuzzer,address,undefined,float-cast-overflow -fno-sanitize-recover=all -Isrc -I. \
  -DBW_VERSION='"fuzz"' -DBW_LIBRARY_PATH='"build/bowlwright.library"' "tests/fuzz/fuzz_$kind.c" $sources -lm -o "$out/fuzz_$kind"
"$out/fuzz_$kind" -max_len=2000 -timeout=10 -max_total_time="$seconds" -artifact_prefix="$out/crash-$kind-" "$out/seeds-$kind"
