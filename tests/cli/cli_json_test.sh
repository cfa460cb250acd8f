#!/bin/sh
# Usage: cli_json_test.sh BUILD_DIR SOURCE_DIR
exec python3 "$2/tests/cli/json_answers.py" "$1" "$2"
