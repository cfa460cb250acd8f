#!/bin/sh
# mend, swap and compose with animals for which no formula is given, and with texts and options that are wrong or at the edge:
# each ends in its own exit code and says what is wrong. Usage: change_input_test.sh BUILD_DIR SOURCE_DIR
set -u
program=$1/bowlwright
source=$2
scratch=$(mktemp -d)
trap 'rm -rf "$scratch"' EXIT
cd "$scratch" || exit 1
failures=0
fail() {
  failures=$((failures + 1))
  echo "FAILED: $*" >&2
  sed 's/^/    stderr: /' err | head -5 >&2
}

# expect CODE PATTERN ARGUMENT...   PATTERN is looked for in both outputs; '-' looks for nothing.
expect() {
  code=$1 pattern=$2
  shift 2
  "$program" "$@" >out 2>err </dev/null
  got=$?
  [ $got -eq "$code" ] || fail "exit $got instead of $code: bowlwright $*"
  grep -q 'Sanitizer\|runtime error' err && fail "sanitizer: bowlwright $*"
  [ "$code" -ne 2 ] && [ "$code" -ne 3 ] || [ ! -s out ] || fail "something stands on standard output: bowlwright $*"
  [ "$pattern" = - ] || cat out err | tr '\n' ' ' | tr -s ' ' | grep -Eq -e "$pattern" || fail "'$pattern' is not said: bowlwright $*"
}

# ---- 4: refused, and no formula of any kind ----
cat >house.animals <<'END'
Animal: Button
Species: dog
Age: 5 months
Weight: 6 kg

Animal: Willow
Species: dog
Age: 4 years
Weight: 20 kg
Status: pregnant

Animal: Nell
Species: cat
Age: 4 years
Weight: 4 kg
Status: nursing

Animal: Rowan
Species: dog
Age: 9 years
Weight: 25 kg
Status: kidney disease

Animal: Juniper
Species: dog
Age: 6 years
Weight: 18 kg
END
cp "$source/examples/weeknight-bowl.recipe" bowl.recipe
cp "$source/examples/chest-freezer.larder" freezer.larder
sed 's/^For:.*/For: Juniper and Button/' freezer.larder >both.larder
for who in Button Willow Nell Rowan; do
  expect 4 'eterinarian' mend bowl.recipe --for house.animals:$who --quiet
  grep -q '^ *[-+] \|[0-9] g ' out && fail "mend gives $who a formula"
  expect 4 'eterinarian' swap bowl.recipe "lamb liver" --for house.animals:$who --quiet
  grep -q '[0-9] g ' out && fail "swap gives $who a formula"
  expect 4 'eterinarian' compose freezer.larder --for house.animals:$who --quiet
  grep -q '[0-9] g ' out && fail "compose gives $who a formula"
  expect 4 '"status": *"refused".*"refused": *"[a-z]' mend bowl.recipe --for house.animals:$who --json --proposals 3
  grep -q '"text": *"\|"nearest": *{\|"added": *\[[^]]\|"change": *\[[^]]' out && fail "mend --json gives $who a formula"
  expect 4 '"hits": *\[\].*"refused": *"' swap bowl.recipe "lamb liver" --for house.animals:$who --json
  expect 4 '"status": *"refused".*"text": *null.*"nearest": *null.*"would_help": *\[\]' compose freezer.larder --for house.animals:$who --json
done
expect 4 'young animal' compose both.larder --for house.animals
grep -q '[0-9] g ' out && fail 'compose gives a household with a pup a formula'
# The same with an adult: the patterns above can fail.
expect 0 '^ *[-+] |[0-9] g ' mend bowl.recipe --for house.animals:Juniper --quiet
expect 0 '"text"' mend bowl.recipe --for house.animals:Juniper --json
expect 0 '[0-9] g ' swap bowl.recipe "lamb liver" --for house.animals:Juniper --quiet
expect 0 '[0-9] g ' compose freezer.larder --for house.animals:Juniper --quiet

