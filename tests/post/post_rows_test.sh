#!/bin/sh
# A row of data/post_words.tsv or data/post_classes.tsv that cannot be right ends the build, with its file and line; and every
# class is asked for somewhere. Usage: post_rows_test.sh BUILD_DIR SOURCE_DIR
set -eu
build=$(cd "$1" && pwd)/post-words-build source=$(cd "$2" && pwd)
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
cd "$work"
mkdir out

classes() { printf 'class\tform\tmeans\twhat\n%b' "$1" >classes.tsv; }
words() { printf 'class\tphrases\tmeans\tnote\n%b' "$1" >words.tsv; }
refused() { # line of which file, and a word of what is said
  if "$build" classes.tsv words.tsv out >said 2>&1; then echo "taken: $2" >&2; cat words.tsv >&2; exit 1; fi
  grep -q "^$1: .*$2" said || { echo "wanted '$1: ... $2', was:" >&2; cat said >&2; exit 1; }
}

two='meal\twords\tno\tnames of meals\npart\twords\tpart\tparts\n'
classes "$two"
words 'meal\tdinner|late supper\t\t\npart\ta third\t1/3\t\n'
"$build" classes.tsv words.tsv out
grep -q CLASS_MEAL out/post_classes.h

words 'meal\tdinner\t\t\nmael\tlunch\t\t\npart\ta third\t1/3\t\n'; refused words.tsv:3 "mael"
words 'meal\tdinner\t\t\n';                                         refused words.tsv "no row of class 'part'"
words 'meal\tdinner|lunch\t\t\npart\thalf\t1/2\t\nmeal\tlunch\t\t\n'; refused words.tsv:4 "line 2 already"
words 'meal\tDinner\t\t\npart\thalf\t1/2\t\n';                      refused words.tsv:2 "capitals"
words 'meal\tlate  supper\t\t\npart\thalf\t1/2\t\n';                refused words.tsv:2 "blank"
words 'meal\tdinner||lunch\t\t\npart\thalf\t1/2\t\n';               refused words.tsv:2 "empty"
words 'meal\tdinner\tlate\t\npart\thalf\t1/2\t\n';                  refused words.tsv:2 "meaning"
words 'meal\tdinner\t\t\npart\thalf\tsome\t\n';                     refused words.tsv:3 "no part"
words 'meal\tdinner\t\npart\thalf\t1/2\t\n';                        refused words.tsv:2 "cells"
words 'meal\tdinner\t\t\npart\thalf\t1/2\t\n'
classes "${two}meal\twords\tno\tmeals again\n";  refused classes.tsv:4 "twice"
classes "${two}A-meal\twords\tno\tanother\n";    refused classes.tsv:4 "small letters"
classes "${two}tea\tword\tno\tanother\n";        refused classes.tsv:4 "'word'"

# A class that nobody asks for would be dead words.
cd "$source"
grep -v '^#' data/post_classes.tsv | cut -f1 | grep -v '^class$' | tr '[:lower:]' '[:upper:]' | while read -r name; do
  grep -qw "CLASS_$name" src/post/*.c src/post/*/*.c || { echo "nobody asks for class $name" >&2; exit 1; }
done
