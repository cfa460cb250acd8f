"""The sheet as PDF, read back by poppler: the same words in the same order as `sheet --json` tells, every font embedded, nothing beyond
the margins, the paper's size, tags, the same bytes for the same sheet. Usage: pdf.py BUILD_DIR SOURCE_DIR"""
import json
import os
import re
import subprocess
import sys
import tempfile
import unittest

build, source = sys.argv[1:3]
LAMB = "300 g lamb heart, raw\n20 g lamb liver, raw\n"
EXAMPLE = lambda name: os.path.join(source, "examples", name)
WHOM = ["--for", EXAMPLE("saltmarsh.animals")]
KINDS = {
    "bowl": ([EXAMPLE("weeknight-bowl.recipe"), *WHOM, "--larder", EXAMPLE("chest-freezer.larder")], None),
    "pot": ([EXAMPLE("rice-pot.recipe"), *WHOM, "--days", "10"], None),
    "cat": ([EXAMPLE("pims-plate.recipe"), *WHOM], None),
    "posted": (["--posted", EXAMPLE("posted.txt"), "--dog", "18"], None),
    "danger": (["-"], f"Recipe: Bad\nDog: 18 kg\n\n{LAMB}30 g raisins\n200 g chicken wings, roasted\n"),
    "pup": (["-"], f"Recipe: Pup\nDog: 6 kg, 5 months\n\n{LAMB}"),
    "nobody": (["-"], f"Recipe: Nobody's\n\n{LAMB}"),
    "two hundred": (["-"], "Recipe: Long\nDog: 18 kg\n\n" + "".join(f"{i + 1} g lamb heart, raw\n" for i in range(200))),
    "uncounted": (["-"], f"Recipe: U\nDog: 18 kg\n\n{LAMB}? 1 scoop of a multivitamin\n"),
}
SIZES = {(): (595.276, 841.89), ("--paper", "letter"): (612, 792), ("--large",): (595.276, 841.89),
         ("--large", "--paper", "letter", "--units", "us"): (612, 792)}


def run(words, text=None, codes=(0, 4), program="bowlwright"):
    done = subprocess.run([os.path.join(build, program), "sheet", *words], capture_output=True, timeout=300,
                          input=None if text is None else text.encode(), env={**os.environ, "BOWLWRIGHT_TODAY": "2026-11-28"})
    assert done.returncode in codes, (words, done.returncode, done.stderr.decode())
    return done


def tool(*words):
    return subprocess.run(words, capture_output=True, check=True, timeout=120).stdout.decode()


