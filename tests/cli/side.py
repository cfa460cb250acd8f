"""side, check --why, check --ratio and the quiet animal, through the program itself. The arithmetic of every printed chain is
done again here, in Python and from the printed numbers alone."""

import json
import math
import os
import subprocess
import sys
import tempfile
import unittest
from statistics import NormalDist

BUILD, SOURCE = sys.argv[1:3]
PROGRAM = os.path.join(BUILD, "bowlwright")
ENVIRONMENT = {k: v for k, v in os.environ.items() if not k.startswith("BOWLWRIGHT")}
ENVIRONMENT["LC_ALL"] = "C.UTF-8"
ANIMALS = os.path.join(SOURCE, "examples", "saltmarsh.animals")
WEEKNIGHT = os.path.join(SOURCE, "examples", "weeknight-bowl.recipe")
RICE = os.path.join(SOURCE, "examples", "rice-pot.recipe")
PIM = os.path.join(SOURCE, "examples", "pims-plate.recipe")


def run(*arguments, code=0, text=None):
    done = subprocess.run([PROGRAM, *arguments], input=text and text.encode(), capture_output=True, env=ENVIRONMENT)
    assert done.returncode == code, (arguments, done.returncode, done.stderr.decode())
    return done.stdout.decode("utf-8"), done.stderr.decode("utf-8")


def answer(*arguments, **more):
    return json.loads(run(*arguments, "--json", **more)[0])


def near(a, b, tolerance=5e-6):  # values of the library are printed with six digits
    return abs(a - b) <= tolerance * max(abs(a), abs(b), 1e-9)


class Nothing(unittest.TestCase):
    """A bowl of 0 g beside another: no figure runs into the next, and nothing is divided by nothing."""

    def test_a_bowl_of_nothing(self):
        with tempfile.TemporaryDirectory() as folder:
            paths = []
            for name, text in (("empty", "0 g carrot, raw\n"), ("full", "100 g beef heart\n0 g lamb liver\n")):
                paths.append(os.path.join(folder, name + ".recipe"))
                with open(paths[-1], "w", encoding="utf-8") as file:
                    file.write(text)
            out, _ = run("side", *paths, "--dog", "7")
            self.assertNotIn("knownnot", out)
            self.assertNotIn("nan", out.lower().replace("manganese", ""))
            cooked, _ = run("side", paths[1], "--cooked", "--dog", "18")
            self.assertNotIn("not known", cooked.replace("? not known", ""))  # the legend
            items = answer("side", *paths, "--dog", "7")["items"]
            self.assertEqual([i["grams_per_day"] for i in items], [0, 100])
            self.assertIsNone(items[0]["kcal_per_kg"])


