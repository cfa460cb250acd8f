#!/bin/sh
# Random journals from text to table, to the store and back. Usage: journal_ways_test.sh BUILD_DIR SOURCE_DIR
command -v python3 >/dev/null || exit 77
exec python3 "$2/tests/week/journal_ways.py" "$1"
