"""Texts and file names that would command a terminal, turn the direction of what stands beside them, or be markup: on no surface do they
come through as more than letters. Usage: hostile.py BUILD_DIR

The characters are those of Unicode's Bidi_Control property and of ECMA-48's C0 and C1 sets; U+009B begins a command as ESC [ does."""
import os
import re
import subprocess
import sys
import tempfile
import unittest
import xml.etree.ElementTree as xml

build = os.path.abspath(sys.argv[1])
ENVIRONMENT = {**os.environ, "BOWLWRIGHT_TODAY": "2026-11-02", "LC_ALL": "C.UTF-8"}
TURNS = "\u202e\u202d\u202a\u2066\u2067\u2028\u2029"
MARKUP = "<script>alert(1)</script><img src=x onerror=alert(1)> \"q\" 'a' &amp; ]]> -->"
EVIL = "x " + TURNS + " " + MARKUP
COMMANDS = "\x1b[2J\x1b]0;taken\x07\x9b31m\x85\x7f\b"
OBEYED = re.compile("[\x00-\x08\x0b-\x1f\x7f-\x9f\u2028-\u202e\u2066-\u2069]")
NAMED = COMMANDS.replace("/", "") + TURNS + "<b>.recipe"
FOODS = "Food: kibble %s\nPer: 100 g\nEnergy: 350 kcal\nProtein: 20 g\nFat: 10 g\nCalcium: 1 g\nWater: 8 g\n"
RECIPE = "Recipe: Bowl %s\nFor: Juniper %s\nMakes: 2 days\nNote: note %s\n\n300 g lamb shoulder, raw\n50 g kibble %s, daily\n"
POST = "Hello %s\nJuniper %s, 18 kg dog, gets\n200 g lean ground beef\n1 cup %s rice\n30 g zorbl %s\n1 scoop %s\n"
ANIMAL = "Animal: Juniper %s\nSpecies: dog\nAge: 6 years\nWeight: 18 kg\n"


class Hostile(unittest.TestCase):
    @classmethod
    def setUpClass(cls):
        cls.scratch = tempfile.TemporaryDirectory()
        for name, text in (("a.animals", ANIMAL), ("b.recipe", RECIPE), (NAMED, RECIPE), ("k.foods", FOODS), ("p.txt", POST)):
            cls.write(name, text.replace("%s", EVIL))
        cls.write("refused.recipe", RECIPE.replace("%s", EVIL + COMMANDS))
        cls.write("diary.journal", "2026-11-02 %s weighs 18 kg\n2026-11-03 nonsense %s\n".replace("%s", EVIL))

    @classmethod
    def tearDownClass(cls):
        cls.scratch.cleanup()

    @classmethod
    def write(cls, name, text):
        with open(os.path.join(cls.scratch.name, name), "w", encoding="utf-8") as f:
            f.write(text)

    def run_it(self, *command, codes=(0, 1, 3, 4, 5)):
        done = subprocess.run([os.path.join(build, "bowlwright"), *command], cwd=self.scratch.name, env=ENVIRONMENT,
                              stdin=subprocess.DEVNULL, capture_output=True, timeout=600)
        out, err = done.stdout.decode("utf-8"), done.stderr.decode("utf-8")  # always whole characters
        self.assertIn(done.returncode, codes, (command, err))
        self.assertNotIn("Sanitizer", err)
        return out, err

    def is_harmless(self, text, command):
        found = OBEYED.search(text)
        self.assertIsNone(found, (command, found and text[max(0, found.start() - 60):found.end() + 20]))

    def test_a_terminal_is_told_nothing(self):
        known = ["--for", "a.animals", "--foods", "k.foods"]
        soon = ["--patience", "0.5"]
        for command in (["check", "b.recipe", *known], ["check", "b.recipe", "--for", "a.animals"], ["check", NAMED, *known],
                        ["check", NAMED, *known, "--why", "zinc"], ["mend", "b.recipe", *known, *soon], ["side", "b.recipe", NAMED, *known],
                        ["reply", "b.recipe", *known], ["reply", "p.txt", "--posted", *soon], ["reply", "p.txt", "--posted", "--lines", "6", *soon],
                        ["reply", "p.txt", "--posted", "--full", *soon], ["reply", "p.txt", "--posted", "--plain", *soon], ["check", "p.txt", "--posted"],
                        ["need", "--for", "a.animals"], ["foods", "kibble", "--foods", "k.foods"], ["food", "kibble " + EVIL, "--foods", "k.foods"],
                        ["week", "b.recipe", *known], ["slim", "b.recipe", *known], ["swap", "b.recipe", "1", *known], ["journal", "diary.journal"],
                        ["check", "refused.recipe", *known], ["check", "refused.recipe", "--posted", "--dog", "18kg"],
                        ["check", ".", *known, "--out", "answers"], ["food", "lamb" + EVIL], ["foods", EVIL]):
            for text in self.run_it(*command):
                self.is_harmless(text, command)

    def test_what_was_typed_is_quoted_and_not_obeyed(self):
        typed = EVIL + COMMANDS
        for command in ([typed], ["check", "--" + typed], ["check", typed], ["check", "b.recipe", "--for", typed], ["check", "b.recipe", "--library", typed],
                        ["check", "b.recipe", "--dog", typed], ["check", "b.recipe", "--dog", "18kg", "--why", typed], ["reply", "p.txt", "--posted", "--lines", typed],
                        ["serve", "--store", typed, "--listen", typed], ["mend", "b.recipe", "--dog", "18kg", "--patience", "0.5", "--never", typed], ["library", typed]):
            out, err = self.run_it(*command, codes=(0, 1, 2, 3, 4, 5, 6))
            self.is_harmless(out, command)
            self.is_harmless(err, command)

    def test_names_that_are_no_text(self):
        name = b"\xff\x9b31m\xc3.recipe"
        done = subprocess.run([os.path.join(build, "bowlwright").encode(), b"check", name], cwd=self.scratch.name, env=ENVIRONMENT, capture_output=True)
        self.assertEqual((done.returncode, done.stdout), (6, b""))
        self.assertIn(b"'??31m?.recipe'", done.stderr)

    def test_markup_stays_letters(self):
        self.run_it("check", "b.recipe", "--for", "a.animals", "--foods", "k.foods", "--svg", "o.svg")
        self.run_it("sheet", "b.recipe", "--for", "a.animals", "--foods", "k.foods", "--out", "o.html")
        for name in ("o.svg", "o.html"):
            with open(os.path.join(self.scratch.name, name), encoding="utf-8") as f:
                text = f.read()
            self.assertNotRegex(text, "[\u202a-\u202e]")
            self.assertNotIn("<script", text)
            self.assertNotIn("<img", text)
            self.assertIn("&lt;script&gt;alert(1)", text)
            if name == "o.svg":
                words = "".join(xml.fromstring(text).itertext())
                self.assertIn("<script>alert(1)", words)


if __name__ == "__main__":
    unittest.main(argv=sys.argv[:1])
