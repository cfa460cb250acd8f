#!/bin/sh
# No function of the program has the name of one in a library that it links: the library would call ours in place of its own.
# Usage: serve_names_test.sh BUILD_DIR SOURCE_DIR
command -v nm >/dev/null 2>&1 || exit 77
nm -D "$1/bowlwright-serve" | grep -q ' U json_loadb' || exit 1 # there is something to look at
! nm -D --defined-only "$1/bowlwright-serve" | grep -E ' [A-Z] (json|jansson|sqlite3|MHD)_'
