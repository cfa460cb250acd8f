#!/bin/sh
# Phrases that were weeded out do not come back. Usage: phrases_test.sh BUILD_DIR SOURCE_DIR
exec python3 "$2/tests/words/phrases.py" "$2"
