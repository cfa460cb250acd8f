#!/bin/sh
# Arrows point down only. Usage: check-includes.sh SOURCE_DIR
# Each folder of src/ may include itself and the folders named here; ARCHITECTURE.md draws the same picture.
set -eu
cd "$1"
allowed() {
  case $1 in
    base) echo "base" ;;
    core) echo "base core" ;;
    lp) echo "base lp" ;;
    change) echo "base core lp change" ;;
    text) echo "base core text" ;;
    report) echo "base core lp change report" ;;
    app) echo "base core lp change text app" ;;
    wasm) echo "base core lp change text report app wasm" ;;
    store) echo "base store" ;;
    serve) echo "base store serve" ;;
    cli) echo "base core lp change text report app store serve cli" ;;
    library) echo "base core library" ;;
    *) echo "" ;;
  esac
}
bad=0
for file in src/*/*.[ch] library/*.[ch]; do
  [ -e "$file" ] || continue
  case $file in *_test.c) continue ;; esac
  folder=$(echo "$file" | sed 's|^src/||; s|/.*||')
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
    base | core | lp | change | text | report | app)
      if grep -nE '^#include <(stdio|time|unistd|fcntl|locale|signal|pthread|dirent|sys/.*)\.h>' "$file" |
        grep -v '^[0-9]*:#include <stdio.h> /\* vsnprintf \*/' >&2; then
        echo "$file is in a pure layer and may not include that" >&2
        bad=1
      fi
      ;;
  esac
done
exit $bad