class Pdf(unittest.TestCase):
    def setUp(self):
        self.folder = tempfile.TemporaryDirectory()

    def tearDown(self):
        self.folder.cleanup()

    def pdf(self, words, text, *more):
        path = os.path.join(self.folder.name, "sheet.pdf")
        run([*words, *more, "--quiet", "--out", path], text)
        return path

    def texts(self, words, text, *more):
        return json.loads(run([*words, *more, "--quiet", "--json"], text).stdout)["text"]

    def test_words_fonts_sizes_and_margins(self):
        for name, (words, text) in KINDS.items():
            for more, size in SIZES.items():
                with self.subTest(name, more=more):
                    path, texts = self.pdf(words, text, *more), self.texts(words, text, *more)
                    self.words_are_the_same(path, texts)
                    self.fonts_are_embedded(path)
                    self.within_the_margins(path, size)

    def words_are_the_same(self, path, texts):
        """Letter by letter what is told, in its order; besides it only heads of tables, the foot of a page, the marks of lists."""
        letters = lambda text: re.sub(r"[\s\u2022\u2192]+", "", text)
        pages = tool("pdftotext", "-raw", path, "-").split("\f")[:-1]
        read, told, at = letters("".join(pages)), letters("".join(texts)), 0
        for letter in read:
            at += at < len(told) and letter == told[at]
        self.assertEqual(at, len(told), told[max(at - 40, 0):at + 40])
        beside = 40 + len(texts[0]) + 60  # foot, head of a table
        self.assertLessEqual(len(read) - len(told), len(pages) * beside)
        for number, page in enumerate(pages, 1):
            self.assertIn(f"page {number} of {len(pages)}", page)

    def fonts_are_embedded(self, path):
        rows = tool("pdffonts", path).splitlines()[2:]
        self.assertGreater(len(rows), 1)
        for row in rows:
            self.assertRegex(row, r" yes +yes +yes +\d+ +\d+$")  # embedded, a subset, with a table back to Unicode

    def within_the_margins(self, path, size):
        boxes = tool("pdftotext", "-bbox", path, "-")
        pages = re.findall(r'<page width="([\d.]+)" height="([\d.]+)">(.*?)</page>', boxes, re.S)
        self.assertGreater(len(pages), 1)
        for width, height, words in pages:
            self.assertAlmostEqual(float(width), size[0], delta=0.01)
            self.assertAlmostEqual(float(height), size[1], delta=0.01)
            found = re.findall(r'xMin="([\d.-]+)" yMin="([\d.-]+)" xMax="([\d.-]+)" yMax="([\d.-]+)"', words)
            self.assertGreater(len(found), 3)
            for left, top, right, bottom in (map(float, f) for f in found):
                self.assertGreaterEqual(min(left, top), 30)
                self.assertLessEqual(right, size[0] - 30)
                self.assertLessEqual(bottom, size[1] - 20)

    def test_no_row_is_cut(self):
        """The figures of a row stand on the page of its name."""
        text = "Recipe: Long\nDog: 18 kg\n\n" + "".join(f"{i % 9 + 1} g carrots, raw\n" for i in range(200))
        path = self.pdf(["-"], text, "--days", "1")
        pages = tool("pdftotext", "-layout", path, "-").split("\f")
        rows = [line for page in pages for line in page.splitlines() if re.match(r" *carrots +\d+ ?g +[\d.]+ ?g +every day", line)]
        self.assertEqual(len(rows), 200)

    def test_every_page_has_ink_and_grey_is_enough(self):
        for name in ("bowl", "danger"):
            words, text = KINDS[name]
            path = self.pdf(words, text)
            stem = os.path.join(self.folder.name, "page")
            tool("pdftoppm", "-r", "40", "-gray", path, stem)
            pages = [f for f in sorted(os.listdir(self.folder.name)) if f.startswith("page")]
            self.assertGreater(len(pages), 1)
            for page in pages:
                with open(os.path.join(self.folder.name, page), "rb") as f:
                    grey = f.read()[20:]
                dark = sum(b < 100 for b in grey)
                self.assertGreater(dark, 200, page)

    def test_tags_and_what_a_reader_is_told(self):
        words, text = KINDS["bowl"]
        path = self.pdf(words, text)
        structure = tool("pdfinfo", "-struct", path)
        for tag in ("H1", "H2", "Table", "TR", "TH", "TD", "L", "LI", "P", "Figure"):
            self.assertRegex(structure, rf"(?m)^ *{tag}\b")
        told = tool("pdfinfo", path)
        self.assertRegex(told, r"Title: +Weeknight bowl")
        self.assertIn("Sat Nov 28", told)

    def test_the_same_bytes_for_the_same_sheet(self):
        words, text = KINDS["cat"]
        first = run([*words, "--quiet", "--format", "pdf"], text).stdout
        self.assertEqual(first, run([*words, "--quiet", "--format", "pdf"], text).stdout)
        self.assertTrue(first.startswith(b"%PDF-"))

    def test_names_from_right_to_left(self):
        """Every letter is there; the order of a line that runs both ways is the reader's matter."""
        for name in ("\u05e7\u05e2\u05e8\u05ea \u05d4\u05e2\u05e8\u05d1", "\u0437\u0430\u0432\u0442\u0440\u0430\u043a", "\u03b4\u03b5\u03af\u03c0\u03bd\u03bf"):
            path = self.pdf(["-"], f"Recipe: {name}\nDog: 18 kg\n\n{LAMB}")
            read = tool("pdftotext", path, "-")
            for letter in set(name) - {" "}:
                self.assertIn(letter, read)

    def test_full_disk_and_input(self):
        words, text = KINDS["pot"]
        self.assertIn(b"disk is full", run([*words, "--quiet", "--out", "/dev/full", "--format", "pdf"], text, codes=(6,)).stderr)
        recipe = os.path.join(self.folder.name, "r.pdf")
        with open(recipe, "w", encoding="utf-8") as f:
            f.write(f"Recipe: R\nDog: 18 kg\n\n{LAMB}")
        self.assertIn(b"made from", run([recipe, "--out", recipe], codes=(2,)).stderr)
        with open(recipe, encoding="utf-8") as f:
            self.assertTrue(f.read().startswith("Recipe: R"))

    def test_a_folder_of_texts(self):
        texts, out = os.path.join(self.folder.name, "texts"), os.path.join(self.folder.name, "sheets")
        os.mkdir(texts)
        for n in range(3):
            with open(os.path.join(texts, f"{n}.recipe"), "w", encoding="utf-8") as f:
                f.write(f"Recipe: R{n}\nDog: 18 kg\n\n{LAMB}")
        run([texts, "--out", out, "--format", "pdf", "--quiet"])
        made = sorted(f for f in os.listdir(out) if f.endswith(".pdf"))
        self.assertEqual(made, [f"{n}.recipe.sheet.pdf" for n in range(3)])
        for f in made:
            self.assertIn(f"R{f[0]}", tool("pdftotext", os.path.join(out, f), "-"))


if __name__ == "__main__":
    unittest.main(argv=sys.argv[:1])
