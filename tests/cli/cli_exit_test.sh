#!/bin/sh
# The program's exit codes and its manners: every kind of failure ends in its own code, says why on standard error, and leaves
# standard output empty. Usage: cli_exit_test.sh BUILD_DIR SOURCE_DIR
# The codes are those of docs/manual/commands.md.
set -u
build=$1
program=$build/bowlwright
source=$2
scratch=$(mktemp -d)
trap 'chmod -R u+rwx "$scratch"; rm -rf "$scratch"' EXIT
cd "$scratch" || exit 1
unset BOWLWRIGHT_LIBRARY BOWLWRIGHT_TODAY COLUMNS
failures=0

fail() {
  failures=$((failures + 1))
  echo "FAILED: $*" >&2
  sed 's/^/    stderr: /' err >&2
}

# expect CODE PATTERN ARGUMENT...   PATTERN is searched in standard error; '-' means: nothing must stand there.
expect() {
  code=$1 pattern=$2
  shift 2
  "$program" "$@" >out 2>err <"${input:-/dev/null}"
  got=$?
  [ $got -eq "$code" ] || fail "exit $got instead of $code: bowlwright $*"
  ! grep -q 'Sanitizer\|runtime error' err || fail "sanitizer: bowlwright $*"
  case $code in
    2 | 3 | 6) [ ! -s out ] || fail "standard output is not empty: bowlwright $*" ;;
    *) [ -s out ] || fail "standard output is empty: bowlwright $*" ;;
  esac
  if [ "$pattern" = - ]; then
    [ ! -s err ] || fail "something stands on standard error: bowlwright $*"
  else
    grep -Eq -e "$pattern" err || fail "standard error does not say '$pattern': bowlwright $*"
  fi
}

# ---- texts to work on ----
mkdir folder lone broken
printf 'Recipe: Bowl\nFor: Juniper\n\n400 g lamb liver, raw [usda:17199]\n' >good.recipe
printf 'Recipe: Other bowl\n\n100 g lamb liver, raw [usda:17199]\n' >other.recipe
printf 'Recipe: Bowl\nFor: Junipper\n\n100 g lamb liver, raw [usda:17199]\n' >misnamed.recipe
printf 'Recipe: Bowl\nFor: Button\n\n100 g lamb liver, raw [usda:17199]\n' >pup.recipe
printf 'Recipe: Bowl\n\n2 tbs lamb liver\n1,5 g salt\n' >bad.recipe
printf 'Recipe: Bowl\n\n10 g qwertyzxcv\n' >unknown-food.recipe
printf '100 g lamb\0 liver\n' >nul.recipe
printf '\377\376R\0e\0c\0' >utf16.recipe
printf '\357\273\277Recipe: Marked\n\n100 g lamb liver, raw [usda:17199]\n' >marked.recipe
: >empty.recipe
head -c 4194305 /dev/zero | tr '\0' 'x' >huge.recipe
printf '100 g lamb liver, raw [usda:17199]' >unended.recipe
cat >house.animals <<'END'
Animal: Juniper
Species: dog
Age: 6 years
Weight: 18 kg

Animal: Moss
Species: dog
Age: 11 years
Weight: 31 kg

Animal: Button
Species: dog
Age: 5 months
Weight: 6 kg
END
sed -n '1,4p' house.animals >lone/one.animals
cp good.recipe lone/good.recipe
printf 'Animal: Juniper\nSpecies: dragon\n' >broken/bad.animals
printf 'Food: Zinc tablets\nPart: supplement\nPer: 1 tablet (0.4 g)\nZinc: 15 mg\n' >own.foods
printf 'Food: Zinc tablets\nPer: nonsense\n' >bad.foods

