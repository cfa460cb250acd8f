#!/bin/sh
# Usage: cli_picture_test.sh BUILD_DIR SOURCE_DIR
exec python3 "$2/tests/cli/picture.py" "$1" "$2"