class Why(unittest.TestCase):
    def chains(self, recipe, *arguments):
        first = answer("check", recipe, "--for", ANIMALS, *arguments)
        keys = [n["key"] for n in first["nutrients"]]
        asked = [word for key in keys for word in ("--why", key)]
        whole = answer("check", recipe, "--for", ANIMALS, *arguments, *asked)
        self.assertEqual([w["key"] for w in whole["why"]], keys)
        return whole, dict(zip(keys, whole["why"]))

    def portion_amount(self, line, grams):
        """grams / 100 x the sum of factor x value x share kept; what is not known counts as nothing."""
        parts = (v["factor"] * v["per_100g"] * v["kept"] for v in line["values"] if v["per_100g"] is not None and v["kept"] is not None)
        return grams / 100 * sum(parts)

    def adds_up(self, nutrient, chain, energy):
        for line in chain["lines"]:
            portion = self.portion_amount(line, line["grams_per_day"])
            if line["amount"] is None:  # not known, so not 0
                self.assertTrue(line["missing"] and portion == 0, (chain["key"], line))
            else:
                self.assertTrue(near(line["amount"], portion), (chain["key"], line))
            self.assertTrue(line["values"])
        total = sum(self.portion_amount(line, line["grams_per_day"]) for line in chain["lines"])
        if nutrient["known"] == "none":
            self.assertTrue(total == 0 and nutrient["amount"] is None and chain["sum"] is None, chain["key"])
            return
        self.assertTrue(near(total, nutrient["amount"]), (chain["key"], total, nutrient["amount"]))
        lean = sum(self.portion_amount(line, line["grams_per_day_lean"]) for line in chain["lines"])
        self.assertTrue(near(lean, nutrient["window_amount"]), chain["key"])
        variance = sum(sum(line["variance"].values()) for line in chain["lines"])
        self.assertTrue(near(variance, chain["variance"]), chain["key"])
        if nutrient["amount"] > 0 and not energy:
            self.assertTrue(near(math.sqrt(variance) / total, nutrient["cv"], 1e-5), chain["key"])
            if variance > 0:
                self.assertAlmostEqual(sum(line["variance_share"] for line in chain["lines"]), 1, places=6)

    def chance_again(self, nutrient, chain):
        met = chain["chance"]["met"]
        if not met or met["z"] is None:
            return False
        sigma = math.sqrt(math.log(1 + met["cv"] ** 2))
        z = (math.log(met["mean"] / met["figure"]) - sigma ** 2 / 2) / sigma
        self.assertAlmostEqual(NormalDist().cdf(z), nutrient["chance_met"], places=5)
        self.assertTrue(near(met["figure"], nutrient["allowance"]))
        return True

    def word_again(self, nutrient, chain, sure):
        """The rules of docs/method/verdicts.md, from the printed figures."""
        word, a, least, most = nutrient["verdict"], nutrient["allowance"], nutrient["minimum"], nutrient["upper"]
        amount, rule = nutrient["window_amount"], chain["rule"]
        if rule == "over":
            self.assertGreater(nutrient["window_high"], most)
        elif rule == "no-figure":
            self.assertIsNone(a)
        elif rule in ("under-minimum", "far-under-allowance", "under-allowance", "unproven"):
            self.assertLess(amount, a)
            floor = least if least is not None else 0.7 * a
            if rule == "unproven":
                self.assertTrue(nutrient["missing"])
            else:
                self.assertEqual(amount < floor, rule != "under-allowance")
        elif rule == "not-sure":
            self.assertTrue(amount >= a * (1 - 1e-8) and nutrient["chance_met"] < sure)
        else:
            self.assertGreaterEqual(nutrient["chance_met"], sure)
        words = {"over": "over", "no-figure": "no figure", "unproven": "unproven", "under-minimum": "short",
                 "far-under-allowance": "short", "met": "met"}
        self.assertEqual(word, words.get(rule, "thin"))

    def test_every_number_of_three_bowls(self):
        chances = 0
        for recipe in (WEEKNIGHT, RICE, PIM):
            for extra in ([], ["--standard", "fediaf2021"], ["--sure", "90"]):
                whole, chains = self.chains(recipe, *extra)
                for nutrient in whole["nutrients"]:
                    with self.subTest(recipe=os.path.basename(recipe), key=nutrient["key"], extra=extra):
                        energy = nutrient["key"] == "energy"
                        self.adds_up(nutrient, chains[nutrient["key"]], energy)
                        if not energy:
                            chances += self.chance_again(nutrient, chains[nutrient["key"]])
                            self.word_again(nutrient, chains[nutrient["key"]], whole["sure"])
        self.assertGreater(chances, 200)

    def test_values_are_those_of_food(self):
        _, chains = self.chains(WEEKNIGHT)
        liver = next(line for line in chains["zinc"]["lines"] if line["food"] == "usda:17199")
        record = answer("food", "usda:17199")
        zinc = next(n for n in record["nutrients"] if n["key"] == "zinc")
        self.assertEqual(liver["values"][0]["per_100g"], zinc["amount"])
        self.assertEqual(liver["values"][0]["source"], zinc["source"])
        self.assertEqual(liver["grams_per_day"], 20)

    def test_ratios(self):
        whole = answer("check", WEEKNIGHT, "--for", ANIMALS, "--why", "calcium:phosphorus", "--why", "phytate_zn")
        ratio, phytate = whole["why"]
        self.assertEqual((ratio["key"], phytate["key"]), ("ca_p", "phytate_zn"))
        self.assertTrue(near(ratio["above"][0]["amount"] / ratio["below"][0]["amount"], whole["balance"]["ca_p"]))
        above, below = (side[0]["amount"] / side[0]["molar_mass"] for side in (phytate["above"], phytate["below"]))
        self.assertTrue(near(above / below, whole["balance"]["phytate_zn"]))

    def test_drawn(self):
        for width in ("60", "80", "120"):
            drawn, _ = run("check", WEEKNIGHT, "--for", ANIMALS, "--why", "zinc", "--why", "energy", "--why", "ca_p", "--width", width)
            self.assertIn("lamb shoulder", drawn)
            self.assertIn("data/allowances.tsv", drawn)
            self.assertTrue(all(len(line) <= int(width) for line in drawn.splitlines()))
        self.assertIn("did you mean 'zinc'", run("check", WEEKNIGHT, "--dog", "18", "--why", "zink", code=2)[1])


