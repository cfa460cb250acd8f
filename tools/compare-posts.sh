#!/bin/sh
# What two builds make of every post under tests/post, byte for byte: the strict text, the answer, and the readings of every
# corpus. Usage: compare-posts.sh OLD_BUILD NEW_BUILD SOURCE_DIR
# A change that is to leave the reader's answers alone must print "equal".
set -eu
old=$(cd "$1" && pwd) new=$(cd "$2" && pwd)
cd "$3/tests/post"
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
find . -name '*.posts' | sort | while read -r file; do
  awk -v to="$work/$(echo "$file" | tr '/.' '__')-" '
    /^@post / { n++; out = sprintf("%s%03d.txt", to, n); text = 1; next }
    /^@reads/ { text = 0 }
    text { print > out }' "$file"
done
different=0 posts=0
for post in "$work"/*.txt; do
  posts=$((posts + 1))
  for build in "$old" "$new"; do
    out=$work/$([ "$build" = "$old" ] && echo old || echo new)
    { "$build/bowlwright" check --posted "$post" --as-recipe; "$build/bowlwright" check --posted "$post"; } >"$out" 2>&1 || true
  done
  cmp -s "$work/old" "$work/new" && continue
  different=$((different + 1))
  echo "---- $(basename "$post")"
  diff "$work/old" "$work/new" | head -20 || true
done
for folder in . */; do
  "$old/post_corpus_test" all "$PWD/$folder" >"$work/old" 2>&1 || true
  "$new/post_corpus_test" all "$PWD/$folder" >"$work/new" 2>&1 || true
  cmp -s "$work/old" "$work/new" || { different=$((different + 1)); echo "---- corpus $folder"; diff "$work/old" "$work/new" | head -20; }
done
[ "$posts" -gt 100 ] || { echo "only $posts posts were found" >&2; exit 1; }
[ "$different" -eq 0 ] || { echo "$different of $posts posts and the corpora differ" >&2; exit 1; }
echo "equal: $posts posts and their corpora"
