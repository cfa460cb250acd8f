"""The reply says nothing that the check does not: every figure in it is one of `check --json` or of the text that `mend` proposes.
Usage: reply.py PROGRAM SOURCE_DIR"""
import glob
import json
import os
import re
import subprocess
import sys
import unittest

program, source = sys.argv[1:3]
RECIPES = sorted(glob.glob(os.path.join(source, "examples/*.recipe"))) + sorted(glob.glob(os.path.join(source, "tests/mend/posted/*.recipe")))[:10]
TURKEY = """Hi all, can you check this for my dog Biscuit please. She's 18 kg, 5 years old, spayed.
Each day: 250 g ground turkey, 100 g sweet potato, a small carrot, 1 tsp fish oil, and sardines on fridays (half a tin).
Some days she gets a bit of bone broth and a dental chew. My neighbour says a little garlic is ok?
"""
PUPPY = """My puppy is 5 months old and weighs 9 kg. He eats 300 g of beef mince and 50 g of rice.
"""


def posts():
    found = []
    for path in sorted(glob.glob(os.path.join(source, "tests/post/*.posts"))) + sorted(glob.glob(os.path.join(source, "tests/post/late/*.posts"))):
        with open(path, encoding="utf-8") as f:
            found += re.findall(r"@post (\S+)(?: held)?\n(.*?)@reads", f.read(), re.S)
    return found


POSTS = posts()
POSTS = POSTS[::2] + POSTS[1::2]  # of every style, dogs and cats
NUMBER = re.compile(r"\d[\d.]*\d|\d")
OURS = {"7", "10", "75", "100", "3"}  # days of a transition, the confidence, EPA + DHA as omega-3


def run(*words):
    done = subprocess.run([program, *words], capture_output=True, text=True, timeout=300)
    assert done.returncode in (0, 5), (words, done.stderr)
    return done.stdout


def strings(x):
    if isinstance(x, str):
        yield x
    elif isinstance(x, dict):
        for v in x.values():
            yield from strings(v)
    elif isinstance(x, list):
        for v in x:
            yield from strings(v)


def numbers(x):
    if isinstance(x, bool) or x is None:
        return
    if isinstance(x, (int, float)):
        yield float(x)
    elif isinstance(x, dict):
        for v in x.values():
            yield from numbers(v)
    elif isinstance(x, list):
        for v in x:
            yield from numbers(v)


def bowl_of(letter):
    """The lines of the whole bowl, without what is said beside them."""
    part = re.search("(?s)The whole bowl then\\W*\n\n(.*?)\n\n", letter)
    return [re.sub(r" \((new|instead of|a larger part|a smaller part).*$", "", line[2:]) for line in part.group(1).splitlines()] if part else []


def animal(path):
    with open(path, encoding="utf-8") as f:
        return ["--cat", "4.6kg"] if re.search("Pim|cat", f.read()) else ["--dog", "18kg"]


