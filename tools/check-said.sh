#!/bin/sh
# What is said to people is said once and for all surfaces: rooms below the command line name none of its options, and every
# complaint has a code. Usage: check-said.sh SOURCE_DIR
set -eu
cd "$1/src"
bad=0
for room in */; do
  case $room in
  cli/ | request/ | report/ | serve/ | served/ | paper/) continue ;; # the command line, its options, its drawings
  json/) continue ;;                                                 # prints the manual of --json
  esac
  found=$(grep -nE '"[^"]*--[a-z][^"]*"' "$room"*.c | grep -v '_test\.c:' || true)
  if [ -n "$found" ]; then
    echo "src/$room names an option of the command line:"
    echo "$found"
    bad=1
  fi
done
if grep -n '"other"' text/diag.c; then
  echo "a complaint without a kind of its own has a code again"
  bad=1
fi
# Nothing is looked up in the words of a complaint.
found=$(grep -rnE 'str(str|cmp)\([^)]*(message|complaint)' . --include='*.c' | grep -v '_test\.c:' || true)
allowed=./post/post_ask.c # says in an owner's words what a complaint says to a writer
found=$(echo "$found" | grep -v "^$allowed:" || true)
if [ -n "$found" ]; then
  echo "a complaint is known by its code, not by its words:"
  echo "$found"
  bad=1
fi
[ "$bad" -eq 0 ] && echo "rooms below the command line name no option; complaints are known by their codes"
exit "$bad"
