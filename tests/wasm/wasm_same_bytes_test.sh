#!/bin/sh
# Native and WebAssembly give the same bytes for every verb, over the examples and the posted diets of tests/review.
# Usage: wasm_same_bytes_test.sh BUILD SOURCE
set -eu
build=$1
source=$2
[ -e "$build/bowlwright.wasm" ] || { echo "SKIPPED: this build has no WebAssembly module"; exit 77; }
export BOWLWRIGHT_TODAY=2026-11-25
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
total=0

# same CALL TEXT...: the module's answers against those that the native program wrote into $work/native.
same() {
  node "$source/tests/wasm/answers.mjs" "$build/bowlwright.wasm" "$build/bowlwright.library" "$animals" "$BOWLWRIGHT_TODAY" "$@" >"$work/wasm"
  [ -s "$work/native" ]
  cmp "$work/native" "$work/wasm" || { echo "$1 differs"; exit 1; }
  total=$((total + $(wc -l <"$work/native")))
  : >"$work/native"
}

# Exit codes 4 (refused) and 5 (no recipe exists) are answers too.
native() { "$build/bowlwright" "$@" --quiet --json --for "$animals" >>"$work/native" || { code=$?; [ $code -eq 4 ] || [ $code -eq 5 ]; }; }

: >"$work/native"
animals="$source/examples/saltmarsh.animals"
native check "$source"/examples/*.recipe
same check "$source"/examples/*.recipe

for recipe in rice-pot weeknight-bowl; do native mend "$source/examples/$recipe.recipe"; done
same mend "$source/examples/rice-pot.recipe" "$source/examples/weeknight-bowl.recipe"

native swap "$source/examples/weeknight-bowl.recipe" 6
same swap "$source/examples/weeknight-bowl.recipe"

# Own foods: in the recipe, and offered by mend and by swap.
export FOODS="$source/examples/kitchen-shelf.foods"
{ cat "$source/examples/weeknight-bowl.recipe"; echo '1 tablet zinc [mine:zinc-tablets], every other day'; } >"$work/own.recipe"
native check "$work/own.recipe" --foods "$FOODS"
same check "$work/own.recipe"
native mend "$work/own.recipe" --foods "$FOODS"
same mend "$work/own.recipe"
native swap "$work/own.recipe" 6 --foods "$FOODS"
same swap "$work/own.recipe"
unset FOODS

# A larder with an answer, and two without: too little food allowed, and nothing that holds iodine.
sed 's/food at most 700 g/food at most 250 g/' "$source/examples/chest-freezer.larder" >"$work/little.larder"
grep -v 'haddock\|mackerel\|sardine\|oyster\|egg \[' "$source/examples/chest-freezer.larder" >"$work/no-iodine.larder"
for larder in "$source/examples/chest-freezer.larder" "$work/little.larder" "$work/no-iodine.larder"; do native compose "$larder"; done
same compose "$source/examples/chest-freezer.larder" "$work/little.larder" "$work/no-iodine.larder"

# The names of the two differ (a file's name on the command line is not known here), so all recipes name themselves.
native side "$source/examples/weeknight-bowl.recipe" "$source/examples/rice-pot.recipe"
same side "$source/examples/weeknight-bowl.recipe" "$source/examples/rice-pot.recipe"

# Sheets of every example, as HTML.
for recipe in "$source"/examples/*.recipe; do "$build/bowlwright" sheet "$recipe" --for "$animals" --quiet --days 7 --units us >>"$work/native"; done
same sheet "$source"/examples/*.recipe

# Days: a plan of two animals, a journal, weights and what was eaten, a weight plan.
days="weeknight-bowl-mended rice-pot rice-pot-mended pims-plate-mended"
mended() { for recipe in $days; do echo "$recipe=$source/examples/$recipe.recipe"; done; }
named() { for recipe in $days; do echo "$source/examples/$recipe.recipe"; done; }
# Every animal's week is an object a line on the command line, and one of a list here.
weeks() { printf '{"weeks":[%s]}\n' "$(paste -sd, "$1")" >"$work/native"; }
# shellcheck disable=SC2046 # one recipe a word
{
  native week "$source/examples/november.plan" $(named)
  mv "$work/native" "$work/two" && weeks "$work/two"
  same week-plan "$source/examples/november.plan" "" $(mended)
  for who in Juniper Moss Pim; do
    animals="$source/examples/saltmarsh.animals:$who"
    native week --journal "$source/examples/autumn.journal" $(named)
    native trend "$source/examples/autumn.journal" $(named) --forecast 56
    native slim --journal "$source/examples/autumn.journal"
    mv "$work/native" "$work/three"
    animals="$source/examples/saltmarsh.animals"
    line=0
    for call in week-journal trend slim; do
      line=$((line + 1))
      sed -n "${line}p" "$work/three" >"$work/one"
      if [ $call = week-journal ]; then weeks "$work/one"; else cp "$work/one" "$work/native"; fi
      same $call "$source/examples/autumn.journal" $who $(mended)
    done
  done
}

# The posted diets: an animal and a recipe in each file. Every one is checked, every fifth mended.
count=0
for diet in "$source"/tests/review/diets/*.txt; do
  animals="$work/animals"
  sed '/^----$/,$d' "$diet" >"$animals"
  sed '1,/^----$/d' "$diet" >"$work/recipe"
  native check "$work/recipe"
  same check "$work/recipe"
  if [ $((count % 5)) -eq 0 ]; then
    native mend "$work/recipe"
    same mend "$work/recipe"
    native swap "$work/recipe" 6
    same swap "$work/recipe"
  fi
  native side "$work/recipe" "$source/examples/garden-stew.recipe"
  same side "$work/recipe" "$source/examples/garden-stew.recipe"
  count=$((count + 1))
done

echo "$total answers, the same bytes"
