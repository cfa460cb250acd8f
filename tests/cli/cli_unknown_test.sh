#!/bin/sh
# Unknown is never zero, in every verb. Usage: cli_unknown_test.sh BUILD_DIR SOURCE_DIR
exec python3 "$2/tests/cli/unknown.py" "$1" "$2"