class Quiet(unittest.TestCase):
    def scaled(self, share):
        foods = ((300, "usda:17039"), (20, "usda:17199"), (60, "usda:15034"))
        return "".join(f"{grams * share:.9g} g food [{code}]\n" for grams, code in foods)

    def test_the_verdict_flips_at_the_crossing(self):
        for animal in (["--dog", "9"], ["--cat", "4.6"]):
            whole = answer("check", "-", *animal, text=self.scaled(1))
            crossings = whole["quiet"]["crossings"]
            self.assertEqual([c["share"] for c in crossings], sorted((c["share"] for c in crossings), reverse=True))
            flipped = 0
            for crossing in crossings:
                for share, met in ((crossing["share"] * 1.001, True), (crossing["share"] * 0.999, False)):
                    then = answer("check", "-", *animal, text=self.scaled(share))
                    nutrient = next(n for n in then["nutrients"] if n["key"] == crossing["key"])
                    if nutrient["verdict"] == "over":
                        continue
                    self.assertEqual(nutrient["verdict"] == "met", met, (animal, crossing))
                    flipped += 1
            self.assertGreater(flipped, 20)

    def test_lost_at(self):
        quiet = answer("check", WEEKNIGHT, "--for", ANIMALS)["quiet"]
        self.assertEqual(list(quiet)[:6], ["all_met_from", "smallest_kcal", "first_lost", "highest_fat_share", "at", "crossings"])
        self.assertEqual(list(quiet["at"]), ["0.9", "0.8", "0.7", "0.6"])
        for a, b in (("0.9", "0.8"), ("0.8", "0.7"), ("0.7", "0.6")):
            self.assertLessEqual(set(quiet["at"][a]), set(quiet["at"][b]))
        self.assertIn(quiet["first_lost"], quiet["at"]["0.9"])
        self.assertIsNone(answer("check", WEEKNIGHT, "--dog", "18", "--basis", "energy")["quiet"])
        self.assertIsNone(answer("check", WEEKNIGHT)["quiet"])

    def test_drawn(self):
        folded, _ = run("check", WEEKNIGHT, "--for", ANIMALS, "--width", "80")
        self.assertIn("If Juniper eats less", folded)
        self.assertIn("100 %", folded)


class Ratio(unittest.TestCase):
    def test_grams(self):
        ratio = answer("check", "-", "--dog", "18", "--ratio", "80:10:5:5",
                       text="70 g lamb shoulder, raw [usda:17024]\n15 g lamb liver [usda:17199]\n15 g broccoli [usda:11090]\n")["ratio"]
        self.assertEqual([round(p["difference_g"], 6) for p in ratio["pieces"]], [10, 10, -10, 5])
        self.assertEqual(ratio["beside"], {"plant": 15})
        self.assertIn("iodine", [n["key"] for n in ratio["left_open"]])
        for need in ratio["left_open"]:
            self.assertLess(need["best"], need["allowance"])
        for need in ratio["within_reach"]:
            self.assertGreaterEqual(need["best"], need["allowance"])

    def test_words(self):
        drawn, _ = run("check", WEEKNIGHT, "--for", ANIMALS, "--ratio", "muscle 70, bone 10, liver 5, organ 5, plant 10")
        self.assertIn("Against the ratio", drawn)
        self.assertIn("add up to 95", run("check", WEEKNIGHT, "--dog", "18", "--ratio", "80:10:5", code=2)[1])
        self.assertNotIn("ratio", answer("check", WEEKNIGHT, "--dog", "18"))