# ---- 0: computed, whatever the verdict ----
expect 0 - check good.recipe --for house.animals
expect 0 - check --for house.animals good.recipe
expect 0 - --for house.animals check good.recipe
expect 0 - check --for=house.animals -- good.recipe
expect 0 - check other.recipe --for house.animals:Moss
expect 0 - check other.recipe --for house.animals --for moss
expect 0 - check other.recipe --for Juniper
expect 0 - check lone/good.recipe --for juniper
expect 0 - check good.recipe --dog 18
expect 0 - check good.recipe --dog 18kg --standard fediaf2021 --basis energy --sure 90 --json
expect 0 - check good.recipe --dog 40lb --energy-by four-step --plain --width 60 --all
expect 0 - check good.recipe --cat '4.6 kg' --sure 75%
expect 0 'no animal was given' check other.recipe
expect 0 - check other.recipe --quiet
expect 0 - check marked.recipe --dog 18
expect 0 - check unended.recipe --dog 18
expect 0 - check good.recipe other.recipe --dog 18 --json
expect 0 - check good.recipe --dog 18 --foods own.foods
input=good.recipe
expect 0 - check - --dog 18
input=house.animals
expect 0 - check good.recipe --for -
input=
expect 0 - need --dog 18kg
expect 0 - need --for house.animals:Juniper --json
expect 0 - need house.animals --for Moss
expect 0 - foods lamb liver
expect 0 - foods 'lamb liver' --json
expect 0 - food usda:17199
expect 0 - food '[usda:17199]' --json
expect 0 - food mine:zinc-tablets --foods own.foods
expect 0 - library
expect 0 - library --json
expect 0 -
expect 0 - --help
expect 0 - --version
printf 'lamb heart, raw [usda:17191]  up to 300 g\nlamb liver, raw [usda:17199]  up to 20 g\n' >poor.larder
printf 'lamb heart, raw [usda:17191]  30-20 g\nqwertyzxcv  up to 3 g\n' >bad.larder
cp "$source/examples/chest-freezer.larder" freezer.larder
expect 0 - swap good.recipe liver --dog 18
expect 0 - swap good.recipe 4 --for house.animals --equal mass --any-part --json
expect 0 - swap good.recipe lamb liver --cat 4.5 --plain --width 60 --larder poor.larder
# the text itself tells the animal
{ echo 'Dog: 18 kg'; cat good.recipe; } | grep -v '^For:' >told.recipe
cp "$source/examples/posted.txt" posted.txt
while read -r whom words; do
  "$program" $words --json --quiet >out 2>err
  got=$?
  [ $got -eq 0 ] || [ $got -eq 5 ] || fail "exit $got although the text tells the animal: bowlwright $words"
  tr -d ' \n' <out | grep -Eq "$whom" || fail "not answered for the animal that the text tells: bowlwright $words"
done <<'END'
status mend told.recipe --patience 5
status mend posted.txt --posted --patience 5
repairs swap told.recipe liver
repairs swap posted.txt beef --posted
18kg reply told.recipe --patience 5
18kg reply posted.txt --posted --patience 5
weight_kg":18 side posted.txt posted.txt --posted
18kg check posted.txt --posted
END
expect 1 - check told.recipe --strict
expect 0 - compose freezer.larder --for house.animals
expect 0 - compose freezer.larder --dog 18 --aim leanest --json
for verb in check mend swap compose need foods food library; do
  expect 0 - $verb --help
  grep -q '^Example:' out || fail "$verb --help has no example"
done

# ---- 1: --strict, and something is short or over ----
expect 1 - check good.recipe --dog 18 --strict
expect 1 - check good.recipe other.recipe --dog 18 --strict --json

# ---- 5: no recipe exists, and the reason is shown ----
expect 5 - compose poor.larder --dog 18
tr -s '\n ' '  ' <out | grep -q "needs at least .* the larder's foods supply at most" || fail "the conflict is not told"
expect 5 - compose poor.larder --dog 18 --json

# ---- 2: usage, with the nearest known word ----
expect 2 "'compose' needs LARDER" compose --dog 18
expect 2 "'swap' needs FILE LINE" swap good.recipe --dog 18
expect 2 'needs an animal' swap good.recipe liver
expect 2 'needs an animal' mend good.recipe
echo '300 g beef mince for my dog' >untold.txt
expect 2 'needs an animal' mend untold.txt --posted
expect 2 'needs an animal' swap untold.txt beef --posted
echo 'Hello all, my 18 kg dog is hungry' >nofood.txt
for words in 'mend nofood.txt' 'swap nofood.txt beef' 'reply nofood.txt'; do
  expect 3 'food' $words --posted
