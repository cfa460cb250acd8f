#!/bin/sh
# What "make install" puts somewhere works there: the program finds its library and its server, the man page and the
# completions are whole. Usage: cli_install_test.sh BUILD_DIR SOURCE_DIR
set -eu
build=$1
source=$2
there=$(mktemp -d)
trap 'rm -rf "$there"' EXIT
fail() {
  echo "$1" >&2
  exit 1
}
DESTDIR=$there cmake --install "$build" --prefix /opt/kitchen >/dev/null
root=$there/opt/kitchen
cd "$there"
unset BOWLWRIGHT_LIBRARY
"$root/bin/bowlwright" check "$source/examples/weeknight-bowl.recipe" --for "$source/examples/saltmarsh.animals" --json >installed.json
"$build/bowlwright" check "$source/examples/weeknight-bowl.recipe" --for "$source/examples/saltmarsh.animals" --json >built.json
cmp installed.json built.json || fail "the installed program answers otherwise"
"$root/bin/bowlwright" serve --help | grep -q -- --store || fail "no help of serve"
"$root/bin/bowlwright" serve --backup copy.db --store none.db 2>&1 | grep -q "no store" || fail "the server is not found where it was installed"
if [ -e "$root/libexec/bowlwright/bowlwright-sheet" ]; then
  "$root/bin/bowlwright" sheet "$source/examples/weeknight-bowl.recipe" --dog 18kg --out sheet.pdf >/dev/null 2>&1 || fail "no PDF where it was installed"
  head -c 5 sheet.pdf | grep -q %PDF- || fail "the sheet is not a PDF"
fi
cmp "$source/packaging/NOTICES.txt" "$root/share/doc/bowlwright/NOTICES.txt" || fail "the notices are not installed"
"$root/bin/bowlwright" library --licences | cmp - "$source/packaging/NOTICES.txt" || fail "the program shows other notices"
# Every verb and every option of each stands in the man page and in the completions.
for verb in $("$build/bowlwright" --help | sed -n '/^Verbs:/,/^.bowlwright VERB/s/^  \([a-z]*\) .*/\1/p'); do
  for option in $("$build/bowlwright" "$verb" --help | sed -n 's/^  --\([a-z-]*\).*/\1/p'); do
    sed 's/\\//g' "$root/share/man/man1/bowlwright.1" | grep -q -- "--$option" || fail "--$option is not in the man page"
    grep -q "^    $verb) .*--${option}[' ]" "$root/share/bash-completion/completions/bowlwright" || fail "$verb --$option: bash"
    grep -q "from $verb' -l $option " "$root/share/fish/vendor_completions.d/bowlwright.fish" || fail "$verb --$option: fish"
    grep -q -- "--$option\[" "$root/share/zsh/site-functions/_bowlwright" || fail "$verb --$option: zsh"
  done
done
bash -c '. "$1"; COMP_WORDS=(bowlwright check --st); COMP_CWORD=2; _bowlwright; echo "${COMPREPLY[*]}"' - \
  "$root/share/bash-completion/completions/bowlwright" | grep -q -- --standard || fail "bash completes nothing"
