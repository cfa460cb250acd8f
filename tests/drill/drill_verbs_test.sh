#!/bin/sh
# Every verb on a machine where something fails. Usage: drill_verbs_test.sh BUILD_DIR SOURCE_DIR
PYTHONDONTWRITEBYTECODE=1 exec python3 "$2/tests/drill/drill.py" "$1" "$2"