done
expect 2 'needs an animal' compose freezer.larder
expect 2 'takes energy|mass' swap good.recipe liver --dog 18 --equal weight
expect 2 "unknown verb 'chek'; did you mean 'check'" chek good.recipe
expect 2 "unknown verb 'month'" month good.recipe
expect 2 "did you mean '--strict'" check good.recipe --dog 18 --stirct
expect 2 "did you mean '--standard'" check good.recipe --stand nrc2006
expect 2 "did you mean 'nrc2006'" check good.recipe --dog 18 --standard nrc
expect 2 'unknown option' check good.recipe -x
expect 2 'takes no value' check good.recipe --dog 18 --json=yes
expect 2 'needs a value' check good.recipe --dog
expect 2 'needs a value' check good.recipe --dog --json
expect 2 'needs a value' check good.recipe --for=
expect 2 'takes a weight' check good.recipe --dog heavy
expect 2 'takes a weight' check good.recipe --dog 18ml
expect 2 'decimal point' check good.recipe --cat 4,6kg
expect 2 '0.5 to 110' check good.recipe --dog 0
expect 2 'takes a weight' check good.recipe --dog -3
expect 2 'takes a weight' check good.recipe --dog nan
expect 2 '0.5 to 15' check good.recipe --cat 4600
expect 2 '50 to 99' check good.recipe --dog 18 --sure 100
expect 2 'takes a number' check good.recipe --dog 18 --sure often
expect 2 'takes a number' check good.recipe --dog 18 --width 80%
expect 2 'takes 60 to 160' check good.recipe --dog 18 --width 59
expect 2 'give one of --for, --dog and --cat' check good.recipe --dog 18 --cat 4
expect 2 'give one of --for, --dog and --cat' check good.recipe --dog 18 --for house.animals
expect 2 'needs an animal' check good.recipe --strict
expect 2 'needs an animal' need
expect 2 'needs FILE' check
expect 2 'needs WORDS' foods
expect 2 'does not know what to do with' library good.recipe
expect 2 'has no option --strict' foods lamb --strict
expect 2 'say what to do' --json
expect 2 'two files' check good.recipe --for house.animals --for broken/bad.animals
expect 2 'two animals' check good.recipe --for house.animals:Moss --for Juniper
expect 2 'only once' check - - --dog 18
expect 2 'only once' check - --for -
cp house.animals second.animals
expect 2 'several animal files' check good.recipe --for Juniper
rm second.animals
expect 2 'no \*\.animals file' check folder/good.recipe --for Juniper
BOWLWRIGHT_TODAY=2026-02-30 expect 2 'BOWLWRIGHT_TODAY' need --dog 18

# ---- 3: the input is not understood ----
expect 3 "bad.recipe:3:.*tbs" check bad.recipe --dog 18
expect 3 "bad.recipe:4:" check bad.recipe --dog 18
expect 3 "unknown-food.recipe:3:" check unknown-food.recipe --dog 18
expect 3 'bad.larder:1:.*goes down' compose bad.larder --dog 18
expect 3 'bad.larder:2:' compose bad.larder --dog 18
expect 3 "what does it cost" compose poor.larder --dog 18 --aim cheapest
expect 3 "did you mean 'leanest'" compose poor.larder --dog 18 --aim leenest
expect 3 'for which animals' compose poor.larder --for house.animals
expect 3 "the recipe has no line 'walrus'" swap good.recipe walrus --dog 18
expect 3 'empty.recipe' check empty.recipe --dog 18
expect 3 'NUL byte' check nul.recipe --dog 18
expect 3 'UTF-16' check utf16.recipe --dog 18
expect 3 'longer than 4 MiB' check huge.recipe --dog 18
input=/dev/zero
expect 3 'longer than 4 MiB' check - --dog 18
input=
expect 3 "bad.animals:.*dragon" check good.recipe --for broken/bad.animals
expect 3 'bad.animals:' need --for broken/bad.animals
expect 3 'bad.recipe:3:' check bad.recipe --for broken/bad.animals
expect 3 'bad.animals:2:' check bad.recipe --for broken/bad.animals
expect 3 "misnamed.recipe:2:.*Junipper.*Juniper, Moss and Button" check misnamed.recipe --for house.animals
expect 3 "no animal 'Rex'" check good.recipe --for house.animals:Rex
expect 3 'which animal' check other.recipe --for house.animals
expect 3 'bad.foods' check good.recipe --dog 18 --foods bad.foods
expect 3 'no food record fits' food qwertyzxcv
expect 3 'no food record fits' food usda:00000

