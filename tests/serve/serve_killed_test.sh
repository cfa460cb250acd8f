#!/bin/sh
# A hundred kills in the middle of saves: nothing that was acknowledged is lost.
# Usage: serve_killed_test.sh BUILD_DIR SOURCE_DIR
PYTHONDONTWRITEBYTECODE=1 exec python3 "$2/tests/serve/killed.py" "$1/bowlwright" "$2"
