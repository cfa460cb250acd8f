#!/bin/sh
# Builds and runs the benchmarks, and writes docs/performance.md. Usage: sh bench/run.sh  (make bench sets everything up first)
set -eu
cd "$(dirname "$0")/.."
BW_BENCH_LOAD=$(cut -d' ' -f1 /proc/loadavg)
export BW_BENCH_LOAD
cmake --preset release -DBW_BENCH=ON >/dev/null
cmake --build --preset release >/dev/null
cmake --build --preset release --target blanks_trial >/dev/null
printed=build/bench.txt
: >$printed
show() {
  "$@" >$printed.part || exit 1
  tee -a $printed <$printed.part
}
# The system python: it is the one that has the packages of tools/setup.sh.
show /usr/bin/python3 bench/bench.py build
show build/bench_swap build/bowlwright.library
show build/bench_journal build/bowlwright.library examples/weeknight-bowl.recipe
show build/bench_trend
show /usr/bin/python3 bench/lp_bench.py build
show build/blanks_trial library/node_modules data tests/blanks/held.tsv
show /usr/bin/python3 bench/mend_bench.py build
show /usr/bin/python3 bench/many_bench.py build
/usr/bin/python3 bench/table.py $printed docs/performance.md
