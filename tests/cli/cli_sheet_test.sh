#!/bin/sh
# Usage: cli_sheet_test.sh BUILD_DIR SOURCE_DIR
exec python3 "$2/tests/cli/sheet.py" "$1" "$2"
