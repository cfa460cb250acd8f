#!/bin/sh
# Several writers and servers on one store, streams of changes, a full disk, the end of a run.
# Usage: serve_together_test.sh BUILD_DIR SOURCE_DIR
PYTHONDONTWRITEBYTECODE=1 exec python3 "$2/tests/serve/together.py" "$1/bowlwright" "$2"
