#!/bin/sh
# Arrows point down only. Usage: check-includes.sh SOURCE_DIR
# Each folder of src/ may include itself and the folders named here; ARCHITECTURE.md draws the same picture.
set -eu
cd "$1"
allowed() {
  case $1 in
    base) echo "base" ;;
    foods) echo "base foods" ;;
    judge) echo "base foods judge" ;;
    explain) echo "base foods judge explain" ;;
    words) echo "base foods judge explain words" ;;
    review) echo "base foods judge explain words review" ;;
    lp) echo "base lp" ;;
    text) echo "base text" ;;
    request) echo "base foods judge explain text request" ;;
    animal) echo "base foods judge text animal" ;;
    label) echo "base foods text label" ;;
    recipe) echo "base foods judge text label recipe" ;;
    # The rooms within src/post, of which each may include of other folders what post may.
    post/hear) echo "post/post.h post/hear" ;;
    post/page) echo "post/hear post/page" ;;
    post/animal) echo "post/hear post/animal" ;;
    post/line) echo "post/hear post/animal post/line" ;;
    post/rewrite) echo "post/hear post/rewrite" ;;
    post/govern) echo "post/hear post/rewrite post/govern" ;;
    post/whole) echo "post/hear post/govern post/whole" ;;
    post/built) echo "post/hear post/page post/rewrite post/built" ;;
    post/refer) echo "post/hear post/rewrite post/built post/refer" ;;
    post) echo "base foods judge text label recipe post" ;;
    larder) echo "base foods judge text label recipe larder" ;;
    journal) echo "base foods text journal" ;;
    kitchen) echo "base foods judge explain words review text label recipe larder kitchen" ;;
    picture) echo "base foods judge words picture" ;;
    sheet) echo "base foods judge explain words review text label recipe larder post kitchen picture sheet" ;;
    plan) echo "base foods judge text label recipe journal plan" ;;
    time) echo "base foods judge words text time" ;;
    trend) echo "base trend" ;;
    change) echo "base foods judge explain words review lp change" ;;
    report) echo "base foods judge explain words review lp text post time trend change picture report" ;;
    app) echo "base foods judge explain words review lp text animal label recipe post larder kitchen journal plan time trend request change app" ;;
    json) echo "base foods judge explain words review lp text animal label recipe post larder kitchen picture sheet journal plan time trend request change app json" ;;
    wasm) echo "base foods judge explain words review lp text animal label recipe post larder kitchen picture sheet journal plan time trend request change report app json wasm" ;;
    store) echo "base store" ;;
    serve) echo "base store serve" ;;
    cli) echo "base foods judge explain words review lp text animal label recipe post larder kitchen picture sheet journal plan time trend request change report app json cli" ;;
    served) echo "base foods judge explain words review lp text animal label recipe post larder kitchen picture sheet journal plan time trend request change report app json cli store serve served" ;;
    paper) echo "base foods judge explain words review lp text animal label recipe post larder kitchen picture sheet journal plan time trend request change report app json cli paper" ;;
    library) echo "base foods judge library" ;;
    *) echo "" ;;
  esac
}
bad=0
sources=$(find src library -mindepth 1 -maxdepth 3 -name node_modules -prune -o -name '*.[ch]' ! -name '*_test.c' -print | grep -E '^(src/[^/]+/([^/]+/)?|library/)[^/]+$')
# Folder and the folder it names, each pair once: a look at a thousand lines is too slow for every build.
# Of a room within a folder also the room, or file, of that folder: "post/refer post/hear".
# shellcheck disable=SC2086 # one file a word
pairs=$(grep -E '^#include "[a-z]*/' $sources /dev/null | awk -F'"' '{
    split($1, file, ":"); n = split(file[1], f, "/"); m = split($2, to, "/"); at = f[1] == "src" ? 2 : 1
    print f[at], to[1]
    if (n - at == 2 && f[at] == to[1]) print f[at] "/" f[at + 1], to[1] "/" to[2]
  }' | sort -u)
while read -r folder target; do
  case " $(allowed "$folder") " in
    *" $target "*) ;;
    *)
      # shellcheck disable=SC2086
      grep -El "^#include \"$target/" $sources | grep -E "^(src/)?$folder/" >&2
      echo "these include $target/: '$folder' may include only: $(allowed "$folder")" >&2
      bad=1
      ;;
  esac
done <<EOF
$pairs
EOF
# The pure layers know no files, clocks, environment, processes or locale.
# shellcheck disable=SC2086
if grep -nE '^#include <(stdio|time|unistd|fcntl|locale|signal|pthread|dirent|sys/.*)\.h>' $sources |
  grep -E '^src/(base|foods|judge|explain|words|review|lp|text|request|animal|label|recipe|post|larder|journal|plan|time|trend|change|kitchen|picture|sheet|report|app|json)/' |
  grep -v -e ':#include <stdio.h> /\* vsnprintf \*/' -e ':#include <sys/platform/x86.h> /\* only what the processor can do \*/' >&2; then
  echo "these are in a pure layer and may not include that" >&2
  bad=1
fi
exit $bad
