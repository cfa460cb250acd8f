#!/bin/sh
# Looks the sources over: clang-tidy (.clang-tidy), cppcheck, shellcheck, gcc -fanalyzer. Anything found ends it; what is left
# out has its reason here or in .clang-tidy. Usage: lint.sh BUILD_DIR (which has compile_commands.json)
set -eu
build=$1
cd "$(dirname "$0")/.."
cores=$(nproc 2>/dev/null || echo 2)
files=$(find src library -path library/node_modules -prune -o -name '*.c' ! -name '*_test.c' ! -path 'src/wasm/*' -print | sort)
failed=
made=$build/post-words # headers of the words of posts
cmake --build "$build" --target post_headers >/dev/null

echo "clang-tidy"
echo "$files" | xargs -P "$cores" -n 12 clang-tidy --quiet -p "$build" 2>/dev/null || failed="$failed clang-tidy"

# Left out, and why:
#   unknownMacro, internalAstError     tables of macros, and (struct x){0} behind '?', which cppcheck does not parse
#   uninitvar, legacyUninitvar         out-parameters that a function fills: GCC's -Wmaybe-uninitialized and the sanitizers look
#   invalidPointerCast                 members read at their offset, in src/json
#   nullPointerArithmetic              offsetof by hand in the same tables
#   invalidPrintfArgType_sint          "%.*s" with SPAN_ARG is two arguments
#   va_end_missing                     functions that end the program have nobody to give the list back to
#   identicalInnerCondition, duplicateAssignExpression, arrayIndexThenCheck   matters of style, and meant
echo "cppcheck"
# shellcheck disable=SC2086
cppcheck --quiet -j "$cores" --std=c11 --enable=warning,performance,portability --error-exitcode=1 --inline-suppr \
  --suppress=unknownMacro --suppress=internalAstError --suppress=uninitvar --suppress=legacyUninitvar \
  --suppress=invalidPointerCast --suppress=nullPointerArithmetic --suppress=invalidPrintfArgType_sint \
  --suppress=identicalInnerCondition --suppress=duplicateAssignExpression --suppress=arrayIndexThenCheck --suppress=va_end_missing \
  -D__GNUC__=12 -DBW_VERSION='"lint"' -I src -I . -I "$made" $files || failed="$failed cppcheck"

echo "shellcheck"
shellcheck -S warning tools/*.sh bench/*.sh .ci/run tests/*/*.sh || failed="$failed shellcheck"

# Left out, and why: malloc-leak, possible-null-*   what is allocated lives in arenas, which do not return without memory
#   null-dereference, use-of-uninitialized-value   GCC 12 follows paths that loops over counts and "if (x)" rule out
echo "gcc -fanalyzer"
echo "$files" | grep -v -e '^src/serve/' -e '^src/paper/' -e '^src/picture/' -e '^src/served/' | xargs -P "$cores" -I '{}' gcc -std=c17 -O1 -fanalyzer -Wno-analyzer-malloc-leak \
  -Wno-analyzer-possible-null-argument -Wno-analyzer-possible-null-dereference \
  -Wno-analyzer-null-dereference -Wno-analyzer-null-argument -Wno-analyzer-use-of-uninitialized-value -Werror -DBW_VERSION='"lint"' -I src -I . -I "$made" -c -o /dev/null '{}' ||
  failed="$failed -fanalyzer"

[ -z "$failed" ] || { echo "lint:$failed" >&2; exit 1; }