# ---- 4: refused for the animal's sake; the composition is still shown ----
expect 4 - check pup.recipe --for house.animals
expect 4 'young animal' check pup.recipe --for house.animals --json
expect 4 - check pup.recipe --for house.animals --json --quiet
expect 4 - swap pup.recipe liver --for house.animals
expect 4 - compose freezer.larder --for house.animals:Button
grep -q ' g ' out && fail "a formula is given to a growing animal"
expect 4 - check pup.recipe --for house.animals --strict
expect 4 - need --for house.animals:Button

# ---- 6: files, the library, the system ----
expect 6 "there is no file 'absent.recipe'" check absent.recipe --dog 18
expect 6 'is a folder' check folder --dog 18
expect 6 'there is no file' check good.recipe --for absent.animals
expect 6 'there is no file' check good.recipe --dog 18 --foods absent.foods
if [ "$(id -u)" -ne 0 ]; then
  cp good.recipe locked.recipe && chmod 000 locked.recipe
  expect 6 'cannot read' check locked.recipe --dog 18
fi
image=$build/bowlwright.library
expect 6 'cannot open the food library' library --library absent.library
expect 6 'cannot open the food library' library --library folder
: >empty.library
expect 6 'too short' library --library empty.library
expect 6 'not a Bowlwright food library' library --library good.recipe
head -c 100000 "$image" >cut.library
expect 6 'cut short' library --library cut.library
cp "$image" damaged.library && chmod u+w damaged.library
printf 'damage' | dd of=damaged.library bs=1 seek=100000 conv=notrunc 2>/dev/null
expect 6 'damaged' check good.recipe --dog 18 --library damaged.library
cp "$program" folder/bowlwright
beside=$program
program=$scratch/folder/bowlwright
expect 6 'there is no food library' library
BOWLWRIGHT_LIBRARY=$image
export BOWLWRIGHT_LIBRARY
expect 0 - library
BOWLWRIGHT_LIBRARY=absent.library
expect 6 'absent.library' library
unset BOWLWRIGHT_LIBRARY
program=$beside
"$program" check good.recipe --dog 18 >/dev/full 2>err
[ $? -eq 6 ] && grep -q 'could not be written' err || fail 'a full disk is not noticed'
"$program" --help >&- 2>err
[ $? -eq 6 ] || fail 'a closed standard output is not noticed'

# ---- several files: the worst code wins, and every file that was understood is answered ----
several() {
  want=$1 lines=$2
  shift 2
  "$program" check "$@" --json >out 2>err
  got=$?
  [ $got -eq "$want" ] || fail "exit $got instead of $want for several files: $*"
  [ "$(wc -l <out)" -eq "$lines" ] || fail "$(wc -l <out) answers instead of $lines: $*"
}
several 3 2 good.recipe bad.recipe other.recipe --dog 18
several 4 2 good.recipe pup.recipe --for house.animals
several 3 1 pup.recipe bad.recipe --for house.animals
several 6 1 good.recipe absent.recipe --dog 18
several 3 1 good.recipe bad.recipe --dog 18 --strict
several 4 2 good.recipe pup.recipe --for house.animals --strict

# ---- a date given for tests decides about age ----
printf 'Animal: Wren\nSpecies: dog\nBorn: 2020-03-01\nWeight: 12 kg\n' >born.animals
BOWLWRIGHT_TODAY=2020-09-01
export BOWLWRIGHT_TODAY
expect 4 - need --for born.animals
BOWLWRIGHT_TODAY=2023-09-01
expect 0 - need --for born.animals
unset BOWLWRIGHT_TODAY

# ---- plain means plain ----
LC_ALL=C.UTF-8 "$program" check good.recipe --dog 18 --plain >out 2>err
LC_ALL=C grep -q "$(printf '\033')" out && fail '--plain writes colours'
LC_ALL=C.UTF-8 TERM=xterm-256color "$program" check good.recipe --dog 18 >out 2>err
LC_ALL=C grep -q "$(printf '\033')" out && fail 'colours although standard output is no terminal'

[ $failures -eq 0 ] || { echo "$failures failures" >&2; exit 1; }
