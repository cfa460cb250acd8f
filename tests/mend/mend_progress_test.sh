#!/bin/sh
# Long searches show on a terminal how far they are, and Ctrl-C ends them with something that holds: the text that comes out is
# met. Usage: mend_progress_test.sh BUILD_DIR SOURCE_DIR
set -u
program=$1/bowlwright
cd "$2" || exit 1
command -v python3 >/dev/null || exit 77
scratch=$(mktemp -d)
trap 'rm -rf "$scratch"' EXIT
failures=0
fail() {
  echo "FAILED: $*" >&2
  failures=$((failures + 1))
}

# Mended again, an answer has nothing left to mend.
is_met() {
  [ ! -s "$scratch/text" ] ||
    "$program" mend "$scratch/text" --for examples/saltmarsh.animals:Pim --json 2>/dev/null | grep -q '"already_met": *true' ||
    fail "what was found is not met: $1"
}
python3 tests/mend/stop.py "$program" mend examples/pims-plate.recipe --for Pim --proposals 9 >"$scratch/text"
code=$?
[ $code -eq 0 ] || [ $code -eq 77 ] || fail "Ctrl-C during mend"
is_met mend

# The household with few foods: a search that takes seconds.
sed 's/^Limits:/Limits: at most 11 foods;/' examples/household.larder >"$scratch/few.larder"
python3 tests/mend/stop.py "$program" compose "$scratch/few.larder" --for examples/saltmarsh.animals >"$scratch/text"
code=$?
[ $code -eq 0 ] || [ $code -eq 77 ] || fail "Ctrl-C during compose"
[ ! -s "$scratch/text" ] ||
  "$program" check "$scratch/text" --for examples/saltmarsh.animals:Juniper --strict >"$scratch/out" 2>&1 || fail "what compose found is not met"

# Patience of a moment: something is shown all the same, or it is said that nothing was found; never that none exists.
for patience in 0.01 0.1 0.3; do
  "$program" mend examples/pims-plate.recipe --for Pim --patience $patience --json >"$scratch/out" 2>"$scratch/err"
  code=$?
  grep -q '"status": *"none-exists"' "$scratch/out" && fail "none is said to exist after $patience s"
  case $code in
    0) python3 -c 'import json, sys; print(json.load(open(sys.argv[1]))["text"])' "$scratch/out" >"$scratch/text" && is_met "$patience s" ;;
    5) grep -q 'not proven' "$scratch/err" || fail "that nothing is proven is not said" ;;
    *) fail "exit code $code after $patience s" ;;
  esac
done
[ $failures -eq 0 ]
