#!/bin/sh
# What is assumed of several lines of a post is drawn once, with the lines; what is assumed of one stands beside that one.
# Usage: cli_posted_assumed_test.sh BUILD_DIR SOURCE_DIR
set -eu
bowlwright=$(cd "$1" && pwd)/bowlwright
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
cd "$work"

drawn() { # the list of what was assumed of this post
  printf '%b' "$1" >post.txt
  "$bowlwright" check --posted post.txt --width 100 | sed -n '/^  Assumed/,/^$/p' >drawn.txt
}
has() { grep -qF -- "$1" drawn.txt || { echo "no '$1' in" >&2; cat drawn.txt >&2; exit 1; }; }
has_not() { if grep -qF -- "$1" drawn.txt; then echo "'$1' in" >&2; cat drawn.txt >&2; exit 1; fi; }

dog='Collie, 20 kg, 5 years, neutered. '
drawn "${dog}I feed 200 g chicken thigh, 100 g cooked rice, 50 g carrots and 30 g peas most mornings."
has '- all foods: fed on most days, and counted every day'
has_not '200 g chicken thigh'

drawn "${dog}300 g beef heart.\n100 g cooked rice and 50 g carrots most days.\nabout 40 g peas"
has '- 100 g cooked rice and 50 g carrots: fed on most days, and counted every day'
has "- 40 g (36-44 g) peas: the owner's estimate"
has_not 'beef heart'

# Two things of the same lines are one entry; of one line as before.
drawn "${dog}300 g beef heart\nnearly 100 g cooked rice"
has "- 90-100 g cooked rice: 'nearly' taken as 90 to 100 % of it"
