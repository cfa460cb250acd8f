#!/bin/sh
# Runs one fuzz target of a build with Clang and sanitizers on its seeds. Usage: fuzz_run.sh BUILD_DIR SOURCE_DIR KIND
# BW_FUZZ_SECONDS: how long (12); what was found beyond the seeds is kept in BUILD_DIR/fuzz and built upon the next time.
set -eu
build=$1
source=$2
kind=$3
seconds=${BW_FUZZ_SECONDS:-12}
most=2000
case $kind in store) most=60000 ;; esac
mkdir -p "$build/fuzz/$kind"
PYTHONDONTWRITEBYTECODE=1 python3 "$source/tests/fuzz/seeds.py" "$kind" "$build/fuzz/seeds-$kind" "$build/bowlwright"
exec "$build/libfuzzer_$kind" -max_total_time="$seconds" -seed="${BW_FUZZ_SEED:-1}" -max_len=$most -timeout=60 -rss_limit_mb=4096 -print_final_stats=1 \
  -artifact_prefix="$build/fuzz/found-$kind-" "$build/fuzz/$kind" "$build/fuzz/seeds-$kind"
