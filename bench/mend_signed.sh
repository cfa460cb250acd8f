#!/bin/sh
# Mends the bowls of bench/signed under the three standards and prints each answer: what docs/method/mend-signed.md judges by hand.
# Usage: mend_signed.sh BUILD_DIR SOURCE_DIR [FILE | LIST [STANDARD]]. LIST: "aside", "owners", "owners-aside"; those aside are looked at only
# when the work is done.
set -u
program=$1/bowlwright
bowls=$2/bench/signed
list=$bowls/bowls.tsv
file_wanted=${3:-}
case $file_wanted in aside | owners | owners-aside) list=$bowls/$file_wanted.tsv file_wanted= ;; owner-*) list=$bowls/owners.tsv ;; aside-*) list=$bowls/aside.tsv ;; esac
grep -v '^#' "$list" | while IFS='	' read -r file animal way; do
  [ -z "$file_wanted" ] || [ "$file_wanted" = "$file" ] || continue
  for standard in ${4:-nrc2006 fediaf2021 aafco2016}; do
    echo "==== $file $animal $standard ($way)"
    # shellcheck disable=SC2086
    "$program" mend "$bowls/$file" $animal --standard "$standard" --plain --width 110 --patience 20 --quiet 2>&1
    echo "---- exit code $?"
  done
done
