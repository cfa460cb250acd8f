#!/bin/sh
# Every command that the manual shows ("    $ bowlwright ...") runs and answers; with BW_SAMPLE each fifth of them.
# Usage: cli_manual_test.sh BUILD_DIR SOURCE_DIR
set -u
build=$1
cd "$2" || exit 1
source=$(pwd)
scratch=$(mktemp -d)
trap 'rm -rf "$scratch"' EXIT
sed -n 's/^    \$ \(bowlwright .*\)/\1/p' docs/manual/*.md >"$scratch/commands"
# "serve" goes on until it is stopped: it is, after two seconds, on a free port, with a store and a page of its own.
mkdir "$scratch/page"
echo '<!doctype html><html><head></head></html>' >"$scratch/page/index.html"
XDG_DATA_HOME=$scratch
export XDG_DATA_HOME
as_run() {
  case $1 in
    "bowlwright serve") echo "timeout --signal=INT --preserve-status 2 $1 --port 0 --page $scratch/page" ;;
    *) echo "$1" ;;
  esac
}
# What writes files writes them beside a link to the examples and a folder with a post.
mkdir "$scratch/here" && cd "$scratch/here" && ln -s "$source/examples" examples && mkdir posts && cp examples/posted.txt posts || exit 1
count=0 failures=0
PATH=$build:$PATH
while IFS= read -r command; do
  count=$((count + 1))
  [ -z "${BW_SAMPLE:-}" ] || [ $((count % 5)) -eq 1 ] || continue
  if ! sh -c "$(as_run "$command")" >"$scratch/out" 2>"$scratch/err" </dev/null || [ ! -s "$scratch/out" ]; then
    failures=$((failures + 1))
    echo "FAILED: $command" >&2
    sed 's/^/    /' "$scratch/err" >&2
  fi
done <"$scratch/commands"
[ $count -ge 10 ] || { echo "only $count commands found in the manual" >&2; exit 1; }
[ $failures -eq 0 ]
