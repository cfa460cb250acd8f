#!/bin/sh
# Each way to say how often that docs/manual/recipe-text.md lists is read, and each that it calls an error is one.
# Usage: cli_often_test.sh BUILD_DIR SOURCE_DIR
set -eu
bowlwright=$(cd "$1" && pwd)/bowlwright manual=$(cd "$2" && pwd)/docs/manual/recipe-text.md
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
cd "$work"

quoted() { grep -o '`[^`]*`' | tr -d '`'; }
sed -n '/^| written | days out of 28 |/,/^$/p' "$manual" >table
sed -n '/^`biweekly`/,/^$/p' "$manual" >errors

# A cell's words behind the food; what has an amount of its own stands as it is.
cut -d'|' -f2 table | quoted >ways
[ "$(wc -l <ways)" -gt 40 ] || { echo "only $(wc -l <ways) ways were found" >&2; exit 1; }
{
  printf 'Dog: 20 kg, 5 years\nMeals: 2\n\n300 g beef heart, on Tuesdays\n'
  while read -r way; do
    case $way in
    [0-9]*eggs*) echo "$way" ;;
    *) echo "20 g lamb heart, $way" ;;
    esac
  done <ways
} >recipe.txt
"$bowlwright" check recipe.txt >/dev/null 2>said || { cat said >&2; exit 1; }

# The last one is what to write instead.
quoted <errors | grep -v '^6 days' >wrong
[ "$(wc -l <wrong)" -ge 9 ] || { echo "only $(wc -l <wrong) errors were found" >&2; exit 1; }
while read -r way; do
  printf 'Dog: 20 kg, 5 years\n\n300 g beef heart\n20 g lamb heart, %s\n' "$way" >recipe.txt
  if "$bowlwright" check recipe.txt >/dev/null 2>&1; then echo "'$way' is no error" >&2; exit 1; fi
done <wrong
