"""Common home-made recipes, made up by rule, checked in one go, and what they lack, beside what published surveys found.

Usage: plausibility.py PROGRAM [--markdown]. The seed is fixed: the same program gives the same table. docs/method/plausibility.md holds the
table and says how to read it. No test depends on it.
"""
import json
import os
import random
import subprocess
import sys
import tempfile

PROGRAM = os.path.abspath(sys.argv[1])
SEED = 20131  # any number; kept so that the table can be made again

DOG = "Animal: Dog\nSpecies: dog\nAge: 4 years\nWeight: 20 kg\nNeutered: yes\nActivity: moderate\n"
CAT = "Animal: Cat\nSpecies: cat\nAge: 4 years\nWeight: 4.5 kg\nNeutered: yes\nActivity: moderate\n"

# Foods as people write them, pinned so that a better search never changes the table. (words, pin)
COOKED_MEAT = [("ground beef, pan-browned", "usda:23569"), ("chicken breast, stewed", "usda:05063"), ("chicken thigh, roasted", "usda:05098"),
               ("ground turkey, cooked", "usda:05306"), ("lamb shoulder, roasted", "usda:17038"), ("pork loin, roasted", "usda:10028"),
               ("chicken, dark and light, stewed", "usda:05013")]
COOKED_FISH = [("Atlantic salmon, farmed, baked", "usda:15237"), ("cod, baked", "usda:15016"), ("tuna in water, drained", "usda:15121"),
               ("sardine in oil, drained", "usda:15088")]
STARCH = [("white rice, cooked", "usda:20045"), ("brown rice, cooked", "usda:20037"), ("potato, boiled", "usda:11367"), ("sweet potato, boiled", "usda:11510"),
          ("oatmeal, cooked", "usda:08121"), ("pasta, cooked", "usda:20121"), ("barley, cooked", "usda:20006")]
VEGETABLE = [("carrots, boiled", "usda:11125"), ("green beans, boiled", "usda:11053"), ("peas, boiled", "usda:11305"), ("broccoli, boiled", "usda:11091"),
             ("zucchini, boiled", "usda:11478"), ("pumpkin, boiled", "usda:11423"), ("spinach, boiled", "usda:11458")]
OIL = [("olive oil", "usda:04053"), ("rapeseed oil", "usda:04582"), ("sunflower oil", "usda:04506"), ("flaxseed oil", "usda:42231"),
       ("salmon oil", "usda:04593"), ("corn oil", "usda:04518")]
COOKED_LIVER = [("beef liver, pan-fried", "usda:13327"), ("chicken liver, simmered", "usda:05028")]
CALCIUM = [("ground eggshell", "ours:eggshell"), ("bone meal", "ours:bone-meal"), ("calcium carbonate", "ours:calcium-carbonate")]
RAW_MEAT = [("ground beef, 80 % lean, raw", "usda:23572"), ("lean beef, raw", "usda:13795"), ("chicken thigh with skin, raw", "usda:05091"),
            ("ground turkey, raw", "usda:05305"), ("lamb, raw", "usda:17225"), ("pork shoulder, raw", "usda:10080")]
MEATY_BONE = ["chicken wings, raw, bone-in", "chicken necks, raw, bone-in", "chicken backs, raw, bone-in", "turkey necks, raw, bone-in"]
RAW_ORGAN = [("beef liver, raw", "usda:13325"), ("chicken liver, raw", "usda:05027"), ("pork liver, raw", "usda:10110")]
RAW_SECRETING = [("beef kidney, raw", "usda:13323"), ("pork kidney, raw", "usda:10106"), ("beef spleen, raw", "usda:13333")]
RAW_OTHER = [("chicken heart, raw", "usda:05025"), ("chicken gizzard, raw", "usda:05023"), ("beef heart, raw", "usda:13321")]
RAW_VEGETABLE = [("carrots, raw", "usda:11124"), ("spinach, raw", "usda:11457"), ("apple, raw", "usda:09003"), ("broccoli, raw", "usda:11090")]
EGG, RAW_EGG, COTTAGE = ("egg, boiled", "usda:01129"), ("egg, raw", "usda:01123"), ("cottage cheese", "usda:01015")


