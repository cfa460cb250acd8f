#!/bin/sh
# What would command a terminal or be markup comes through on no surface. Usage: cli_hostile_test.sh BUILD_DIR SOURCE_DIR
PYTHONDONTWRITEBYTECODE=1 exec python3 "$2/tests/cli/hostile.py" "$1"
