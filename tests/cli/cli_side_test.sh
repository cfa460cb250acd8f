#!/bin/sh
# Side by side, why, the quiet animal and ratios, end to end. Usage: cli_side_test.sh BUILD_DIR SOURCE_DIR
exec python3 "$2/tests/cli/side.py" "$1" "$2"
