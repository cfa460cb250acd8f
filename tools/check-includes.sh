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
    words) echo "base foods judge words" ;;
    review) echo "base foods judge explain words review" ;;
    lp) echo "base lp" ;;
    text) echo "base text" ;;
    request) echo "base foods judge explain text request" ;;
    animal) echo "base foods judge text animal" ;;
    label) echo "base foods text label" ;;
    recipe) echo "base foods judge text label recipe" ;;
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
for file in src/*/*.[ch] library/*.[ch]; do
  [ -e "$file" ] || continue
  case $file in *_test.c) continue ;; esac
  folder=$(echo "$file" | sed 's|^src/||; s|/.*||')
  # shellcheck disable=SC2013 # one word a line
  for target in $(sed -n 's|^#include "\([a-z]*\)/.*|\1|p' "$file" | sort -u); do
    case " $(allowed "$folder") " in
      *" $target "*) ;;
      *)
        echo "$file includes $target/: '$folder' may include only: $(allowed "$folder")" >&2
        bad=1
        ;;
    esac
  done
  # The pure layers know no files, clocks, environment, processes or locale.
  case $folder in
    base | foods | judge | explain | words | review | lp | text | request | animal | label | recipe | post | larder | journal | plan | time | trend | change | kitchen | picture | sheet | report | app | json)
      if grep -nE '^#include <(stdio|time|unistd|fcntl|locale|signal|pthread|dirent|sys/.*)\.h>' "$file" |
        grep -v '^[0-9]*:#include <stdio.h> /\* vsnprintf \*/' >&2; then
        echo "$file is in a pure layer and may not include that" >&2
        bad=1
      fi
      ;;
  esac
done
exit $bad
