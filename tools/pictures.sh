#!/usr/bin/env bash
# The pictures of README: the page as it opens, and an answer in the terminal. Usage: tools/pictures.sh [BUILD]   (after make site, or a
# build with the page: BUILD holds bowlwright and site/; default build-dev)
set -eu
cd "$(dirname "$0")/.."
build=${1:-build-dev}
mkdir -p docs/pictures
node page/tests/pictures.mjs "$build/site" "$build/bowlwright" docs/pictures
ls -l docs/pictures
