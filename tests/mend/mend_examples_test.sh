#!/bin/sh
# The mended examples have nothing left to mend, and mending is deterministic. Usage: mend_examples_test.sh BUILD_DIR SOURCE_DIR
set -u
program=$1/bowlwright
cd "$2" || exit 1
failures=0
check() {
  if ! "$program" mend "examples/$1-mended.recipe" --for "examples/saltmarsh.animals:$2" --json 2>/dev/null |
    grep -q '"already_met": *true'; then
    echo "FAILED: examples/$1-mended.recipe is not met for $2" >&2
    failures=$((failures + 1))
  fi
}
check weeknight-bowl Juniper
check rice-pot Juniper
check pims-plate Pim
once=$("$program" mend examples/pims-plate.recipe --for Pim --plain 2>/dev/null)
twice=$("$program" mend examples/pims-plate.recipe --for Pim --plain 2>/dev/null)
[ -n "$once" ] && [ "$once" = "$twice" ] || { echo "FAILED: two runs differ" >&2; failures=$((failures + 1)); }
# The new text names the animal that it is made for. (Under sanitizers the usual minute of patience can end without a text.)
named() {
  want=$1
  shift
  got=$("$program" "$@" --patience 900 --json 2>/dev/null | grep -o '\\nFor: [^\\]*' | head -1)
  [ "$got" = "$want" ] || { echo "FAILED: $*: '$got', wanted '$want'" >&2; failures=$((failures + 1)); }
}
round=$(mktemp) || exit 1
trap 'rm -f "$round"' EXIT
printf 'Animal: Pebble\nSpecies: dog\nAge: 6 years\nWeight: 24 kg\nIdeal weight: 18 kg\n' >"$round"
named '\nFor: Juniper' mend examples/weeknight-bowl.recipe --for examples/saltmarsh.animals:Juniper
named '\nFor: Moss' mend examples/weeknight-bowl.recipe --for examples/saltmarsh.animals:Moss
named '\nFor: Pebble' slim examples/weeknight-bowl.recipe --for "$round:Pebble"
named '' mend examples/weeknight-bowl.recipe --dog 18
"$program" mend examples/weeknight-bowl.recipe --dog 18 --json 2>/dev/null | grep -q 'Recipe: Weeknight bowl\\nMakes:' ||
  { echo "FAILED: no text, or one with another header" >&2; failures=$((failures + 1)); }
# No animal, an unknown line, a growing animal, the impossible: each with its own exit code.
expect() {
  want=$1
  shift
  "$program" mend "$@" >/dev/null 2>&1 </dev/null
  got=$?
  [ "$got" -eq "$want" ] || { echo "FAILED: mend $*: exit code $got, wanted $want" >&2; failures=$((failures + 1)); }
}
expect 2 examples/rice-pot.recipe
expect 3 examples/rice-pot.recipe --dog 18 --keep zebra
expect 5 examples/rice-pot.recipe --for Juniper --keep chicken --keep rice --no-supplements
expect 0 examples/weeknight-bowl.recipe --for Juniper --proposals 2
[ $failures -eq 0 ]
