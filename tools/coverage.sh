#!/bin/sh
# Which lines and branches of the sources the tests run, folder by folder, and the lines that none ran. Usage: coverage.sh
# BUILD_DIR (built with --coverage). Prints the table; BUILD_DIR/gcov/ has each file with its counts (##### is never).
# What is not run, and why: docs/internals/coverage.md.
set -eu
cd "$1"
find . -name '*.gcda' -delete
ctest -j "$(nproc)" --output-on-failure -E '^(page_|circles|serve_killed)' >ctest.log 2>&1 || {
  grep -E 'Failed|tests passed' ctest.log >&2
  echo "the table is of what ran" >&2
}
find . -name '*.gcno' ! -path '*_test.dir/*' -print >gcno.txt
rm -rf gcov
xargs -n 40 gcov --branch-probabilities --preserve-paths <gcno.txt >gcov.txt 2>/dev/null
mkdir gcov
mv ./*.gcov gcov/
echo "| folder | lines | lines run | branches taken |"
echo "| --- | --- | --- | --- |"
awk '
/^$/ { keep = 0 }
  /^File / { file = $2; gsub(/\047/, "", file); gsub(/\.\.\//, "", file); keep = file ~ /^(src|library)\// && file !~ /_test\.c$/; next }
  !keep { next }
  /^Lines executed:/ { split($0, a, /[:% ]+/); if (!(file in lines) || a[3] * a[5] > ran[file]) { lines[file] = a[5]; ran[file] = a[3] * a[5] } }
  /^Taken at least once:/ { split($0, a, /[:% ]+/); if (!(file in branches) || a[5] * a[7] > took[file]) { branches[file] = a[7]; took[file] = a[5] * a[7] } }
  END {
    for (f in lines) { d = f; sub(/\/[^\/]*$/, "", d); l[d] += lines[f]; r[d] += ran[f]; b[d] += branches[f]; t[d] += took[f] }
    for (d in l) printf "| `%s` | %d | %.1f %% | %.1f %% |\n", d, l[d], (r[d] / l[d]), (b[d] > 0 ? t[d] / b[d] : 100)
  }' gcov.txt | sort
