#!/bin/sh
# How a run of serve begins and ends: exit codes, stores that are left alone, backups.
# Usage: serve_starting_test.sh BUILD_DIR SOURCE_DIR
PYTHONDONTWRITEBYTECODE=1 exec python3 "$2/tests/serve/starting.py" "$1/bowlwright" "$2"
