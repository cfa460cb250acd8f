#!/bin/sh
# Usage: cli_reply_test.sh BUILD_DIR SOURCE_DIR
set -eu
TMPDIR_REPLY=$(mktemp -d)
export TMPDIR_REPLY
trap 'rm -rf "$TMPDIR_REPLY"' EXIT
python3 "$2/tests/cli/reply.py" "$1/bowlwright" "$2"
