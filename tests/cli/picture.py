"""Pictures against `check --json`: marks stand where the picture's own scale says, bars are as long as the shares, and the words for those who
cannot see it hold every nutrient. The reader is a parser of XML. Usage: picture.py BUILD_DIR SOURCE_DIR"""
import glob
import json
import math
import os
import subprocess
import sys
import tempfile
import unittest
import xml.etree.ElementTree as xml

build, source = sys.argv[1:3]
program = os.path.join(build, "bowlwright")
SVG = "{http://www.w3.org/2000/svg}"
WHOM = ["--for", os.path.join(source, "examples/saltmarsh.animals")]
EXAMPLES = sorted(glob.glob(os.path.join(source, "examples/*.recipe")))


def run(*words, code=0):
    done = subprocess.run([program, "check", *words, "--quiet"], capture_output=True, text=True, timeout=120)
    assert done.returncode == code, (words, done.returncode, done.stderr)
    return done


def picture(path, *more):
    root = xml.fromstring(run(path, *WHOM, *more, "--svg", "-").stdout)
    texts = [(float(t.get("x")), float(t.get("y")), t.text) for t in root.iter(SVG + "text")]
    return root, texts


class Pictures(unittest.TestCase):
    def test_marks_stand_on_the_scale(self):
        seen = 0
        for path in EXAMPLES:
            checked = json.loads(run(path, *WHOM, "--json").stdout)
            root, texts = picture(path)
            scale = {t: x for x, _, t in texts if t in ("need", "2\u00d7", "8\u00d7")}
            need = max(x for x, _, t in texts if t == "need")  # the other one is the word before the band of energy
            octave = scale["2\u00d7"] - need
            self.assertAlmostEqual(scale["8\u00d7"] - need, 3 * octave, places=1)
            discs = [(float(c.get("cx")), float(c.get("cy"))) for c in root.iter(SVG + "circle") if float(c.get("r", 0)) > 2]
            for n in checked["nutrients"]:
                if not n["allowance"] or n["amount"] is None or n["verdict"] == "no figure":
                    continue
                ratio = n["amount"] / n["allowance"]
                y = next(y for x, y, t in texts if t == n["name"])
                here = [x for x, cy in discs if abs(cy - (y - 3)) < 4]
                if not 0.25 <= ratio <= 8:
                    self.assertEqual(here, [], (path, n["name"]))
                    continue
                self.assertEqual(len(here), 1, (path, n["name"]))
                self.assertAlmostEqual(here[0], need + math.log2(ratio) * octave, delta=0.3, msg=(path, n["name"]))
                seen += 1
        self.assertGreater(seen, 200)

    def test_bars_are_the_shares(self):
        for path in EXAMPLES:
            checked = json.loads(run(path, *WHOM, "--json").stdout)
            zinc = next(n for n in checked["nutrients"] if n["key"] == "zinc")
            root, _ = picture(path, "--why", "zinc")
            bars = [float(r.get("width")) for r in root.iter(SVG + "rect") if r.get("height") == "14"]
            shares = [f["share"] for f in zinc["from"]]
            self.assertAlmostEqual(sum(bars), 608, delta=3)
            for bar, share in zip(bars, shares[:7]):
                self.assertAlmostEqual(bar / 608, share, delta=0.005, msg=path)

    def test_words_for_those_who_cannot_see_it(self):
        for path in EXAMPLES:
            checked = json.loads(run(path, *WHOM, "--json").stdout)
            root, _ = picture(path)
            self.assertEqual(root.get("role"), "img")
            title = root.find(SVG + "title")
            self.assertEqual(root.get("aria-labelledby"), title.get("id"))
            told = title.text.lower()
            for n in checked["nutrients"]:
                if n["verdict"] != "no figure":
                    self.assertIn(n["name"].lower(), told)

    def test_files_and_wrong_uses(self):
        with tempfile.TemporaryDirectory() as folder:
            out = os.path.join(folder, "bowl.svg")
            run(EXAMPLES[0], *WHOM, "--svg", out)
            self.assertEqual(xml.parse(out).getroot().tag, SVG + "svg")
            self.assertEqual(os.listdir(folder), ["bowl.svg"])
            self.assertIn("one recipe", run(EXAMPLES[0], EXAMPLES[1], *WHOM, "--svg", out, code=2).stderr)
            self.assertIn("folder", run(os.path.join(source, "examples"), *WHOM, "--svg", out, code=2).stderr)
            self.assertIn("disk is full", run(EXAMPLES[0], *WHOM, "--svg", "/dev/full", code=6).stderr)
            recipe = os.path.join(folder, "r.recipe")
            with open(recipe, "w", encoding="utf-8") as f:
                f.write("Recipe: <b>&\"\u202e\nDog: 18 kg\n\n100 g lamb heart, raw\n")
            self.assertIn("made from", run(recipe, "--svg", recipe, code=2).stderr)
            run(recipe, "--svg", out)
            self.assertIn("<b>&\"", "".join(t.text or "" for t in xml.parse(out).getroot().iter(SVG + "text")))


if __name__ == "__main__":
    unittest.main(argv=sys.argv[:1])
