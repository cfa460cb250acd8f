#!/bin/sh
# Damaged requests over the socket. Usage: serve_hostile_test.sh BUILD_DIR SOURCE_DIR
PYTHONDONTWRITEBYTECODE=1 exec python3 "$2/tests/serve/hostile.py" "$1/bowlwright" "$2"
