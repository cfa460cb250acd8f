#!/bin/sh
# Texts copied from a drawn answer. Usage: cli_kept_test.sh BUILD_DIR SOURCE_DIR
exec python3 "$2/tests/cli/kept.py" "$1" "$2"
