#!/bin/sh
# One figure on all surfaces. Usage: cli_figures_test.sh BUILD_DIR SOURCE_DIR
command -v python3 >/dev/null || exit 77
PYTHONDONTWRITEBYTECODE=1 exec python3 "$2/tests/cli/figures.py" "$1" "$2"