def line(grams, food):
    words, pin = food if isinstance(food, tuple) else (food, None)
    return "%.2f g %s%s" % (grams, words, " [%s]" % pin if pin else "")


class Maker:
    """One style of recipe. Shares are of mass before the recipe is brought to the animal's energy; the odds are the typical omissions."""

    def __init__(self, rng):
        self.rng = rng

    def some(self, odds):
        return self.rng.random() < odds

    def one(self, foods):
        return self.rng.choice(foods)

    def grams(self, low, high):
        return self.rng.uniform(low, high)

    def cooked(self, cat):
        """Meat, a starch, vegetables; oil in half, an egg, liver or cheese now and then, a calcium source in two of five."""
        out = [(self.grams(250, 500) if not cat else self.grams(500, 800), self.one(COOKED_MEAT if self.some(0.85) else COOKED_FISH))]
        if self.some(0.9 if not cat else 0.6):
            out.append((self.grams(200, 450) if not cat else self.grams(60, 200), self.one(STARCH)))
        for food in self.rng.sample(VEGETABLE, self.rng.randint(1, 3) if not cat else self.rng.randint(0, 1)):
            out.append((self.grams(40, 120) if not cat else self.grams(20, 60), food))
        if self.some(0.5):
            out.append((self.grams(5, 20), self.one(OIL)))
        if self.some(0.3):
            out.append((self.grams(40, 110), EGG))
        if self.some(0.25 if not cat else 0.4):
            out.append((self.grams(20, 70), self.one(COOKED_LIVER)))
        if self.some(0.15):
            out.append((self.grams(50, 120), COTTAGE))
        if self.some(0.4):
            out.append((self.grams(3, 8), self.one(CALCIUM)))
        if self.some(0.15):
            out.append((self.grams(1, 3), ("iodised salt", "ours:salt-iodised")))
        if cat and self.some(0.4):
            out.append((self.grams(0.5, 2), ("taurine", "ours:taurine")))
        return out

    def raw(self, cat):
        """Raw meat, meaty bones in nine of ten, liver and another organ mostly, fish, egg and vegetables now and then."""
        out = [(self.grams(450, 700), self.one(RAW_MEAT))]
        if self.some(0.5):
            out.append((self.grams(50, 200), self.one(RAW_OTHER)))
        if self.some(0.9):
            out.append((self.grams(150, 350), self.one(MEATY_BONE)))
        if self.some(0.8):
            out.append((self.grams(20, 80), self.one(RAW_ORGAN)))
        if self.some(0.5):
            out.append((self.grams(20, 60), self.one(RAW_SECRETING)))
        if self.some(0.25):
            out.append((self.grams(40, 120), self.one(COOKED_FISH)))
        if self.some(0.3):
            out.append((self.grams(30, 60), RAW_EGG))
        if not cat and self.some(0.6):
            out.append((self.grams(50, 200), self.one(RAW_VEGETABLE)))
        if self.some(0.3):
            out.append((self.grams(3, 12), self.one(OIL)))
        if self.some(0.15):
            out.append((self.grams(0.2, 1), ("kelp powder", "ours:kelp-dried")))
        return out


def checked(recipes, animal, basis):
    """Answers of the program, each recipe brought to the energy that the animal is expected to need."""
    with tempfile.TemporaryDirectory() as folder:
        who = os.path.join(folder, "animal.txt")
        open(who, "w").write(animal)

        def run(scales):
            paths = []
            for i, (recipe, scale) in enumerate(zip(recipes, scales)):
                paths.append(os.path.join(folder, "%03d.recipe" % i))
                open(paths[-1], "w").write("\n".join(line(g * scale, f) for g, f in recipe) + "\n")
            done = subprocess.run([PROGRAM, "check"] + paths + ["--for", who, "--json", "--quiet", "--basis", basis], capture_output=True, text=True)
            if done.returncode != 0:
                sys.exit(done.stderr)
            return [json.loads(x) for x in done.stdout.splitlines()]

        first = run([1.0] * len(recipes))
        return run([a["energy"]["need_kcal"] / a["energy"]["supply_kcal"] for a in first])


