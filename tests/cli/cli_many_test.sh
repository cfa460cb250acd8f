#!/bin/sh
# Usage: cli_many_test.sh BUILD_DIR SOURCE_DIR
set -eu
python3 "$2/tests/cli/many.py" "$1/bowlwright" "$2"
