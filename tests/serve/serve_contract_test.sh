#!/bin/sh
# The HTTP contract of the page's store, row by row, and what must not be answered.
# Usage: serve_contract_test.sh BUILD_DIR SOURCE_DIR
PYTHONDONTWRITEBYTECODE=1 exec python3 "$2/tests/serve/contract.py" "$1/bowlwright" "$2"
