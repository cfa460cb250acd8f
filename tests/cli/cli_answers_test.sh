#!/bin/sh
# Usage: cli_answers_test.sh BUILD_DIR SOURCE_DIR
PYTHONDONTWRITEBYTECODE=1 exec python3 "$2/tests/cli/answers.py" "$1" "$2"
