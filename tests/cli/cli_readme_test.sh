#!/bin/sh
# README's tour is true, as is what the manual quotes of answers, and what "bowlwright" alone says to type first works. Usage: cli_readme_test.sh BUILD_DIR SOURCE_DIR
set -eu
PYTHONDONTWRITEBYTECODE=1 python3 "$2/tests/cli/shown.py" "$1" "$2" README.md
PYTHONDONTWRITEBYTECODE=1 python3 "$2/tests/cli/excerpts.py" "$1" "$2" docs/manual/reading-the-answer.md docs/manual/side.md docs/manual/why.md
scratch=$(mktemp -d)
trap 'rm -rf "$scratch"' EXIT
PATH=$(cd "$1" && pwd):$PATH
source=$(cd "$2" && pwd)
cd "$scratch"
bowlwright >greeting
awk 'length($0) > 79 { exit 1 }' greeting || { echo "the greeting is wider than a terminal" >&2; exit 1; }
# The first command, with the lines of the bowl that stand below it; then the others on that bowl and on a post.
sed -n '/one food a line/,/in a file/s/^  //p' greeting >bowl.txt
[ "$(wc -l <bowl.txt)" -eq 3 ] || { echo "the greeting shows no bowl of three lines" >&2; exit 1; }
cp "$source/examples/posted.txt" post.txt
tried=0
sed -n 's/^  \(bowlwright .*\)/\1/p' greeting >commands
while IFS= read -r command; do
  case $command in *serve*) continue ;; esac
  sh -c "$command" <bowl.txt >out 2>err || { echo "does not work as the greeting says: $command" >&2; cat err >&2; exit 1; }
  [ -s out ] || exit 1
  tried=$((tried + 1))
done <commands
[ "$tried" -eq 4 ]
# Every link of README and the manual leads somewhere.
cd "$source"
for page in README.md docs/manual/*.md docs/*.md; do
  sed 's/`[^`]*`//g' "$page" | grep -o '](\([^)]*\))' | sed 's/^](//; s/)$//; s/#.*//' | while IFS= read -r link; do
    case $link in "" | http*) continue ;; esac
    [ -e "$(dirname "$page")/$link" ] || { echo "$page: $link leads nowhere" >&2; exit 1; }
  done
done
