"""Pictures against `check --json`: marks stand where the picture's own scale says, bars are as long as the shares, and the words for those who
cannot see it hold every nutrient. The reader is a parser of XML. Usage: picture.py BUILD_DIR SOURCE_DIR"""
import glob
import json
import math
import os
import re
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


def run_sheet(path, *more):
    done = subprocess.run([program, "sheet", path, *WHOM, *more, "--quiet"], capture_output=True, text=True, timeout=120)
    assert done.returncode == 0, (path, done.stderr)
    return done.stdout


def cell(place, cells):
    return math.floor(place * cells + 0.5)


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

    def test_the_ribbon_is_one(self):
        """Energy: the places of the answer against its own kcal, and the same places and words in every drawing of it."""
        for path in EXAMPLES:
            energy = json.loads(run(path, *WHOM, "--json").stdout)["energy"]
            ribbon, parts = energy["ribbon"], energy["ribbon"]["parts"]
            self.assertAlmostEqual(ribbon["top_kcal"], max(energy["need_high_kcal"], energy["supply_kcal"]), places=6)
            for place, kcal in (("need", "need_kcal"), ("need_low", "need_low_kcal"), ("need_high", "need_high_kcal"), ("bowl", "supply_kcal")):
                self.assertAlmostEqual(ribbon[place], energy[kcal] / ribbon["top_kcal"], places=8, msg=(path, place))
            self.assertIsNone(ribbon["most_eaten"])  # a handle is on the page only
            done = 0
            for part, (key, share) in zip(parts, [(k, s) for k, s in energy["share"].items() if s], strict=True):
                self.assertEqual(part["key"], key)
                self.assertAlmostEqual(part["from"], done * ribbon["bowl"], places=8)
                done += share
                self.assertAlmostEqual(part["to"], done * ribbon["bowl"], places=8)
                self.assertIn(part["words"], ribbon["says"])
                self.assertIn(f"{round(100 * share)} %" if 0.01 <= share <= 0.99 else key, part["words"])
            words = [ribbon["need_words"], ribbon["bowl_words"], *(p["words"] for p in parts)]
            # The picture, and the page to print: the same shapes on lines of their own lengths.
            root, texts = picture(path)
            self.drawn_ribbon(root, texts, ribbon, words, 640 - 32, 16)
            page = run_sheet(path)
            sheet = next(xml.fromstring(x) for x in re.findall(r"<svg.*?</svg>", page, re.S) if ">Energy" in x)
            self.assertIn(ribbon["says"], "".join(sheet.itertext()))
            bare = [(float(t.get("x")), float(t.get("y")), t.text) for t in sheet.iter() if t.tag.endswith("text")]
            self.drawn_ribbon(sheet, bare, ribbon, words, 480, 0)
            # The terminal: cells.
            cells = 80 - 2 - 8 - 12 - 1
            lines = run(path, *WHOM).stdout.splitlines()
            bowl = next(l for l in lines if l.startswith("  bowl  "))
            for glyph, part in zip("\u2588\u2593\u2592", parts):
                self.assertEqual(bowl.count(glyph), cell(part["to"], cells) - cell(part["from"], cells), (path, part["key"]))
            self.assertEqual(bowl.index("\u25cf"), 8 + cell(ribbon["bowl"], cells))
            need = next(l for l in lines if l.startswith("  need  "))
            self.assertEqual((need.index("\u2501"), need.rindex("\u2501")), tuple(8 + cell(ribbon[k], cells) for k in ("need_low", "need_high")))
            for of in words:
                self.assertIn(of, "\n".join(lines))

    def drawn_ribbon(self, root, texts, ribbon, words, width, edge):
        left, room = edge + 34, width - 34 - 58
        bars = [(float(r.get("x")), float(r.get("width"))) for r in root.iter() if r.tag.endswith("rect") and r.get("height") == "14"]
        self.assertEqual(len(bars), len(ribbon["parts"]))
        for (x, wide), part in zip(bars, ribbon["parts"]):
            self.assertAlmostEqual(x, left + part["from"] * room, delta=0.02)
            self.assertAlmostEqual(wide, (part["to"] - part["from"]) * room, delta=0.02)
        band = next(r for r in root.iter() if r.tag.endswith("rect") and r.get("height") == "12")
        self.assertAlmostEqual(float(band.get("x")), left + ribbon["need_low"] * room, delta=0.02)
        self.assertAlmostEqual(float(band.get("x")) + float(band.get("width")), left + ribbon["need_high"] * room, delta=0.02)
        likely = [e for e in root.iter() if e.tag.endswith("line") and e.get("stroke-width") == "1.6"][0]
        self.assertAlmostEqual(float(likely.get("x1")), left + ribbon["need"] * room, delta=0.02)
        self.assertAlmostEqual(next(x for x, _, t in texts if t == ribbon["bowl_words"]), left + ribbon["bowl"] * room + 4, delta=0.02)
        for of in words:
            self.assertIn(of, [t for _, _, t in texts])

    def test_the_ribbon_on_paper(self):
        """Where the words of the bowl's bar stand on paper, by a reader of PDF, against the answer's place."""
        for path in EXAMPLES:
            ribbon = json.loads(run(path, *WHOM, "--json").stdout)["energy"]["ribbon"]
            with tempfile.TemporaryDirectory() as folder:
                out = os.path.join(folder, "sheet.pdf")
                done = subprocess.run([program, "sheet", path, *WHOM, "--out", out, "--quiet"], capture_output=True, text=True, timeout=120)
                if "writes PDF" in done.stderr:
                    self.skipTest("this program makes no paper")
                self.assertEqual(done.returncode, 0, done.stderr)
                box = subprocess.run(["pdftotext", "-bbox", "-f", "1", "-l", "1", out, "-"], capture_output=True, text=True, timeout=120).stdout
            found = [(float(x), float(y), w) for x, y, w in re.findall(r'<word xMin="([\d.]+)" yMin="([\d.]+)"[^>]*>([^<]*)<', box)]
            row = next((x, y) for x, y, w in found if w == "bowl" and any(w2 == "need" and abs(x2 - x) < 1 and 0 < y - y2 < 40 for x2, y2, w2 in found))
            kcal = next(x for x, y, w in found if w == ribbon["bowl_words"].split()[0] and abs(y - row[1]) < 2)
            self.assertAlmostEqual(kcal - row[0], 34 + ribbon["bowl"] * (480 - 92) + 4, delta=3, msg=path)
            text = [w for _, _, w in found]
            for part in ribbon["parts"]:
                for word in part["words"].split():
                    self.assertIn(word, text)

    def test_suppliers_are_one(self):
        """Who supplies a nutrient: the places of the answer against its shares and the need, and the same in picture and terminal."""
        short = 0
        for path in EXAMPLES:
            checked = json.loads(run(path, *WHOM, "--json").stdout)
            for n in checked["nutrients"]:
                supply = n["supply"]
                if not n["from"]:
                    self.assertIsNone(supply)
                    continue
                top = max(n["amount"], n["allowance"] or 0)
                self.assertLessEqual(len(supply["pieces"]), 8)
                done = 0
                for i, piece in enumerate(supply["pieces"]):
                    last = i + 1 == len(supply["pieces"]) and len(n["from"]) > 8
                    done += sum(f["share"] for f in n["from"][i:]) if last else n["from"][i]["share"]
                    self.assertAlmostEqual(piece["to"], done * n["amount"] / top, places=6, msg=(path, n["key"]))
                    self.assertIn(piece["words"], supply["says"])
                self.assertEqual(supply["need"] is None, not n["allowance"])  # 0: nothing needed
                if n["allowance"]:
                    self.assertAlmostEqual(supply["need"], n["allowance"] / top, places=6)
                self.assertEqual(bool(supply["gap"]), bool(n["allowance"]) and n["amount"] < n["allowance"])
                short += bool(supply["gap"])
            for n in checked["nutrients"]:
                if n["key"] not in ("zinc", "calcium", "vitamin_e") or not n["supply"]:
                    continue
                supply = n["supply"]
                root, texts = picture(path, "--why", n["key"])
                bars = [(float(r.get("x")), float(r.get("width"))) for r in root.iter(SVG + "rect") if r.get("height") == "14"]
                shown, done = run(path, *WHOM, "--why", n["key"]).stdout, 0
                cells = 80 - 4 - 1
                bar = next(l for l in shown.splitlines() if l.startswith("  \u2588"))
                for (x, wide), piece in zip(bars, supply["pieces"], strict=True):
                    self.assertAlmostEqual(x, 16 + done * 608, delta=0.02, msg=path)
                    self.assertAlmostEqual(x + wide, 16 + piece["to"] * 608, delta=0.02, msg=path)
                    self.assertIn(piece["words"], [t for _, _, t in texts])
                    self.assertIn(piece["words"][:40], shown)
                    done = piece["to"]
                fills = [i for i, c in enumerate(bar) if c in "\u2588\u2593\u2592\u2591"]
                self.assertLessEqual(abs(fills[-1] + 1 - 2 - cell(done, cells)), 1, (path, bar))  # the line of the need may stand on the last
                self.assertEqual(bar.index("\u2503") if "\u2503" in bar else None, 2 + cell(supply["need"], cells))
        self.assertGreater(short, 10)

    def test_suppliers_on_a_sheet(self):
        """HTML and paper draw the same bar as --svg does, with the same words."""
        path = EXAMPLES[0]
        checked = json.loads(run(path, *WHOM, "--json").stdout)
        supply = next(n["supply"] for n in checked["nutrients"] if n["key"] == "zinc")
        self.assertNotIn("Who supplies it", run_sheet(path))
        page = run_sheet(path, "--why", "zinc")
        drawn = next(xml.fromstring(x) for x in re.findall(r"<svg.*?</svg>", page, re.S) if "Where the zinc comes from" in x)
        self.assertIn(supply["says"], "".join(drawn.itertext()))
        bars = [(float(r.get("x")), float(r.get("width"))) for r in drawn.iter() if r.tag.endswith("rect") and r.get("height") == "14"]
        done = 0
        for (x, wide), piece in zip(bars, supply["pieces"], strict=True):
            self.assertAlmostEqual(x, done * 480, delta=0.02)
            self.assertAlmostEqual(x + wide, piece["to"] * 480, delta=0.02)
            done = piece["to"]
        with tempfile.TemporaryDirectory() as folder:
            out = os.path.join(folder, "sheet.pdf")
            done = subprocess.run([program, "sheet", path, *WHOM, "--why", "zinc", "--out", out, "--quiet"], capture_output=True, text=True, timeout=120)
            if done.returncode == 0:
                told = " ".join(subprocess.run(["pdftotext", out, "-"], capture_output=True, text=True, timeout=120).stdout.split())
                for piece in supply["pieces"]:
                    self.assertIn(piece["words"], told)
            else:
                self.assertIn("writes PDF", done.stderr)  # without cairo and pango
        wrong = subprocess.run([program, "sheet", path, *WHOM, "--why", "zinck"], capture_output=True, text=True, timeout=120)
        self.assertEqual((wrong.returncode, "zinc" in wrong.stderr), (2, True))

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