def below(answer):
    """Keys whose known amount is under the allowance: what a survey counts, which takes a blank for nothing."""
    return {n["key"] for n in answer["nutrients"] if n["allowance"] and n["key"] not in ("energy", "vitamin_k", "biotin") and n["amount"] < n["allowance"]}


def short(answer):
    return {n["key"] for n in answer["nutrients"] if n["verdict"] == "short"}


def share(answers, count):
    return 100.0 * sum(1 for a in answers if count(a)) / len(answers)


def group(name, recipes, animal):
    return {"name": name, "energy": checked(recipes, animal, "energy"), "weight": checked(recipes, animal, "weight")}


def print_table(groups):
    keys = ["zinc", "choline", "vitamin_d", "vitamin_e", "copper", "calcium", "epa_dha", "iodine", "manganese", "iron", "thiamin", "selenium", "magnesium",
            "potassium", "phosphorus", "riboflavin", "vitamin_a", "linoleic", "b12", "folate", "protein", "taurine", "arachidonic"]
    print("| below the allowance, % of recipes | " + " | ".join("%s: per 1000 kcal | by weight | verdict short" % g["name"] for g in groups) + " |")
    print("| --- |" + " --- |" * (3 * len(groups)))
    for key in keys:
        cells = []
        for g in groups:
            judged = [n for n in g["weight"][0]["nutrients"] if n["key"] == key and n["allowance"]]
            cells += ["%.0f" % share(g["energy"], lambda a: key in below(a)), "%.0f" % share(g["weight"], lambda a: key in below(a)),
                      "%.0f" % share(g["weight"], lambda a: key in short(a))] if judged else ["-"] * 3
        print("| %s | %s |" % (key, " | ".join(cells)))
    print()
    print("| | " + " | ".join(g["name"] for g in groups) + " |")
    print("| --- |" + " --- |" * len(groups))
    rows = [("recipes", lambda a: "%d" % len(a)),
            ("one or more below, %", lambda a: "%.0f" % share(a, lambda x: len(below(x)) >= 1)),
            ("three or more below, %", lambda a: "%.0f" % share(a, lambda x: len(below(x)) >= 3)),
            ("all reached", lambda a: "%d" % sum(1 for x in a if not below(x))),
            ("calcium under a quarter of the allowance, %", lambda a: "%.0f" % share(
                a, lambda x: any(n["key"] == "calcium" and n["amount"] < 0.25 * n["allowance"] for n in x["nutrients"]))),
            ("vitamin D over its limit, %", lambda a: "%.0f" % share(
                a, lambda x: any(n["key"] == "vitamin_d" and n["verdict"] == "over" for n in x["nutrients"]))),
            ("sentences to act on or watch, mean", lambda a: "%.1f" % (sum(
                sum(1 for f in x["findings"] if f["weight"] != "know") for x in a) / len(a)))]
    for words, value in rows:
        print("| %s | %s |" % (words, " | ".join(value(g["energy"] if "sentences" not in words else g["weight"]) for g in groups)))


def main():
    make = Maker(random.Random(SEED))
    groups = [group("dog, home-cooked", [make.cooked(False) for _ in range(160)], DOG),
              group("dog, raw", [make.raw(False) for _ in range(95)], DOG),
              group("cat, home-cooked", [make.cooked(True) for _ in range(95)], CAT),
              group("cat, raw", [make.raw(True) for _ in range(50)], CAT)]
    print_table(groups)


main()
