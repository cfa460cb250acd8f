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

    def test_the_answer_says_where_the_picture_draws(self):
        """"rail" of the JSON, which the page draws, against the amounts beside it, and against the shapes of the picture."""
        seen = {"mark": 0, "low": 0, "unknown_to": 0, "minimum": 0, "limit": 0, "leanest": 0}

        def place(amount, n):
            return min(max((math.log2(amount / n["allowance"]) + 2) / 5, 0), 1) if amount else 0.0

        for path in EXAMPLES:
            checked = json.loads(run(path, *WHOM, "--json").stdout)
            root, texts = picture(path)
            need = max(x for x, _, t in texts if t == "need")
            octave = next(x for x, _, t in texts if t == "2\u00d7") - need
            shapes = [(e.tag.removeprefix(SVG), {k: float(v) for k, v in e.items() if k in ("x", "y", "width", "height", "x1", "x2", "y1", "cx", "cy", "r")},
                       e.get("fill") or "") for e in root.iter() if e.tag != SVG + "text"]
            for n in checked["nutrients"]:
                rail = n["rail"]
                if not n["allowance"]:
                    self.assertIsNone(rail, (path, n["name"]))
                    continue
                expected = {"mark": n["amount"], "low": n["low"], "high": n["high"], "minimum": n["minimum"]}
                expected["leanest"] = n["window_amount"] if n["verdict_by_window"] else None
                expected["limit"] = n["upper"] if n["upper"] is not None and n["upper"] / n["allowance"] <= 8 else None
                for key, amount in expected.items():
                    if amount is None:
                        self.assertIsNone(rail[key], (path, n["name"], key))
                    else:
                        self.assertAlmostEqual(rail[key], place(amount, n), delta=0.00026, msg=(path, n["name"], key))
                if rail["unknown_to"] is not None:
                    self.assertTrue(n["missing"], (path, n["name"]))
                    self.assertAlmostEqual(rail["unknown_to"], place(n["possible"], n), delta=0.00026)
                ratio = (n["amount"] or 0) / n["allowance"]
                self.assertEqual(rail["mark_end"], "inside" if n["amount"] is None or 0.25 <= ratio <= 8 else "below" if ratio < 1 else "above")
                self.assertEqual(rail["sure"], n["verdict"] not in ("thin", "unproven"))
                row = next((y for x, y, t in texts if t == n["name"]), None)
                if row is None:
                    continue  # without a verdict
                here = [(tag, e, fill) for tag, e, fill in shapes if abs(e.get("y1", e.get("cy", e.get("y", -99) + e.get("height", 0) / 2)) - (row - 3)) < 4.5]

                def at(share):
                    return need + (share - 0.4) * 5 * octave

                def drawn(key, x, of):
                    if rail[key] is None or (key == "mark" and rail["mark_end"] != "inside"):
                        return
                    self.assertTrue(any(abs(e.get(x, -99) - at(rail[key])) < 0.02 for tag, e, fill in here if of(tag, fill)), (path, n["name"], key))
                    seen[key] += 1

                drawn("mark", "cx", lambda tag, fill: tag == "circle")
                drawn("low", "x", lambda tag, fill: tag == "rect" and not fill.startswith("url"))
                drawn("minimum", "x1", lambda tag, fill: tag == "line")
                if rail["unknown_to"] is not None and rail["unknown_to"] > rail["unknown_from"]:
                    hatched = [e for tag, e, fill in here if tag == "rect" and fill.startswith("url(#hatch")]
                    self.assertEqual(len(hatched), 1, (path, n["name"]))
                    self.assertAlmostEqual(hatched[0]["x"], at(rail["unknown_from"]), delta=0.02)
                    seen["unknown_to"] += 1
                for key, tip in (("limit", 1.2), ("leanest", 2.4)):  # from the place, as the marks are drawn
                    if rail[key] is not None:
                        self.assertTrue(any(abs(e.get("x2", -99) - at(rail[key]) - tip) < 0.02 for tag, e, _ in here if tag == "line"), (path, n["name"], key))
                        seen[key] += 1
        self.assertGreater(min(seen.values()), 0, seen)
        self.assertGreater(seen["mark"], 200)

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