class Side(unittest.TestCase):
    def rows(self, side):
        return {n["key"]: n for n in side["nutrients"]}

    def test_foods(self):
        """Copper of USDA SR28: lamb liver 6.979 mg, chicken liver 0.492 mg in 100 g."""
        side = answer("side", "usda:17199", "usda:05027", "--per", "100g")
        self.assertEqual(list(side)[:7], ["kind", "per", "standard", "basis", "sure", "animal", "items"])
        copper = self.rows(side)["copper"]
        self.assertEqual([round(x["amount"], 3) for x in copper["of"]], [6.979, 0.492])
        self.assertEqual(copper["most"], "A")
        self.assertTrue(near(copper["factor"], 6.979 / 0.492, 1e-3))
        self.assertTrue(all(x["verdict"] is None for n in side["nutrients"] for x in n["of"]))

    def test_words_and_pins_are_the_same_foods(self):
        by_words = answer("side", "--food", "lamb liver", "--food", "chicken liver")
        by_pins = answer("side", "usda:17199", "usda:05027")
        self.assertEqual([i["food"] for i in by_words["items"]], [i["food"] for i in by_pins["items"]])
        self.assertEqual(by_words["nutrients"], by_pins["nutrients"])

    def test_a_bone_in_cut_brings_its_bone(self):
        calcium = self.rows(answer("side", "duck neck", "usda:05139", "--per", "100g"))["calcium"]
        self.assertGreater(calcium["of"][0]["amount"], 1000)

    def test_recipes_agree_with_check(self):
        side = answer("side", WEEKNIGHT, RICE, "--for", f"{ANIMALS}:Juniper")
        for letter, recipe in (("A", WEEKNIGHT), ("B", RICE)):
            checked = {n["key"]: n for n in answer("check", recipe, "--for", f"{ANIMALS}:Juniper")["nutrients"]}
            for row in side["nutrients"]:
                mine = next(x for x in row["of"] if x["letter"] == letter)
                if mine["amount"] is not None:
                    self.assertTrue(near(mine["amount"], checked[row["key"]]["amount"]), row["key"])
                self.assertEqual(mine["verdict"], checked[row["key"]]["verdict"], row["key"])

    def test_per_1000_kcal_is_judged_at_the_need(self):
        """Twice the batch is the same food: per 1000 kcal nothing differs."""
        with tempfile.TemporaryDirectory() as folder:
            files = [os.path.join(folder, f"{n}.recipe") for n in (1, 2)]
            for n, file in enumerate(files, 1):
                with open(file, "w", encoding="utf-8") as out:
                    out.write(f"{200 * n} g lamb shoulder [usda:17039]\n{10 * n} g lamb liver [usda:17199]\n")
            side = answer("side", *files, "--dog", "18", "--per", "1000kcal")
            for row in side["nutrients"]:
                a, b = row["of"]
                self.assertEqual(a["verdict"], b["verdict"])
                if a["amount"] is not None:
                    self.assertTrue(near(a["amount"], b["amount"]), row["key"])

    def test_cooked_is_what_the_text_says(self):
        """One way of cooking is the recipe that says so."""
        text = "500 g lean beef [usda:23485]{}\n20 g lamb liver [usda:17199]{}\n"
        with tempfile.TemporaryDirectory() as folder:
            file = os.path.join(folder, "bowl.recipe")
            with open(file, "w", encoding="utf-8") as out:
                out.write(text.format(", raw", ", raw"))
            side = answer("side", file, "--cooked", "--dog", "18")
        self.assertEqual([i["way"] for i in side["items"]], ["raw", "simmered-broth-kept", "simmered-drained", "baked"])
        drained = answer("check", "-", "--dog", "18", text=text.format(", raw weight, simmered, drained", ", raw weight, simmered, drained"))
        self.assertTrue(near(side["items"][2]["grams_per_day"], drained["energy"]["grams_per_day"]))
        checked = {n["key"]: n for n in drained["nutrients"]}
        for row in side["nutrients"]:
            mine = row["of"][2]
            if mine["amount"] is not None:
                self.assertTrue(near(mine["amount"], checked[row["key"]]["amount"]), row["key"])
            self.assertEqual(mine["verdict"], checked[row["key"]]["verdict"])
        self.assertTrue(near(side["items"][1]["grams_per_day"], 520))

    def test_drawn(self):
        for width in ("60", "80", "120"):
            for arguments in (["lamb liver", "chicken liver", "beef liver"], [WEEKNIGHT, RICE, "--for", f"{ANIMALS}:Juniper"],
                              [WEEKNIGHT, "--cooked", "--for", ANIMALS], [WEEKNIGHT] * 6 + ["--for", ANIMALS]):
                drawn, _ = run("side", *arguments, "--width", width)
                self.assertTrue(all(len(line) <= int(width) for line in drawn.splitlines()), arguments)
                self.assertTrue(run("side", *arguments, "--width", width, "--plain", "--all")[0].isascii())

    def test_usage(self):
        for arguments, says in ((["lamb liver"], "2 to 6"), (["lamb liver", WEEKNIGHT], "do not mix"), ([], "2 to 6"),
                                ([WEEKNIGHT] * 7, "at most 6"), ([WEEKNIGHT, RICE, "--cooked"], "one recipe"),
                                (["lamb liver", "egg", "--per", "day"], "100g")):
            self.assertIn(says, run("side", *arguments, code=2)[1])
        self.assertIn("qwertyzxcv", run("side", "qwertyzxcv", "egg", code=3)[1])
        run("side", "absent.recipe", WEEKNIGHT, code=6)
        pup = "Animal: Button\nSpecies: dog\nAge: 4 months\nWeight: 6 kg\n"
        with tempfile.TemporaryDirectory() as folder:
            file = os.path.join(folder, "pup.animals")
            with open(file, "w", encoding="utf-8") as out:
                out.write(pup)
            side = answer("side", WEEKNIGHT, RICE, "--for", f"{file}:Button", code=4)
        self.assertEqual(side["refused"], "growth")
        self.assertTrue(all(x["verdict"] is None for n in side["nutrients"] for x in n["of"]))


if __name__ == "__main__":
    unittest.main(argv=sys.argv[:1])
