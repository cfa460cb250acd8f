#!/bin/sh
# The sources of the last commit as one file, the same bytes every time. Usage: dist.sh OUT_DIR; prints the file's path.
set -eu
cd "$(dirname "$0")/.."
version=$(sed -n 's/^project(bowlwright VERSION \([0-9.]*\).*/\1/p' CMakeLists.txt)
mkdir -p "$1"
git archive --format=tar --prefix="bowlwright-$version/" HEAD | gzip -9n >"$1/bowlwright-$version.tar.gz"
echo "$1/bowlwright-$version.tar.gz"