class Replies(unittest.TestCase):
    def check_figures(self, path, asked, code=0):
        """Of one reply: every figure is one of `check --json`, of the text that it proposes or of the owner's words."""
        done = subprocess.run([program, "check", path, *asked, "--json", "--quiet"], capture_output=True, text=True, timeout=300)
        checked = json.loads(done.stdout.splitlines()[0])
        answer = json.loads(run("reply", path, *asked, "--plain", "--patience", "20", "--quiet", "--json"))
        reply, proposed = answer["text"], answer["recipe"] or ""
        known = list(numbers(checked))
        verdicts = [n["verdict"] for n in checked["nutrients"]]
        known.append(sum(1 for v in verdicts if v and v != "no figure"))
        known += [sum(1 for v in verdicts if v == word) for word in ("met", "short", "unproven")]
        if answer["scaled"]:
            known.append(answer["scaled"])
        known += [n[a] / n[b] for n in checked["nutrients"] for a, b in (("amount", "upper"), ("high", "upper"), ("amount", "allowance")) if n[a] and n[b]]
        if proposed and "I would change" in reply and re.search("every need is met|meets every need", reply):
            with open(os.path.join(os.environ["TMPDIR_REPLY"], "proposed.recipe"), "w", encoding="utf-8") as f:
                f.write(proposed)
            whom = [a for a in asked if a != "--posted"]
            after = json.loads(run("check", f.name, *whom, "--json", "--quiet").splitlines()[0])
            known.append(after["energy"]["supply_kcal"])
            unmet = [n["key"] for n in after["nutrients"] if n["verdict"] in ("short", "thin", "over", "unproven")]
            self.assertEqual(unmet, [], path)
        if proposed and "comes from more than one supplement" in reply:
            known += list(numbers(self.judged(proposed)["nutrients"]))
        if proposed:
            plain = re.sub(r" \[[^]]*\]", "", proposed)
            for line in re.findall("(?:Add|becomes) “([^”]*)”", reply):
                if not line.startswith("about "):
                    self.assertIn(line, plain, path)
            plain = re.sub(r" \([0-9.]+-[0-9.]+ [a-z]+\)", "", plain)  # a range that was assumed
            for decimal, fraction in (("0.125", "1/8"), ("0.25", "1/4"), ("0.333333", "1/3"), ("0.5", "1/2"), ("0.666667", "2/3"), ("0.75", "3/4")):
                plain = re.sub(rf"(?m)^{re.escape(decimal)} (?!k?g |mg |oz |lb |ml )", fraction + " ", plain)
            for line in bowl_of(reply):
                about = line.startswith("about ")  # the middle of a range
                self.assertIn(" " + re.sub("^about [0-9.]+ [a-z]+ ", "", line) if about else line, plain, path)
            reply = re.sub("(?s)The whole bowl then\n\n.*?\n\n", "", reply)
        if proposed:  # "Beyond the usual: lamb hearts, 385 g a day (267 g is usual)"
            known += [float(x) for x in NUMBER.findall(proposed)]
            reply = re.sub(r"\([0-9.]+ k?g is usual\)", "", reply)
        reply = re.sub("“[^”]*”|'[^']*'|[0-9]+ smaller changes?|[0-9]+ more", "", reply)
        said = set(NUMBER.findall(" ".join(strings(checked))))
        for figure in NUMBER.findall(reply):
            if figure in said or figure in OURS:
                continue
            value = float(figure.rstrip("."))
            near = any(abs(k - value) <= 0.006 * abs(k) + 1e-9 or abs(100 * k - value) <= 0.6 for k in known)
            # a number before a heading's dot is the number of a question
            self.assertTrue(near, (os.path.basename(path), figure, reply))
        return answer["text"]

    def test_every_figure_is_the_checks(self):
        for path in RECIPES:
            self.check_figures(path, animal(path))

    def test_forty_posts(self):
        """As an owner posts them: the figures, and what every reply has to say."""
        for name, text in POSTS[:40]:
            path = os.path.join(os.environ["TMPDIR_REPLY"], name + ".txt")
            with open(path, "w", encoding="utf-8") as f:
                f.write(text)
            judged = subprocess.run([program, "check", path, "--posted", "--json", "--quiet"], capture_output=True, text=True, timeout=300)
            if judged.returncode != 0:
                continue
            checked = json.loads(judged.stdout)
            reply = self.check_figures(path, ["--posted"])
            for finding in checked["findings"]:
                if finding["id"] == "danger-in-words":
                    self.assertLess(reply.index("please stop"), reply.index("What I would change"), name)
            wanting = any(n["verdict"] in ("short", "over", "thin", "unproven") for n in checked["nutrients"])
            if wanting:  # a change, or why there is none
                self.assertIn("What I would change", reply, name)
                self.assertRegex(reply, "Add “|becomes “|Leave out “|The whole bowl then|I cannot judge|I did not find|I found no (small )?change|"
                                 "too little food", name)
            if checked["animal"]:
                self.assertIn("one healthy adult", reply, name)
                self.assertTrue("How sure this is" in reply or "I could read too little" in reply, name)
            said_raw = re.search(r"(?i)\braw\b", text) and not re.search("(?i)cook|boil|raw weight|weighed raw", text)
            if said_raw and any(f["id"] == "raw-hygiene" for f in checked["findings"]) and checked["animal"]:
                self.assertIn("Raw meat carries bacteria", reply, name)  # never left out for want of room
            for words in ("[", "usda:", "# "):
                self.assertNotIn(words, re.sub("'[^']*'", "", reply), name)

    def test_the_change_is_the_one_that_mend_proposes(self):
        """One text, one change: what a letter proposes is what 'mend' puts first; another dinner neither recommends."""
        chicks = os.path.join(os.environ["TMPDIR_REPLY"], "chicks.recipe")
        with open(chicks, "w", encoding="utf-8") as f:
            f.write("Cat: 3.9 kg, 5 years\n3 day-old chicks, daily\n1 mouse, every other day\n60 g ground rabbit with bone\n")
        seen = unlike = 0
        for path in [*RECIPES[:12], chicks]:
            whom = [] if path == chicks else animal(path)
            reply = json.loads(run("reply", path, *whom, "--json", "--quiet"))
            done = subprocess.run([program, "mend", path, *whom, "--json", "--quiet"], capture_output=True, text=True, timeout=300)
            if done.returncode == 3:  # nothing to mend: shares without a whole
                self.assertIsNone(reply["recipe"], path)
                continue
            mended = json.loads(done.stdout)
            if mended.get("another_dinner"):
                self.assertIsNone(reply["recipe"], path)
                for said in (reply["text"], run("mend", path, *whom, "--plain", "--quiet")):
                    self.assertIn("another dinner, and not recommended", " ".join(said.split()), path)
                unlike += 1
            elif reply["recipe"]:
                self.assertEqual(reply["recipe"], mended["text"], path)
                seen += 1
        self.assertGreater(seen, 3)
        self.assertGreater(unlike, 0)

    def test_what_harms_is_said_in_every_letter(self):
        """However much else there is to say."""
        cases = (
            ("25 kg dog, adult, neutered: raw wild salmon 200g, raw pork shoulder 300g, 30 g beef liver, 1 scoop of greens powder", ["fluke", "Cook it", "Calcium is"]),
            ("Rocky, 28 kg, 7 years, castrated. Daily: 500 g chicken thighs cooked without skin, 250g white rice cooked, 100g carrots, 1 tbsp cod liver oil, 1 tsp kelp powder", ["Vitamin D is over", "far too much", "Careful with cod liver oil"]),
            ("Cat 4 kg, 5 years, neutered: 150 g tuna canned in oil daily", ["calcium", "body fat", "mercury"]),
            ("8 kg dog, 5y, neutered: 120g turkey mince browned, 60 g oats cooked, 1 tbsp sugar-free peanut butter with xylitol", ["emergency", "Leave out “1 tbsp sugar-free peanut butter with xylitol”"]),
        )
        for text, said in cases:
            done = subprocess.run([program, "reply", "-", "--posted", "--quiet", "--patience", "20"], input=text, capture_output=True, text=True, timeout=120)
            for words in said:
                self.assertIn(words, done.stdout, text)

    def test_what_is_asked_is_answered_first(self):
        """Before all but a danger: the figure and the verdict of what was asked, as `check` has them."""
        cases = (
            ("Otto, 14 kg, 6 yrs, castrated. Daily: 250 g lean beef mince, 60 g white rice cooked, 15 g beef liver. Is he getting enough calcium?", "calcium", "too little calcium"),
            ("Cat, 4 kg, 5 years, spayed. Daily: 90 g chicken thigh, 20 g chicken heart, 250 mg taurine. Enough taurine?", "taurine", "enough taurine"),
            ("Dog 16 kg, 5 years, neutered: 500 g beef tripe, 100 g lamb liver daily. I worry about the copper", "copper", "too much copper"),
            ("Dog 40 kg, 5 years: 1 kg chicken quarters, 200 g pork liver daily. Is it too much liver? Someone said vitamin A.", "vitamin_a", "That is a lot of liver"),
        )
        for text, key, verdict in cases:
            letter, checked = self.both(text)
            first = letter.split("\n\n")[0]
            self.assertTrue(first.startswith("You asked about"), letter)
            self.assertIn(verdict, first, letter)
            amount = next(n["amount"] for n in checked["nutrients"] if n["key"] == key)
            near = [x for x in NUMBER.findall(first) if abs(float(x) - amount) <= 0.006 * amount]
            self.assertTrue(near, (key, amount, first))
            self.assertIn(" ".join(first.split()), checked["answers"])
        ill, _ = self.both("Cat Minka, 5.5 kg, 7 yo, neutered. She gets 150 g chicken breast boiled. Her coat is dull.")
        first = ill.split("\n\n")[0]
        self.assertIn("ask your veterinarian", first)
        self.assertRegex(first, "too little zinc .[0-9]+ % of the need")
        quiet, checked = self.both("Dog 16 kg, 5 years, neutered: 500 g beef tripe daily. Thanks for reading! Is this balanced?")
        self.assertNotIn("You asked", quiet)
        self.assertNotIn("answers", checked)

    def test_whether_something_may_be_left_out(self):
        """What is asked is answered: yes of what is too much, no of what nothing else supplies; what is over its limit is not "close" to it."""
        kelp, checked = self.both("Otto, dachshund, 9 kg, 7 years, neutered: 200 g beef mince, 20 g beef liver, 2 g ground eggshell, 1/4 tsp seaweed meal daily. Can I leave the kelp out?")
        iodine = next(n for n in checked["nutrients"] if n["key"] == "iodine")
        self.assertGreater(iodine["amount"], iodine["upper"])
        first = kelp.split("\n\n")[0]
        self.assertNotIn("close to its limit", first)
        self.assertIn("yes, leave it out, and give a measured amount of iodine in its place", first)
        left = iodine["amount"] * (1 - iodine["from"][0]["share"])
        said = float(re.search("without seaweed meal ([0-9.]+) µg", first).group(1))
        self.assertAlmostEqual(said, left, delta=0.01 * left)
        shell, _ = self.both("Otto, dachshund, 9 kg, 7 years, neutered: 200 g beef mince, 20 g beef liver, 2 g ground eggshell daily. Can I leave the eggshell out?")
        self.assertIn("not without something in its place, for without", shell.split("\n\n")[0])
        plain, _ = self.both("Otto, dachshund, 9 kg, 7 years, neutered: 200 g beef mince, 20 g beef liver, 2 g ground eggshell daily. Is the calcium ok?")
        self.assertNotIn("would be left", plain)

    def test_whether_a_food_may_go(self):
        """What would be missing is what `check` of the same bowl without the food says; a dislike of what is fed forbids nothing."""
        bowl = "20 kg border collie, 4 years old, neutered. I feed 350 g lean ground beef (90%), {}150 g cooked potato, 100 g pumpkin, 5 g eggshell powder, 1 tsp salmon oil, 30 g mussels. "
        letter, checked = self.both(bowl.format("60 g beef liver, ") + "He doesn't like the liver much. Could I drop the liver?")
        _, less = self.both(bowl.format(""))
        first = letter.split("\n\n")[0]
        self.assertIn("Not without something in its place: without beef liver there would be too little ", first)
        self.assertNotIn("no liver", letter)
        missing = re.search("there would be too little (.*?)[.;,]? With it|there would be too little (.*?)\\.", first)
        said = re.split(", | and ", next(g for g in missing.groups() if g))
        names = {n["name"].lower(): n["verdict"] for n in less["nutrients"]}
        self.assertGreater(len(said), 2)
        for name in said:
            self.assertIn(names[name.lower()], ("short", "thin", "unproven"), name)
        self.assertIn("With it there is too much copper, and without it too little", first)
        self.assertIn("beef kidney a day in its place would leave only", first)
        rice, _ = self.both("Dog 20 kg, 5 years, neutered: 400 g lean beef mince, 30 g white rice cooked. Can I leave the rice out?")
        self.assertIn("Yes, white rice may be left out", rice.split("\n\n")[0])

    def test_a_bowl_without_meat_by_wish(self):
        """Nothing refused is proposed or advised; what the animal then needs is said: of a cat that it cannot live on plants."""
        cat, _ = self.both("My cat, 4 kg, 5 years, neutered, is vegan: 60 g tofu, 40 g cooked lentils, 20 g boiled pumpkin, 5 g olive oil a day.")
        for words in ("a cat cannot live on plants", "taurine", "arachidonic acid", "vitamin A", "vitamin B12", "veterinary nutritionist", "complete food for cats"):
            self.assertIn(words, cat)
        self.assertNotRegex(cat, "ea fish|mussel|salmon|sardine|boiled egg")
        dog, _ = self.both("Dog 20 kg, 4 years, neutered. We are vegetarian and I want no meat or fish in the house. 3 boiled eggs, 200 g cottage cheese, 200 g cooked lentils, 200 g cooked rice daily.")
        self.assertIn("rest on eggs, dairy and supplements", dog)
        self.assertNotRegex(dog, "ea fish|mussel|salmon|sardine")
        plain, _ = self.both("Dog 20 kg, 4 years, neutered. 300 g cooked beef mince, 200 g cooked rice daily.")
        self.assertNotIn("without meat", plain)

    def test_one_food_for_another(self):
        """What would fall short is what `check` of the exchanged bowl says; a food that may come in, and one that is poison."""
        bowl = "20 kg border collie, 4 years old, neutered. I feed 300 g raw beef mince 10% fat, {}, 100 g boiled carrots, 5 g eggshell powder, 30 g mussels. "
        letter, _ = self.both(bowl.format("40 g beef liver") + "Can I swap the liver for kidney?")
        _, other = self.both(bowl.format("40 g beef kidney"))
        first = letter.split("\n\n")[0]
        said = re.search("with 40 g of kidney in place of beef liver there would be too little (.*?)(?:, though|, and too much|[.])", first).group(1)
        names = {n["name"].lower(): n["verdict"] for n in other["nutrients"]}
        for name in re.split(", | and ", said):
            if not name.endswith("more"):
                self.assertIn(names[name.lower()], ("short", "thin", "unproven"), name)
        cases = (
            ("Could I use turkey mince instead of the beef?", "of turkey in place of beef"),
            ("Is cheese ok?", "As to cheese, yes, a little: with "),
            ("Can he have blueberries?", "As to blueberries, yes, a little: with "),
            ("Are the carrots ok?", "The figures have nothing against carrots"),
            ("Can I replace the mussels with oysters?", "of oysters"),
        )
        for question, words in cases:
            letter, _ = self.both(bowl.format("40 g beef liver") + question)
            self.assertIn(words, letter.split("\n\n")[0], letter)
        poison, _ = self.both(bowl.format("40 g beef liver") + "Can he have grapes?")
        self.assertNotIn("As to grapes, yes", poison)

    def test_how_often_which_and_how_much_less(self):
        """Questions that the windows, the sizes of bones and the shares of the food answer."""
        cases = (
            ("Cat 5 kg, 4 y, neutered. 70 g beef heart, 40 g beef mince, 500mg taurine twice a week. Is taurine needed daily?", ["need not be given every day: taurine may average over 7 days"]),
            ("Cat 5 kg, 4 y, neutered. 70 g beef heart, 40 g beef mince, 500mg taurine. Is thiamin needed daily?", ["It is needed every day"]),
            ("Cat 5 kg, 4 y, neutered. 100 g rabbit, 20 g chicken heart. What bone can I give her instead of chicken wings?", ["suit the cat by their size: duck neck", "of calcium that are wanted"]),
            ("Cat 4 kg, 6 y, neutered. 120 g chicken thigh, 10 g chicken liver. She chokes on chicken necks. Which bones could I give her?", ["No whole bones for the cat", "of bone meal, or about ", "of ground eggshell, a day holds the "]),
            ("Dog 12 kg, 11 y, neutered, has no teeth left. 250 g beef mince, 40 g beef heart. What bone can I give him?", ["No whole bones for the dog"]),
            ("Dog 30 kg, 4 y, neutered. 600 g beef mince, 20 g beef liver. Which bones could I give?", ["lamb neck slice", "of calcium that are wanted"]),
            ("Cat 5 kg, 4 y, neutered. 100 g rabbit, 20 g chicken heart. If I give her less of it what falls short first? What hangs on the rabbit alone?", ["first to fall short is ", "On rabbit alone hang ", "of the energy"]),
            ("Dog 35 kg, 6 y, neutered. 900 g beef mince, 60 g beef liver. Too much vitamin A?", ["No, there is not too much vitamin A", " a day of at most "]),
        )
        for text, said in cases:
            letter, _ = self.both(text)
            for words in said:
                self.assertIn(words, letter.split("\n\n")[0], letter)

    def both(self, text):
        done = subprocess.run([program, "reply", "-", "--posted", "--quiet", "--plain", "--patience", "5"], input=text, capture_output=True, text=True, timeout=120)
        checked = subprocess.run([program, "check", "-", "--posted", "--quiet", "--json"], input=text, capture_output=True, text=True, timeout=120)
        return done.stdout, json.loads(checked.stdout)

    def test_the_worst_comes_first(self):
        """No calcium before a lent limit of copper; fat that is three times the limit before what is short; half a ration before either."""
        cases = (
            ("Bella 22 kg, neutered, 4 yrs: 400g chicken thighs with skin, 80g beef liver, 50g carrots, 1 egg daily", "Most of all there is hardly any calcium"),
            ("Dog 20 kg, 5 years, neutered: 300 g pork belly, 50 g beef liver, 5 g ground eggshell daily", "fat"),
            ("Dog 20 kg, 5 years, neutered: 150 g lean beef mince, 10 g beef liver, 50 g rice daily", "kcal a day is"),
        )
        for text, first in cases:
            letter, _ = self.both(text)
            self.assertIn(first, letter.split(".")[0], letter)
            self.assertNotIn("Thank you", letter[:200])

    def test_the_weight_that_counts_is_named(self):
        recipe = "Cat: 6 kg, 9 years, neutered, condition 8/9\n60 g turkey thigh, skinless, raw\n10 g chicken heart\n3 g chicken liver\n"
        done = subprocess.run([program, "reply", "-", "--quiet", "--plain", "--patience", "5"], input=recipe, capture_output=True, text=True, timeout=120)
        self.assertIn("too heavy: all this is worked out for 4.62 kg", done.stdout)  # 6 / (1 + 0.1 x (8 - 5))
        self.assertIn("fatty liver", done.stdout)

    def test_one_that_is_to_lose_weight_is_not_fed_more(self):
        """By the energies that `slim` has; 20 % less is no food; one weight is named; within the usual spread nothing is scaled."""
        heavy, checked = self.both("My 7kg dachshund, 6 y, neutered, is fat, vet says he should be 5.5. I give 120g of turkey mince, 50 g sweet potato, 20 g green beans, half an egg. can i just give him less of it?")
        self.assertNotIn("feed more", heavy)
        self.assertNotIn("dog of 7 kg", heavy)
        self.assertIn("energy-for-loss", [f["id"] for f in checked["findings"]])
        with open(os.path.join(os.environ["TMPDIR_REPLY"], "dax.animals"), "w", encoding="utf-8") as f:
            f.write("Animal: Dax\nSpecies: dog\nAge: 6 years\nNeutered: yes\nWeight: 7 kg\nIdeal: 5.5 kg\n")
        floor = re.search("Never less than ([0-9]+)", run("slim", "--for", f.name, "--plain")).group(1)
        self.assertIn(f"gets no less than {floor} kcal a day", heavy)
        less, _ = self.both("Beagle Max, 17 kg, 6 y, neutered, should be 13 kg.\n160 g turkey breast, 100 g green beans, 80 g brown rice (cooked), 1 teaspoon of sunflower oil\nHe gets 20% less than the calculator says, because he is overweight.")
        self.assertIn("before or after the '20% less'", less)
        self.assertNotIn("could not count", less)
        self.assertNotRegex(less, "feed more of everything: 1[5-9]|feed more of everything: [2-9][0-9][0-9]")
        active, checked = self.both("Very active 25 kg standard poodle, 4 y, neutered, agility 5 days a week. 500 g ground beef 85% lean, 40 g beef liver, 250 g cooked rice, 2 eggs, 6 g eggshell powder.")
        self.assertGreater(checked["energy"]["supply_kcal"], 1.2 * checked["energy"]["need_kcal"])
        self.assertNotIn("less of everything", active)
        self.assertIn("is steady on this, this is the ration", active)

    def test_a_fat_animal_is_told_how_much_and_gets_no_more(self):
        """By the means and ranges of trials at the ideal weight: dogs 63 (52.8 to 73.2) x kg^0.75, cats 52 x kg^0.711 kcal a day."""
        cat = "Our tom Bo, 6.8 kg, should be 4.5 kg, neutered, 7 years, indoors. 100 g rabbit, 30 g chicken hearts, 10 g chicken liver, 250 mg taurine. I want to halve his food to be quick about it, ok?"
        letter, checked = self.both(cat)
        first = letter.split("\n\n")[0]
        self.assertIn("No, never with a cat, do not halve it", first)
        self.assertIn("hepatic lipidosis", first)
        aim = 52 * 4.5 ** 0.711
        self.assertIn(f"about {aim:.0f} kcal a day: 52 kcal x 4.5^0.711", first)
        self.assertIn("loss of 0.5 to 1 % of its weight a week", first)
        self.assertNotIn("how much of the food is that", letter)
        self.assertGreater(checked["energy"]["supply_kcal"], aim)
        self.assertLessEqual(self.kcal_proposed(cat), checked["energy"]["supply_kcal"] * 1.01)
        dog = "Beagle Sam, 19 kg, should be 14 kg, neutered, 6 years. Daily: 250 g beef mince 80/20, 150 g cooked rice, 40 g cheddar. How much should I feed?"
        letter, checked = self.both(dog)
        first = letter.split("\n\n")[0]
        self.assertIn(f"about {63 * 14 ** 0.75:.0f} kcal a day: 63 kcal x 14^0.75", first)
        self.assertIn(f"never less than {52.8 * 14 ** 0.75:.0f}", first)
        share = 1 - 63 * 14 ** 0.75 / checked["energy"]["supply_kcal"]
        self.assertIn(f"come down by {100 * share:.0f} %", first)
        self.assertEqual(letter.count(" % of the "), len(set(re.findall("[0-9]+ % of the [^.,;]*", letter))), letter)
        kcal = self.kcal_proposed(dog)
        self.assertTrue(52.8 * 14 ** 0.75 <= kcal <= 73.2 * 14 ** 0.75 * 1.01, kcal)
        lean, checked = self.both("Dog 14 kg, neutered, 6 years. Daily: 250 g beef mince 80/20, 150 g cooked rice, 40 g cheddar. How much should I feed?")
        self.assertNotIn("To lose weight", lean)
        told = f"{100 * checked['energy']['supply_kcal'] / checked['energy']['need_kcal']:.0f} % of the"
        self.assertEqual(lean.count(told), 1, lean)  # once is enough

    def kcal_proposed(self, post):
        _, recipe = self.told_by(post, "--posted")
        return self.judged(recipe)["energy"]["supply_kcal"]

    def test_a_changed_bowl_is_told_once_and_whole(self):
        """All lines of the text that is proposed, and no line twice; what does not change is never listed as a change."""
        for path in RECIPES:
            answer = json.loads(run("reply", path, *animal(path), "--plain", "--patience", "20", "--quiet", "--json"))
            for was, now in re.findall("“([^”]*)” becomes “([^”]*)”", answer["text"]):
                self.assertNotEqual(was, now, path)
            bowl = bowl_of(answer["text"])
            if answer["scaled"]:
                self.assertTrue(bowl, path)
            if not bowl:
                continue
            self.assertEqual(len(bowl), len(set(bowl)), path)
            with open(os.path.join(os.environ["TMPDIR_REPLY"], "whole.recipe"), "w", encoding="utf-8") as f:
                f.write(answer["recipe"])
            after = json.loads(run("check", f.name, *animal(path), "--json", "--quiet").splitlines()[0])
            self.assertEqual(len(bowl), len(after["recipe"]["lines"]), path)

    def told_by(self, text, *words):
        """The letter and the text that it proposes."""
        done = subprocess.run([program, "reply", "-", *words, "--quiet", "--plain", "--json", "--patience", "20"], input=text, capture_output=True, text=True, timeout=120)
        answer = json.loads(done.stdout)
        return answer["text"], answer["recipe"] or ""

    def test_of_a_batch_every_added_line_says_where_it_goes(self):
        """A line without days is cooked into a batch, one with days is given beside it: bone meal for a week on each day would be seven times too much."""
        cases = (
            ("Batch for 7 days for my 11 kg dog, 5 years old, neutered:\n1.5 kg turkey mince\n400 g cooked rice\n200 g carrots\n100 g chicken liver\n1 spoon yoghurt at breakfast\n", ["--posted"]),
            ("Dog: 11 kg, 5 years, neutered\nMakes: 7 days\n2 kg turkey mince\n500 g cooked rice\n200 g carrots\n100 g chicken liver\n", []),
        )
        for text, words in cases:
            letter, recipe = self.told_by(text, *words)
            pot = bowl = 0
            for line in letter.splitlines():
                if "(new" not in line:
                    continue
                food = line[2:].split(" (new")[0]
                written = next(x for x in recipe.splitlines() if re.sub(r" \[[^]]*\]", "", x).startswith(food))
                stated = re.search("daily|weekly|every|twice", written)
                pot, bowl = pot + (not stated), bowl + bool(stated)
                self.assertIn("over the bowl" if stated else "(new, into the pot", line)
                self.assertEqual("every day" in line, bool(stated) and "daily" in written, line)
            self.assertGreater(pot, 1, letter)
            self.assertGreater(bowl, 1, letter)
            self.assertIn("all else for the whole batch of 7 days", letter)
        letter, _ = self.told_by("Dog: 11 kg, 5 years, neutered\n280 g turkey mince\n70 g cooked rice\n15 g chicken liver\n", )
        self.assertNotRegex(letter, r"\bpot\b|batch")  # and not "potassium"

    def test_instead_of_names_what_the_owner_wrote(self):
        """Of a bowl whose proportions were set right first as well; what goes out of it is said, and nothing advised on it."""
        cat = "Cat: 4.5 kg, 5 years, neutered, low activity\n60 g beef liver, raw\n60 g chicken breast, skinless, raw\n20 g chicken liver\n1 tsp cod liver oil\n"
        fat = "Dog: 12 kg, 8 years, neutered, ideal 10 kg, low activity\n300 g pork belly, raw\n100 g lamb breast\n1 tbsp coconut oil\n50 g cheddar cheese\n"
        dog = "Dog: 10 kg, 6 years, neutered, low activity\n120 g lamb liver, raw\n120 g ground beef, 85% lean, raw\n60 g carrots\n2.5 g ground eggshell\n1 tsp cod liver oil\n"
        for text in (cat, fat, dog):
            letter, recipe = self.told_by(text)
            named = re.findall(r"\(instead of ([^:)]*)", letter)
            self.assertTrue(named, letter)
            for was in named:
                self.assertTrue(any(line.startswith(was.strip("“”")) for line in text.splitlines()), (was, letter))
            for line in text.splitlines()[1:]:
                food = re.sub("^[0-9.]+ [a-z]+ ", "", line)
                if food not in recipe and "pork" not in food:
                    self.assertIn(f"Leave out “{line}”", letter)
        self.assertIn("“300 g pork belly, raw”", self.told_by(fat)[0])
        letter = self.told_by(dog)[0]
        self.assertNotIn("measure by the gram", letter)
        self.assertIn("Ask your veterinarian if this went on for weeks.", letter)
        kept = self.told_by("Dog: 30 kg, 5 years, neutered\n600 g ground beef, 85% lean, raw\n150 g cooked rice\n1 tsp cod liver oil\n")
        self.assertIn("cod liver oil", kept[1])
        self.assertIn("measure by the gram", kept[0])

    def test_a_tablet_for_people_is_one_without_sweetener(self):
        """Xylitol kills dogs: what 'mend' says of it stands in the letter as well."""
        seen = 0
        for text in ("Cat: 4 kg, 4 years, neutered\n100 g rabbit meat\n", "Dog: 20 kg, 5 years, neutered\n400 g cod\n300 g potato\n", "Dog: 5 kg, 4 years, neutered\n120 g chicken breast, skinless, raw\n80 g cooked rice\n", "Dog: 30 kg, 4 years, neutered\n600 g turkey breast\n300 g cooked rice\n"):
            letter, recipe = self.told_by(text)
            if "vitamins and minerals, iron" in recipe:
                seen += 1
                self.assertRegex(letter, "tablets? vitamins and minerals, iron 14 mg.*one without sweetener")
        self.assertGreater(seen, 0)

    def test_words_of_a_change_hold(self):
        """"No pills" only without any; "meets every need" only where all is counted; one egg is no eggs; a stretched portion is told as 'mend' tells it."""
        good = "Dog: 20 kg, 4 years, neutered, moderate activity\n330 g ground beef, 90% lean, raw\n60 g beef heart, raw\n15 g beef liver, raw\n120 g cooked white rice\n60 g canned sardines in oil, drained\n40 g cooked mussels\n1 large egg, boiled\n40 g spinach, cooked\n10 g wheat germ\n4.5 g ground eggshell\n1 tablet iodine 150 ug\n1/2 tablet zinc 15 mg\n1 capsule natural vitamin E 100 IU\n"
        letter, _ = self.told_by(good)
        self.assertNotRegex(letter, "no pills|with foods alone")
        plain = "Dog: 17 kg, 4 years, neutered\n300 g turkey mince\n150 g lean beef mince\n60 g cooked brown rice\n40 g carrots\n25 g chicken livers\n4 g ground eggshell\n"
        pot = "? a big pot with water\n"
        for text, all_counted in ((plain, True), (plain + pot, False)):
            letter, _ = self.told_by(text)
            self.assertEqual("The bowl below meets every need" in letter, all_counted, letter)
            self.assertTrue(all_counted or "What I could count then meets every need" in letter or "open even then" in letter, letter)
        eggs = "Dog: 40 kg, 5 years\n1 kg chicken quarters, bone in, raw\n200 g pork liver\n100 g green tripe\n3 raw eggs with shell\n120 g sardines in oil, canned\n1 tbsp cod liver oil\n? a scoop of kelp\n"
        letter, recipe = self.told_by(eggs)
        self.assertRegex(recipe, "(?m)^(1 raw egg|([2-9]|1 1/2) raw eggs) without shell")
        self.assertNotRegex(recipe, "(?m)^(1|1/2|3/4) raw eggs")
        week = "Dog: 35 kg, 3 years, moderate activity\n700 g beef mince, on Monday\n600 g chicken carcass, on Tuesday\n700 g lamb breast, on Wednesday\n500 g turkey neck, on Thursday\n600 g sardines, on Friday\n800 g green tripe, on Saturday\n"
        letter, recipe = self.told_by(week)
        done = subprocess.run([program, "mend", "-", "--quiet", "--plain", "--json", "--patience", "20"], input=week, capture_output=True, text=True, timeout=120)
        asks = json.loads(done.stdout)["asks"]
        self.assertTrue(asks)
        for words in asks:
            self.assertIn(words, letter)

    def test_too_much_is_answered_as_too_much(self):
        """Of protein there is no limit; calcium that is too much only beside the phosphorus is too much all the same."""
        cases = (
            ("Old shepherd, 31 kg, 11 years, spayed. Daily: 500 g beef heart, 100 g beef mince, 50 g beef liver, 8 g ground eggshell. Can he still have this much protein or does it ruin the kidneys?", "No: NRC 2006 sets no upper limit of protein"),
            ("Pug, 7 kg, 5 years, spayed. Daily: 120 g chicken breast, 30 g rice cooked, 2.2 g ground eggshell. Is the calcium too much?", "Yes, there is too much calcium for the phosphorus"),
            ("Pug, 7 kg, 5 years, spayed. Daily: 120 g chicken breast, 30 g rice cooked. Does she need a supplement?", "Yes. As it is there is too little calcium"),
        )
        for text, said in cases:
            letter, checked = self.both(text)
            self.assertIn(said, letter.split("\n\n")[0], letter)
            self.assertNotIn("No, there is not too much calcium", letter)
        self.assertGreater(self.both(cases[1][0])[1]["balance"]["ca_p"], 2)
        self.assertIn("The bones give what the food lacks", letter)  # of the last: 9 % of the calcium

    def test_a_fast_day_is_a_fast_day(self):
        """Not "hardly any protein: 0 %"; and nothing new falls on it."""
        week = "Dog: 22 kg, 4 years, neutered\n700 g beef mince, on Monday\n700 g lamb shoulder, on Tuesday\n700 g turkey thigh, on Wednesday\n700 g beef heart, on Thursday\n600 g pork loin, on Friday\n700 g chicken thigh, on Saturday\n"
        letter, recipe = self.told_by(week)
        self.assertNotRegex(letter, "(hardly any|too little) (protein|lysine|methionine)|Protein is short")
        self.assertTrue(recipe)
        self.assertIn("A fast day stays one", letter)
        self.assertNotIn("(new, every day", letter)
        full, recipe = self.told_by(week + "700 g duck, on Sunday\n")
        self.assertNotIn("fast day", full)

    def test_the_graver_is_told_before_what_is_clear(self):
        cat = "Cat: 5 kg, 4 years, neutered\n110 g lamb mince\n12 g beef heart\n6 g lamb liver\n2 g ground eggshell\n? a chicken neck now and then\n"
        letter, _ = self.told_by(cat)
        first = letter.split("\n\n")[0]
        self.assertLess(first.index("iodine"), first.index("too much fat"), letter)

    def test_two_sources_of_iodine_are_told_as_mend_tells_them(self):
        seen = 0
        for kg in (11, 13, 16):
            text = f"Dog: {kg} kg, 6 years, neutered\n{20 * kg} g ground beef, 80% lean, raw\n150 g cooked white rice\n20 g cheddar cheese\n"
            letter, recipe = self.told_by(text)
            doubled = recipe and "supplements-doubled" in [f["id"] for f in self.judged(recipe)["findings"]]
            self.assertEqual("comes from more than one supplement" in letter, bool(doubled), letter)
            seen += bool(recipe)
        self.assertGreater(seen, 1)

    def test_a_poison_with_an_amount_is_fed(self):
        cat = "Cat, 3.6 kg, 3 years, spayed. Daily: 100 g turkey thigh cooked, 5 g chicken liver, 250 mg taurine.\nonion powder 1 pinch (for taste)\n"
        letter, _ = self.both(cat)
        self.assertTrue(letter.startswith("First, please stop this"), letter)
        self.assertNotIn("If none of it is fed", letter)
        self.assertNotIn("Leave out “5 g chicken liver”", letter)

    def test_an_elimination_diet_gets_no_other_animal(self):
        """Only minerals, vitamins and plain oils: another meat or fish would end the trial. How long it lasts is no frequency."""
        for diet in ("Vet has her on an elimination diet, nothing else allowed for 8 weeks. Ok for so long?", "We are doing a novel protein trial for 10 weeks.", "The vet said try novel protein."):
            post = "Poodle, 14 kg, 3 years, spayed. Daily: 380 g horse meat, 160 g sweet potato, 50 g kale, 1 tbsp rapeseed oil, 1 tsp calcium carbonate. " + diet
            letter, recipe = self.told_by(post, "--posted")
            self.assertTrue(recipe, letter)
            self.assertNotIn("next to nothing", letter)
            self.assertIn("could upset the trial", letter)
            self.assertIn("no cause to break off the trial", letter)
            fed = re.search("For: |Dog: ", recipe) and [x for x in recipe.splitlines() if " [" in x]
            self.assertGreater(len(fed), 2, recipe)
            self.assertNotRegex(" ".join(fed), "beef|salmon|sardine|fish|liver|kidney|egg|bone|mussel|yeast|pumpkin seed|hemp seed", recipe)
        letter, recipe = self.told_by(post.replace("The vet said try novel protein.", ""), "--posted")
        self.assertNotIn("trial", letter)

    def test_a_vegan_dog_can_be_fed(self):
        letter, recipe = self.told_by("Vegan dog, 20 kg, 4 yrs, neutered. 300 g tofu firm, 200 g lentils cooked, 200 g quinoa cooked, 100 g sweet potato, 1 tbsp nutritional yeast, 1 tsp calcium carbonate. How can I be sure of taurine and B12?", "--posted")
        self.assertIn("vitamin B12", recipe)
        self.assertIn("algal oil", recipe)
        first = letter.split("\n\n")[0]
        self.assertIn("There is too little vitamin B12", first)
        self.assertIn("make taurine from methionine and cystine", first)

    def test_whether_a_poison_may_be_given(self):
        """Each is named, and nobody is alarmed who only asks; what was eaten, or is fed, is an alarm."""
        dog = "Collie, 19 kg, neutered, 5 years. Daily: 400 g beef mince, 100 g rice cooked, 5 g ground eggshell. "
        for asked, named in (("Can he have grapes or chocolate now and then?", ["grapes", "chocolate"]), ("Is it ok to give him onions and macadamias?", ["onions", "macadamia"]), ("Could I add sultanas as a treat?", ["sultanas"])):
            letter, checked = self.both(dog + asked)
            first = letter.split("\n\n")[0]
            self.assertTrue(first.startswith("No"), letter)
            for food in named:
                self.assertIn(food, first)
            self.assertIn("If any was eaten already, call a veterinarian or a poison line", first)
            self.assertNotIn("please stop", letter)
            self.assertEqual(len([f for f in checked["findings"] if f["id"] == "danger-asked"]), len(named))
        for fed in ("He ate a handful of raisins, is that bad?", "He gets raisins as treats.", "Can it harm that he had grapes today?"):
            letter, _ = self.both(dog + fed)
            self.assertTrue(letter.startswith("First, please stop this"), letter)

    def test_an_overdose_stays_in_no_bowl(self):
        """Whatever else could not be read: what is over a limit goes, and is stopped before all else."""
        pill = "\n? a daily multivitamin for people\n"
        dog = "Dog: 45 kg, 6 years, neutered, low activity\n600 g ground beef, 90% lean, raw\n200 g boiled potato\n60 g beef liver, raw\n{} IU vitamin D3, daily"
        for unread in ("\n", pill):
            letter, recipe = self.told_by(dog.format(8000) + unread)
            self.assertNotIn("vitamin D3", re.sub("vitamin D3 400 IU", "", recipe), unread)
            first = letter.split("What I would change")[0]
            self.assertIn("“8000 IU vitamin D3, daily”: stop it today", first)
            self.assertIn("whether the blood calcium should be checked", first)
            checked = self.judged(recipe)
            self.assertEqual([n["key"] for n in checked["nutrients"] if n["verdict"] == "over"], [], recipe)
        fine, _ = self.told_by(dog.format(200) + pill)
        self.assertNotIn("stop it today", fine)
        iron = "Dog: 20 kg, 5 years, neutered\n350 g ground beef, 90% lean, raw\n150 g boiled potato\n40 g lamb liver, raw\n6 g ground eggshell\n200 mg zinc" + pill
        _, recipe = self.told_by(iron)  # no promise of enough zinc, but one of not too much
        if recipe:
            self.assertNotIn("zinc", [n["key"] for n in self.judged(recipe)["nutrients"] if n["verdict"] == "over"], recipe)

    def judged(self, recipe):
        done = subprocess.run([program, "check", "-", "--quiet", "--json"], input=recipe, capture_output=True, text=True, timeout=120)
        return json.loads(done.stdout.splitlines()[0])

    def test_nothing_is_praised_that_is_then_added(self):
        text = "Luna (cat, 4 kg, 3 yrs old, spayed) eats every day:\n80g chicken breast, poached\n60g chicken liver\n1 tsp salmon oil\n"
        done = subprocess.run([program, "reply", "-", "--posted", "--quiet", "--patience", "20"], input=text, capture_output=True, text=True, timeout=120)
        praise = re.search("has enough ([^.]*)", done.stdout)
        added = " ".join(re.findall("(?:Add “[^”]*”|new), for ([^.)]*)", done.stdout))
        self.assertTrue(added, done.stdout)
        for name in re.split(", | and ", praise.group(1)) if praise else []:
            self.assertNotIn(name, added)

    def test_the_bowl_keeps_to_what_the_letter_advises(self):
        """Tuna once a week at most, and none of it in the bowl of every day: also beside what nobody could count."""
        cat = "My cat Mo (4.3 kg, 4 yrs, spayed) eats 140 g of canned tuna in water a day{}"
        for more in (".", " and some crunchy treats."):
            letter, recipe = self.told_by(cat.format(more), "--posted")
            self.assertIn("“some crunchy treats" if "treats" in more else "a day", letter)
            self.assertTrue(recipe, letter)
            fed = [x for x in recipe.splitlines() if not x.startswith(("#", "?"))]
            self.assertNotIn("tuna", " ".join(fed), letter)
            self.assertIn("once a week does no harm", letter)
            self.assertIn("over several weeks", letter)
            self.assertNotIn("over 7 to 10 days", letter)
        kept = "Cat: 4.3 kg, 4 years, neutered\nNever: chicken, turkey, beef, pork, lamb, rabbit, venison, duck\n140 g tuna in water, canned\n"
        letter, recipe = self.told_by(kept)
        self.assertIn("tuna in water", recipe, letter)
        self.assertIn("wean off it over several weeks", letter)
        self.assertNotIn("Tuna once a week at most", letter)
        beef = "My dog Mo (14 kg, 4 yrs, spayed) eats 250 g of lean beef mince a day, cooked, and 80 g of rice."
        self.assertIn("over 7 to 10 days", self.told_by(beef, "--posted")[0])

    def test_nothing_is_said_to_be_all_that_is_short_where_more_is_added(self):
        post = (
            "Staffy, 20 kg, 5 years, spayed. Every day: 400 g lean beef mince (5% fat), cooked, 200 g boiled potato, 80 g carrot, 60 g kale, 25 g beef liver, "
            "30 g sardines, 4 g calcium carbonate, 10 ml rapeseed oil, 10 mg zinc, 100 iu vitamin E, 200 mcg iodine, 1 mg manganese"
        )
        letter, checked = self.both(post)
        thin = [n["name"].lower() for n in checked["nutrients"] if n["verdict"] == "thin"]
        self.assertEqual([n["key"] for n in checked["nutrients"] if n["verdict"] in ("short", "over")], ["vitamin_d"], letter)
        self.assertTrue(thin)
        self.assertNotIn("Nothing else is short", letter)
        told = re.search("Nothing else is clearly short or over; not clearly enough: ([^.]*)", letter).group(1).lower()
        self.assertTrue(any(name in told for name in thin), (told, thin))

    def test_nothing_is_added_for_what_there_is_enough_of(self):
        post = "My cat, 14 months, 3.9 kg, spayed. Every day: 150 g minced chicken with bone, 1 tbsp milk, 1/2 tsp coconut oil. No taurine bc chicken has it already right?"
        letter, checked = self.both(post)
        met = [n["name"].lower() for n in checked["nutrients"] if n["verdict"] == "met"]
        self.assertIn("taurine", met)
        self.assertIn("There is enough taurine", letter)
        added = re.findall(r"\(new[^)]*?, for ([^.)]*)\)", letter)
        self.assertTrue(added, letter)
        for names in added:
            for name in re.split(", | and ", names.lower()):
                self.assertNotIn(name, met, letter)

    def test_no_amount_is_advised_to_a_patient(self):
        """What looks like too much calcium may be the binder that the veterinarian gave; how to prepare food harms nobody."""
        post = "Senior cat 14 years, 3.4 kg, CKD stage 2: 100 g poached chicken thigh, 20 g egg white, 30 g white rice, 1 tsp salmon oil, 1/4 tsp calcium carbonate"
        _, checked = self.both(post)
        told = {f["id"]: f["remedy"] or "" for f in checked["findings"]}
        self.assertEqual(told["ca-p-high"], "")
        self.assertFalse([x for x in told.values() if re.search("Cut back|[Mm]ore |[Ll]ess of|would cover", x)], told)
        self.assertIn("Cook the whites", told["avidin"])
        well, _ = post.replace(", CKD stage 2", ""), None
        self.assertIn("Cut back on calcium carbonate", " ".join(f["remedy"] or "" for f in self.both(well)[1]["findings"]))

    def test_of_germs_only_what_is_fed_raw_is_told(self):
        """Cooked in a pot that the lines do not name, or by one line of meat; not where a line says raw, or has a bone, or nobody says anything."""
        dog = "Dog, 20 kg, 5 years, neutered. "
        germs = "Raw meat carries bacteria"
        cooked = (
            "Every day, cooked in the instant pot: 450 g ground turkey, 100 g rice, 40 g carrots",
            "I cook on Sundays. Every day: 450 g ground turkey, 100 g rice, 40 g carrots",
            "Every day 400 g kangaroo mince (raw weight, I cook it), 150 g sweet potato",
            "Every day: 400 g beef mince, cooked, 25 g beef liver, 100 g boiled potato",
        )
        raw = (
            "Every day: 450 g ground turkey, raw, 100 g cooked rice, 40 g carrots",
            "Every day: 450 g ground turkey, 100 g rice cooked in broth, 40 g carrots",
            "I don't cook it. Every day: 450 g ground turkey, 100 g rice, 40 g carrots",
            "I cook the rice on Sundays. Every day: 450 g ground turkey, 100 g rice, 40 g carrots",
            "Every day: 450 g ground turkey, 100 g rice, 40 g carrots",
            "Every day: 450 g ground turkey, 60 g cod, poached, 40 g carrots",
            "I cook on Sundays. Every day: 300 g chicken necks, 100 g beef mince, 40 g carrots, raw",
        )
        for text in cooked:
            letter, _ = self.both(dog + text)
            self.assertNotIn(germs, letter, text)
            self.assertNotIn("Cook it", letter, text)
        for text in raw:
            letter, _ = self.both(dog + text)
            self.assertIn(germs, letter, text)
        self.assertIn("Cook it", self.both(dog + "Every day 400 g kangaroo mince, raw, 150 g sweet potato")[0])

    def test_garlic_is_told_as_gravely_as_onion(self):
        for food in ("onion", "garlic powder"):
            letter, _ = self.both("Dog, 20 kg, 5 years, neutered. 300 g cooked beef mince, 1 pinch of " + food + ", 100 g rice a day")
            first = letter.split("\n\n")[1]
            self.assertIn("Do not feed " + food, first)
            self.assertIn("breaks red blood cells", first)
            self.assertNotIn("at once", first)

    def test_a_patient_gets_the_list_that_is_promised(self):
        text = "Senior cat 14 years 4kg with kidney disease stage 2: 100g chicken thigh, 20g rice"
        done = subprocess.run([program, "reply", "-", "--posted", "--quiet"], input=text, capture_output=True, text=True, timeout=120)
        self.assertEqual(done.returncode, 4)
        self.assertRegex(done.stdout, "kcal, .* of protein, .* of calcium and .* of phosphorus")

    def test_golden(self):
        """Five replies that were read and signed. BW_GOLDEN_WRITE=1 writes them anew: read the difference."""
        chosen = {"turkey": TURKEY, "puppy": PUPPY, **{n: t for n, t in POSTS if n in ("languages-3", "latecats-3", "chatty-3")}}
        self.assertEqual(len(chosen), 5)
        for name, text in chosen.items():
            done = subprocess.run([program, "reply", "-", "--posted", "--quiet"], input=text, capture_output=True, text=True, timeout=120)
            path = os.path.join(source, "tests/golden/replies", name + ".md")
            if os.environ.get("BW_GOLDEN_WRITE"):
                with open(path, "w", encoding="utf-8") as f:
                    f.write(done.stdout)
            with open(path, encoding="utf-8") as f:
                self.assertEqual(done.stdout, f.read(), name)

    def test_lengths(self):
        for path in RECIPES:
            whom = animal(path)
            letter = run("reply", path, *whom, "--plain", "--patience", "20", "--quiet")
            words = len(letter.split())
            self.assertTrue(150 <= words <= 480, (path, words, letter))
            for lines in (1, 3, 5):
                few = run("reply", path, *whom, "--lines", str(lines), "--patience", "20", "--quiet")
                self.assertLessEqual(len(few.splitlines()), lines)
            full = run("reply", path, *whom, "--full", "--patience", "20", "--quiet")
            self.assertGreater(len(full), len(letter))
            self.assertIn("| Zinc |", full)

    def test_a_post_is_asked_about(self):
        """The scoop of kelp in the post has no weight: the letter must ask for it and say that it is not counted."""
        post = os.path.join(source, "examples/posted.txt")
        checked = json.loads(run("check", post, "--posted", "--json", "--quiet"))
        asked = [q["ask"] for q in checked["questions"]]
        self.assertTrue(any("Which scoop" in q for q in asked), asked)
        for length in ([], ["--full"]):
            letter = run("reply", post, "--posted", "--plain", "--patience", "20", "--quiet", *length)
            told = asked if length else asked[:2]
            for question in told:
                self.assertIn(question, letter)
            self.assertRegex(letter, "could not count “[^”]*kelp[^”]*”")
            if not length:
                self.assertLessEqual(len(letter.split()), 480)
                self.assertFalse(letter.startswith("Thank you"), letter)  # the point comes first
        strict = run("reply", RECIPES[0], *animal(RECIPES[0]), "--plain", "--patience", "20", "--quiet")
        self.assertNotIn("could not count", strict)

    def test_markdown_cannot_be_made_by_the_owner(self):
        recipe = "Recipe: *bold* [x](http://example.org)\n300 g beef mince\n20 g beef liver # <b>\n"
        done = subprocess.run([program, "reply", "-", "--dog", "18", "--patience", "5", "--quiet"], input=recipe, capture_output=True, text=True, timeout=120)
        self.assertEqual(done.returncode, 0)
        self.assertNotIn("](http", done.stdout)
        self.assertNotIn("<b>", done.stdout)

    def test_seaweed_without_a_stated_content_goes_out(self):
        recipe = "300 g beef mince\n20 g beef liver\n5 g kelp\n"
        done = subprocess.run([program, "reply", "-", "--dog", "18", "--patience", "10", "--quiet", "--plain", "--json"], input=recipe, capture_output=True, text=True, timeout=120)
        self.assertEqual(done.returncode, 0)
        answer = json.loads(done.stdout)
        self.assertRegex(answer["text"], "Leave out “[0-9.]+ g kelp”: nobody knows how much iodine")
        self.assertNotRegex(answer["recipe"], "(?m)^[0-9.]+ g kelp$")
        self.assertRegex(answer["recipe"], "iodine [0-9]+ µg|trace minerals, iron [0-9]+ mg|vitamins and minerals, iron [0-9]+ mg")

    def test_a_change_says_what_it_does_not_count(self):
        recipe = "300 g beef mince\n20 g beef liver\n? 1 scoop kelp\n"
        for verb, words in (("reply", ["--plain"]), ("reply", ["--lines", "3"]), ("mend", ["--plain"])):
            done = subprocess.run([program, verb, "-", "--dog", "18", "--patience", "10", "--quiet", *words], input=recipe, capture_output=True, text=True, timeout=120)
            self.assertRegex(" ".join(done.stdout.split()), "(This does not|I could not) count .?1 scoop kelp", (verb, words))

    def test_refused_animals_get_no_formula(self):
        pup = "Animal: Pup\nSpecies: dog\nAge: 4 months\nWeight: 8 kg\n"
        with open(os.path.join(os.environ["TMPDIR_REPLY"], "pup.animals"), "w", encoding="utf-8") as f:
            f.write(pup)
        done = subprocess.run([program, "reply", "-", "--for", f.name, "--quiet"], input="300 g beef mince\n20 g beef liver\n", capture_output=True, text=True, timeout=120)
        self.assertEqual(done.returncode, 4)
        self.assertIn("Ask a veterinarian trained in nutrition", done.stdout)
        self.assertNotIn("Add “", done.stdout)


unittest.main(argv=[sys.argv[0], *sys.argv[3:]], verbosity=1)
