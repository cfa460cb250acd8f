#!/bin/sh
# trend, slim and --journal through the program. Usage: trend_cli_test.sh BUILD_DIR SOURCE_DIR
command -v python3 >/dev/null || exit 77
PYTHONDONTWRITEBYTECODE=1 exec python3 "$2/tests/trend/trend.py" "$1/bowlwright" "$2"
