#!/bin/sh
# The answers of check, drawn from what was computed, in every style. Usage: cli_drawn_test.sh BUILD_DIR SOURCE_DIR
PYTHONDONTWRITEBYTECODE=1 exec python3 "$2/tests/cli/drawn.py" "$1" "$2"
