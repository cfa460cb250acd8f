#!/bin/sh
# Weeks and journals through the program itself, worked out again in Python. Usage: week_answers_test.sh BUILD_DIR SOURCE_DIR
exec python3 "$2/tests/week/week.py" "$1" "$2"
