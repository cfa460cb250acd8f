"""What people copy from a drawn answer of mend, compose and week --rotate, at the narrowest width, reads again and means what
the text in JSON means: half a line may read as another one."""

import json
import os
import subprocess
import sys
import tempfile
import unittest

BUILD, SOURCE = sys.argv[1:3]
PROGRAM = os.path.join(BUILD, "bowlwright")
ENVIRONMENT = {k: v for k, v in os.environ.items() if not k.startswith("BOWLWRIGHT")}
ENVIRONMENT["LC_ALL"] = "C.UTF-8"
JUNIPER = os.path.join(SOURCE, "examples", "saltmarsh.animals") + ":Juniper"
LARDER = os.path.join(SOURCE, "examples", "chest-freezer.larder")

MINCE = """Food: Mystery mince
Part: muscle
Per: 100 g
Energy: 200 kcal
Protein: 18 g
Fat: 14 g
"""

LAMB = """Recipe: C
500 g lamb shoulder, lean, raw
40 g lamb liver
54 g cooked mussels
100 g spinach
2 tablets calcium 500 mg + D3 [ours:calcium-d3]
1 1/2 capsules choline 250 mg [ours:choline-bitartrate]
"""
CHICKEN = """Recipe: D
400 g chicken thigh, raw, skinless
150 g sweet potato, boiled
3 tablets iodine 225 µg [ours:potassium-iodide]
1 tablet trace minerals, iron 14 mg [ours:trace-minerals]
2 tablets calcium 500 mg + D3 [ours:calcium-d3]
1 capsule natural vitamin E 200 IU [ours:vitamin-e-natural]
2 capsules choline 250 mg [ours:choline-bitartrate]
0.7 g iodised salt
1 can sardines in oil, drained
2 tsp hemp seed
1 tablet magnesium 100 mg
"""


def run(*arguments, text=None):
    done = subprocess.run([PROGRAM, *arguments], input=text and text.encode(), capture_output=True, env=ENVIRONMENT)
    assert done.returncode in (0, 1, 5), (arguments, done.returncode, done.stderr.decode())
    return done.stdout.decode("utf-8")


def section(drawn, title):
    """The lines from the heading on to the next heading."""
    lines = drawn.split("\n")
    at = next(i for i, line in enumerate(lines) if line.startswith("  " + title))
    end = next((i for i in range(at + 1, len(lines)) if "────" in lines[i] or "----" in lines[i]), len(lines))
    return lines[at + 1 : end]


def said(text):
    """What the lines say, without remarks and what a space makes of the look."""
    lines = (line.split(" #")[0].strip() for line in text.split("\n"))
    return [line for line in lines if line and not line.startswith("#")]


def meant(text, *more):
    """Amounts of each nutrient, and the food and energy of a day, as check reads the text."""
    answer = json.loads(run("check", "-", "--dog", "18kg", "--json", *more, text=text))
    return answer["nutrients"], answer["energy"], [line["food"] for line in answer["recipe"]["lines"]]


class Kept(unittest.TestCase):
    maxDiff = None

    def setUp(self):
        self.folder = tempfile.TemporaryDirectory()
        self.addCleanup(self.folder.cleanup)

    def write(self, name, text):
        path = os.path.join(self.folder.name, name)
        with open(path, "w", encoding="utf-8") as file:
            file.write(text)
        return path

    def test_the_mended_text(self):
        foods = self.write("mince.foods", MINCE)
        ask = ["mend", self.write("mince.txt", "300 g mystery mince\n"), "--dog", "18kg", "--foods", foods,
               "--patience", "900"]  # it ends by itself in a second; under sanitizers later
        wanted = json.loads(run(*ask, "--json"))["text"]
        self.assertTrue(any(len(line) > 60 for line in said(wanted)))  # else nothing could have been cut
        for width in "60", "80":
            lines = section(run(*ask, "--width", width), "The new text")
            lines = lines[len(lines) - 1 - lines[-2::-1].index("") :]  # behind the sentences
            copied = "\n".join(line[4:] for line in lines if not line.startswith("  - "))
            self.assertEqual(said(copied), said(wanted))
            self.assertEqual(meant(copied, "--foods", foods), meant(wanted, "--foods", foods))

    def test_the_composed_text(self):
        ask = ["compose", LARDER, "--for", JUNIPER]
        wanted = json.loads(run(*ask, "--json"))["text"]
        drawn = run(*ask, "--width", "60").split("\n")
        at = drawn.index("  " + wanted.split("\n")[0])
        copied = "\n".join(drawn[at : at + wanted.rstrip("\n").count("\n") + 1])
        self.assertEqual(said(copied), said(wanted))
        self.assertEqual(meant(copied), meant(wanted))

    def test_the_plan_of_a_rotation(self):
        ask = ["week", self.write("c.recipe", LAMB), self.write("d.recipe", CHICKEN), "--rotate", "--for", JUNIPER]
        wanted = json.loads(run(*ask, "--json"))["plan"]
        self.assertTrue(any(len(line) > 54 for line in said(wanted)))
        lines = section(run(*ask, "--width", "60"), "As a plan")
        copied = "\n".join(line[4:] for line in lines[: lines.index("")]) + "\n"
        self.assertEqual(said(copied), said(wanted))
        read = [run("week", self.write("kept.plan", plan), "--for", JUNIPER, "--json") for plan in (copied, wanted)]
        self.assertEqual(*read)


if __name__ == "__main__":
    unittest.main(argv=sys.argv[:1])
