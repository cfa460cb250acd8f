#!/bin/sh
# Builds and runs the benchmarks. Usage: sh bench/run.sh  (make bench sets everything up first)
set -eu
cd "$(dirname "$0")/.."
cmake --preset release -DBW_BENCH=ON >/dev/null
cmake --build --preset release >/dev/null
# The system python: it is the one that has the packages of tools/setup.sh.
/usr/bin/python3 bench/bench.py build
build/bench_swap build/bowlwright.library
/usr/bin/python3 bench/lp_bench.py build
cmake --build --preset release --target blanks_trial >/dev/null
build/blanks_trial library/node_modules data tests/blanks/held.tsv
/usr/bin/python3 bench/mend_bench.py build
