"""Whole answers as a person sees them, at several widths and in every style, against tests/golden: the real program reads a text,
computes with the real library and draws. Nothing is filled in by hand, so that what is drawn here is what the judge can answer.
After a wanted change BW_GOLDEN_WRITE=1 writes the texts anew; read the difference before it is kept.
Usage: drawn.py BUILD_DIR SOURCE_DIR"""
import os
import pty
import re
import subprocess
import sys
import unittest

from apart import apart

build, source = os.path.abspath(sys.argv.pop(1)), os.path.abspath(sys.argv.pop(1))
PROGRAM = os.path.join(build, "bowlwright")
ENVIRONMENT = {**os.environ, "LC_ALL": "C.UTF-8", "TERM": "xterm", "BOWLWRIGHT_TODAY": "2026-11-02"}
for name in ("NO_COLOR", "COLUMNS"):
    ENVIRONMENT.pop(name, None)
QUIETLY = ("check", "week", "side")  # warnings about the text go elsewhere
# Of the library: a count, a share, a size; not a year or a release.
FIGURE = r"(?<=[ <(])[0-9][0-9.]*(?= +<?[0-9]+ %| %| (foods|values|figures|classes|nutrients|MB|of [0-9]+ classes)\b)"
JUNIPER = ["examples/weeknight-bowl.recipe", "--for", "Juniper"]
DANGER = "Recipe: What the children dropped\n\n250 g beef mince, 90% lean\n6 g raisins\n1 clove garlic\n"
PREGNANT = "Animal: Wren\nSpecies: dog\nAge: 3 years\nWeight: 14 kg\nStatus: pregnant\n"


def drawn(*words, text=None, refused=False, verb="check"):
    done = subprocess.run([PROGRAM, verb, *words, *(["--quiet"] if verb in QUIETLY else [])], cwd=source, env=ENVIRONMENT, input=text, capture_output=True,
                          encoding="utf-8", timeout=120)
    assert done.returncode == (4 if refused else 0), (words, done.returncode, done.stderr)
    return done.stdout


def on_a_terminal(*words):
    """Colour is for terminals only: the answer goes to one."""
    ours, its = pty.openpty()
    child = subprocess.Popen([PROGRAM, "check", *words, "--quiet"], cwd=source, env=ENVIRONMENT, stdin=subprocess.DEVNULL, stdout=its)
    os.close(its)
    parts = []
    while True:
        try:
            part = os.read(ours, 65536)
        except OSError:  # the other end is closed
            break
        if not part:
            break
        parts.append(part)
    os.close(ours)
    assert child.wait(timeout=120) == 0, words
    return b"".join(parts).decode().replace("\r\n", "\n")


class Drawn(unittest.TestCase):
    maxDiff = None

    def golden(self, name, text):
        path = os.path.join(source, "tests", "golden", name + ".txt")
        if os.environ.get("BW_GOLDEN_WRITE"):
            with open(path, "w", encoding="utf-8") as f:
                f.write(text)
        with open(path, encoding="utf-8") as f:
            self.assertEqual(f.read(), text, name)

    def test_a_bowl_with_faults_in_every_style(self):
        self.golden("check-60", drawn(*JUNIPER, "--width", "60"))
        self.golden("check-80", drawn(*JUNIPER, "--width", "80"))
        self.golden("check-110", drawn(*JUNIPER, "--width", "110"))
        self.golden("check-80-plain", drawn(*JUNIPER, "--width", "80", "--plain"))
        self.golden("check-60-plain-all", drawn(*JUNIPER, "--width", "60", "--plain", "--all"))
        self.golden("check-120-all", drawn("examples/garden-stew.recipe", "--for", "Moss", "--width", "120", "--all"))
        self.golden("check-100-colour", on_a_terminal(*JUNIPER, "--width", "100"))

    def test_colour_changes_nothing_but_colour(self):
        text, at = on_a_terminal(*JUNIPER, "--width", "100"), 0
        self.assertIn("\x1b[", text)
        while "\x1b[" in text:
            at = text.index("\x1b[")
            text = text[:at] + text[text.index("m", at) + 1:]
        self.assertEqual(text, drawn(*JUNIPER, "--width", "100"))

    def test_a_bowl_that_meets_everything(self):
        self.golden("check-met", drawn("examples/rice-pot-mended.recipe", "--for", "Juniper", "--width", "80"))

    def test_a_dangerous_bowl(self):
        text = drawn("-", "--dog", "18kg", "--width", "80", text=DANGER)
        self.golden("check-danger", text)
        self.assertLess(text.index("Stop:"), text.index("kcal"))

    def test_a_refused_animal(self):
        with apart(".animals", PREGNANT) as animals:
            text = drawn("examples/eighty-ten-ten.recipe", "--for", animals + ":Wren", "--width", "80", refused=True)
        self.golden("check-refused", text)
        # Kind words come before any figure, and no verdict, rail or allowance appears.
        self.assertLess(text.index("Ask a veterinarian"), text.index("kcal"))
        self.assertNotIn("┃", text)
        self.assertNotIn("short", text)

    def test_no_animal(self):
        self.golden("check-no-animal", drawn("-", "--width", "80", text="300 g lamb shoulder, raw\n20 g lamb liver\n"))

    def at_two_widths(self, name, verb, *words):
        for width in ("60", "100"):
            self.golden(f"{name}-{width}", drawn(*words, "--width", width, verb=verb))

    def test_needs(self):
        self.at_two_widths("need", "need", "examples/saltmarsh.animals:Juniper")
        self.golden("need-100-all", drawn("--cat", "4.6kg", "--width", "100", "--all", verb="need"))

    def test_records(self):
        self.at_two_widths("foods", "foods", "goose")
        self.at_two_widths("foods-none", "foods", "unicorn")
        self.at_two_widths("food", "food", "cut:duck-neck")

    def test_ways_to_cook(self):
        self.at_two_widths("side-cooked", "side", "examples/rice-pot.recipe", "--cooked", "--for", "Juniper")

    def test_days(self):
        self.at_two_widths("week", "week", "examples/november.plan", "--for", "Juniper")

    def test_a_rotation(self):
        bowls = ["examples/weeknight-bowl.recipe", "examples/rice-pot-mended.recipe", "examples/eighty-ten-ten.recipe"]
        self.at_two_widths("rotate", "week", "--rotate", *bowls, "--for", "Juniper")

    def test_a_ratio(self):
        self.at_two_widths("check-ratio", "check", "examples/eighty-ten-ten.recipe", "--for", "Moss", "--ratio", "80:10:10")

    def test_the_library(self):
        """Its figures grow with every record: here they are nines, and that they add up is seen beside it."""
        for width in ("60", "100"):
            text = drawn("--width", width, verb="library")
            self.golden(f"library-{width}", re.sub(FIGURE, lambda m: re.sub("[0-9]", "9", m[0]), text))
            whole = int(re.search(r"The food library: (\d+) foods", text)[1])
            for part, count in (("Foods by source", whole), ("Foods by part", whole), ("How values are known", None)):
                head, *lines = text[text.index(part):].split("\n\n")[0].splitlines()
                said = re.search(r"(\d+) (foods|values)$", head)
                rows = re.findall(r"^  \S.*? (\d+) +<?\d+ %", "\n".join(lines), re.M)
                self.assertEqual(sum(int(n) for n in rows), count or int(said[1]), part)


unittest.main()