# ---- 3: larders that are not understood ----
larder() {
  printf "$1" >a.larder
  expect 3 "$2" compose a.larder --dog 18
}
larder '' 'no food in this larder'
larder 'Larder: x\nLimits: at most 3 foods\n' 'no food in this larder'
larder 'lamb liver  25-10 g\n' ':1:13: .25-10. goes down'
larder 'lamb liver  up to 100 g\nLimits: food at most 100 g; food at least 300 g\n' ':2:29:.*contradict each other'
larder 'lamb liver  up to 100 g\nLimits: fat 50-30 %% of energy\n' 'goes down'
larder 'lamb liver  up to 100 g, 0 per kg\n' 'a price of nothing'
larder 'lamb liver  up to 100 g, -3 per kg\n' 'cannot be negative'
larder 'lamb liver  up to 100 g, 1e12 per kg\n' 'not understood'
larder 'lamb liver  up to 100 g, 99999999999 per kg\n' ':1:26:'
larder 'lamb liver  up to -5 g\n' 'cannot be negative'
larder 'lamb liver  up to nan g\n' 'not understood'
larder 'lamb liver  up to inf g\n' 'not understood'
larder 'qwertyzxcv  up to 100 g\n' 'no food record is like'
larder 'lamb liver  up to 10 g\nlamb liver  up to 20 g\n' 'line 1 already'
larder 'lamb liver  up to 10 g\nLimits: at most 0 foods\n' 'at most 0 foods'
larder 'lamb liver  up to 10 g\nLimits: fat at most 200 %% of energy\n' 'between 0 and 100 %'
larder 'lamb liver  up to 10 g\nAim: cheapest\n' 'what does it cost'
larder 'qwertyzxcv  up to 100 g\nlamb liver  25-10 g\nLimits: at most 0 foods\n' 'qwertyzxcv.*goes down.*at most 0 foods'
expect 3 'aim' compose freezer.larder --for house.animals:Juniper --aim tastiest
expect 3 "no animal 'Zed'" compose freezer.larder --for house.animals --for Zed

# What one pill holds is its strength and no second amount; a pill is counted, also without a range.
for pill in 'vitamin E capsule 100 IU' '1 capsule vitamin E 100 IU' 'zinc tablet 15 mg' 'vitamin E capsules 100 IU  at most twice a week' \
  'vitamin E capsule 100 IU  0-1 a day'; do
  printf 'beef mince 90/10, raw  up to 400 g\n%s\n' "$pill" >pill.larder
  expect 5 'Vitamin|Calcium|Iodine' compose pill.larder --dog 18 --quiet
done
# Nothing is fed less than not at all, counted or not.
printf 'Dog: 18 kg\n300 g beef mince\n? -3 g kale\n' >negative.recipe
expect 3 'cannot be negative' check negative.recipe
expect 3 'cannot be negative' mend negative.recipe

# ---- 5: no recipe, and why ----
none() {
  printf "$1" >a.larder
  expect 5 "$2" compose a.larder --dog 18
  grep -q 'Every nutrient in it is met' out && fail "an empty or wanting bowl is praised: $1"
  expect 5 '"status": *"none-exists".*"text": *null' compose a.larder --dog 18 --json
}
none 'lamb liver  0 g\n' 'nothing in it'
none 'lamb liver  any\nLimits: no food above 60 %%\n' 'at most 60 % of the food'
none 'table salt  up to 5 g\n' 'Nothing in this larder has any energy'
none 'lamb shoulder, raw  any\n' 'needs at least'
none 'large egg  1-2 a day, whole\nLimits: food at most 10 g\n' 'at most 10 g'

# ---- recipes ----
printf '400 g qwertyzxcv\n' >unknown.recipe
printf '# nothing\n' >none.recipe
printf '0 g lamb liver [usda:17199]\n' >zero.recipe
printf '1 mg lamb liver [usda:17199]\n' >speck.recipe
printf '49 kg lamb liver [usda:17199]\n' >heap.recipe
for verb in mend swap; do
  line=1
  [ $verb = mend ] && line=
  expect 3 'no food record is like' $verb unknown.recipe $line --dog 18
  expect 3 'no ingredient' $verb none.recipe $line --dog 18
  # A speck of liver is no dinner that a change could leave recognisable.
  if [ $verb = mend ]; then want=5 said='hardly a dinner'; else want=0 said=-; fi
  expect $want "$said" $verb zero.recipe $line --dog 18
  expect $want "$said" $verb speck.recipe $line --dog 18
  expect 0 - $verb heap.recipe $line --dog 18
  expect $want "$said" $verb speck.recipe $line --cat 0.5
  expect 0 - $verb heap.recipe $line --dog 110
done
printf '1 tablet zinc 15 mg [ours:zinc-gluconate]\n1 g taurine\n' >pills.recipe
expect 5 'hardly a dinner' mend pills.recipe --dog 18
printf '400 g beef mince 85/15, raw\n' >single.recipe
expect 0 'beef mince 85/15' mend single.recipe --dog 18
# A danger that only the name of an own label tells.
printf 'Food: Garlic and onion seasoning\nPer: 100 g\nEnergy: 350 kcal\nProtein: 10 g\n' >seasoning.foods
printf '300 g beef mince 85/15, raw\n150 g cooked white rice\n5 g Garlic and onion seasoning\n' >seasoned.recipe
expect 0 'seasoning, 5 g taken out: it is dangerous' mend seasoned.recipe --dog 18 --foods seasoning.foods
expect 0 - swap bowl.recipe "lamb liver" --for house.animals:Juniper --foods seasoning.foods --any-part --equal mass --all
grep -q 'seasoning' out && fail 'a seasoning of onion is ranked'
expect 3 "the recipe has no line 'zebra'" mend bowl.recipe --for house.animals:Juniper --keep zebra
expect 3 "the recipe has no line 'zebra'" swap bowl.recipe zebra --for house.animals:Juniper
expect 3 '[2-9] lines of the recipe fit' swap bowl.recipe lamb --for house.animals:Juniper
expect 3 "the recipe has no line '99'" swap bowl.recipe 99 --for house.animals:Juniper
printf 'lamb liver  25-10 g\n' >crossed.larder
expect 3 'goes down' mend bowl.recipe --for house.animals:Juniper --larder crossed.larder
expect 3 'goes down' swap bowl.recipe "lamb liver" --for house.animals:Juniper --larder crossed.larder
expect 6 'there is no file' mend bowl.recipe --for house.animals:Juniper --larder absent.larder

