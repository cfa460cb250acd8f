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
found=$(grep -nE '^[^#].*--[a-z]' ../data/findings.tsv ../data/fixes.tsv ../data/hazards.tsv ../data/kitchen.tsv || true)
if [ -n "$found" ]; then
  echo "a table whose words every surface shows names an option of the command line:"
  echo "$found"
  bad=1
fi
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
# What a finding, a complaint or a change is, is a field that is set where it is known; surfaces print their words and look for
# nothing in them. Allowed: words that another hand wrote (a person's units), lists by equal words, a JSON type of ours.
for room in report sheet picture json wasm; do
  found=$(grep -nE '(strstr|strncmp|span_holds_fold|span_starts_fold|span_find)\(' "$room"/*.c | grep -vE '_test\.c:|^json/json_print\.c:' || true)
  if [ -n "$found" ]; then
    echo "src/$room looks for something in words instead of asking for a fact:"
    echo "$found"
    bad=1
  fi
done
found=$(grep -rnE 'str(str|n?cmp)\([^)]*(text|remedy|reason|bare|advice)\b' review report app sheet picture json wasm cli --include='*.c' |
  grep -E '\b(f|finding|x|n)(\[[^]]*\])?(->|\.)(f\.)?(text|remedy|reason|bare|advice)\b' |
  grep -vE '_test\.c:|strcmp\(r->item\[k\]\.f\.id, f->id\) == 0' || true)
if [ -n "$found" ]; then
  echo "the words of a finding decide something:"
  echo "$found"
  bad=1
fi
# The page asks findings by their fields, and does not take their names or words apart.
found=$(grep -rnE '\b(f|finding|c|w)\.(id|text|remedy|reason|message|label)\.(startsWith|includes|match|endsWith|indexOf)|where\.value\.(startsWith|includes)' ../page/src --include='*.ts' --include='*.tsx' || true)
if [ -n "$found" ]; then
  echo "the page looks for something in words of the core:"
  echo "$found"
  bad=1
fi
[ "$bad" -eq 0 ] && echo "rooms below the command line name no option; complaints are known by their codes, findings by their fields"
exit "$bad"