# ---- 2: options out of their range ----
for wrong in '--proposals 0' '--proposals 10' '--kcal 5' '--kcal nan' '--kcal -800' '--sure 49' '--sure 100' '--sure nan' '--patience 0' '--patience inf' \
  '--patience soon' '--standard nrc' '--energy-by four-step'; do
  # shellcheck disable=SC2086
  expect 2 - mend bowl.recipe --for house.animals:Juniper $wrong
done
expect 2 - compose freezer.larder --for house.animals:Juniper --patience -1
expect 2 - swap bowl.recipe 9 --for house.animals:Juniper --equal volume
expect 2 - mend bowl.recipe --dog 0.1
expect 2 - mend bowl.recipe --dog 18 --cat 4

# ---- the ends of what may be asked: an answer, whatever it is, that is not wrong ----
for edge in '--sure 50' '--sure 99' '--kcal 20' '--kcal 10000' '--patience 86400' '--never egg' '--keep g'; do
  # shellcheck disable=SC2086
  "$program" mend bowl.recipe --for house.animals:Juniper --json $edge >out 2>err
  got=$?
  [ $got -eq 0 ] || [ $got -eq 5 ] || fail "exit $got: mend $edge"
  grep -q '"status": *"found"' out && found=0 || found=5
  [ $got -eq $found ] || fail "exit $got and $(grep -o '"status": *"[a-z-]*"' out): mend $edge"
done
printf '0 g beef heart\n' >no-food.recipe
expect 0 'not a meal: there is no energy in it' check no-food.recipe --dog 18
printf '300 g turkey breast, raw, meat only\n150 g cooked white rice\n1 g ground eggshell\n' >some.recipe
expect 0 'Ca:P[^a-z]*is[^a-z]*0?[.0-9]+[^a-z]*to 1, and' check some.recipe --dog 18

# ---- larders that leave nothing: a plain sentence each ----
printf 'chicken thigh, skinless [usda:05096]   at least 400 g\nbeef liver   10-20 g\nLimits: food at most 300 g\n' >contrary.larder
expect 5 'Food: at most 300 g a day . chicken thigh: at least 400 g .*Not kept: .*Food: at most 300 g' compose contrary.larder --dog 18
grep -q 'Energy: at least' out && fail 'of own limits that contradict each other the need of energy is named'
printf 'taurine [ours:taurine]\nzinc [ours:zinc-gluconate]\n' >pills.larder
expect 5 'Nothing in this larder has any energy' compose pills.larder --dog 18
grep -q 'would help' out && fail 'of a larder without food it is told which trifle would help'
printf 'chicken thigh, skinless [usda:05096]   up to 0 g\n' >nothing.larder
expect 5 'ease a range of your own: .chicken thigh: up to 0 g' compose nothing.larder --dog 18
printf 'chicken thigh, skinless [usda:05096]\n' >alone.larder
expect 5 'This cannot be kept with the foods of the larder' compose alone.larder --dog 18
grep -Eq 'up to ([0-9]+\.[0-9]{2,}|[0-9]{2,}\.[0-9]+|[5-9]\.[0-9]+|0) g' out && fail 'what would help is told in amounts that no kitchen measures'
printf 'chicken thigh, skinless\nLimits: energy 900-800 kcal\n' >down.larder
expect 3 'goes down' compose down.larder --dog 18
[ "$(grep -c 'goes down' err)" -eq 1 ] || fail 'one fault is told twice'

# ---- why nothing was scaled is told wherever a change is proposed ----
printf '250 g chicken thigh, skinless\n120 g cooked white rice\n? 1 scoop of a powder\n' >fed.recipe
expect 0 'How much energy it adds is not known, so the amounts of the rest were not scaled' mend fed.recipe --dog 18
expect 0 '"not_counted": *"This does not count .*not scaled to the need' mend fed.recipe --dog 18 --json
expect 0 'How much energy it adds is not known, so the amounts of the rest were not scaled' reply fed.recipe --dog 18

[ $failures -eq 0 ] || { echo "$failures failures" >&2; exit 1; }
