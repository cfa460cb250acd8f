"""One figure, wherever it stands: amounts, needs and per cent of a nutrient in the drawn answer against those in its findings, on the
sheet, beside another bowl and at the head of its chain. Over bowls as owners posted them (tests/post) and the examples.
Usage: figures.py BUILD_DIR SOURCE_DIR"""
import glob
import html
import json
import os
import re
import subprocess
import sys
import tempfile
import unittest

BUILD, SOURCE = (os.path.abspath(a) for a in sys.argv[1:3])
PROGRAM = os.path.join(BUILD, "bowlwright")
ENVIRONMENT = {k: v for k, v in os.environ.items() if not k.startswith("BOWLWRIGHT")}
ENVIRONMENT.update(LC_ALL="C.UTF-8", BOWLWRIGHT_TODAY="2026-11-02")
DOG = ["--dog", "14kg", "--quiet"]
NUMBER = r"[<>]?[\d.]+(?:e\d+)?"
ROW = re.compile(rf"^  ([A-Z][A-Za-z0-9 +\-]+?)  +\d+ .*? ({NUMBER}|not known)(?: of +| *[>|<] *)?\s*({NUMBER})? ?(µg|mg|g)\b", re.M)
SHORT = re.compile(rf"(.+?) is (?:short|thin): ({NUMBER}) (?:µg|mg|g) a day, (under 1|\d+) % of the (?:allowance of )?({NUMBER}) ")
BEGINS_OTHERS = ("Methionine", "Phenylalanine")  # "Methionine + cystine" is another row


def run(*words):
    done = subprocess.run([PROGRAM, *words], capture_output=True, env=ENVIRONMENT, cwd=SOURCE)
    return done.stdout.decode()


def rows(*words):
    return {m[1]: (m[2], m[3]) for m in ROW.finditer(run("check", *words, *DOG, "--all", "--width", "160"))}


class Figures(unittest.TestCase):
    def posts(self):
        for path in sorted(glob.glob(os.path.join(SOURCE, "tests/post/*.posts"))):
            with open(path, encoding="utf-8") as f:
                yield from re.findall(r"^@post .*?\n(.*?)^@reads", f.read(), re.M | re.S)[:2]

    def test_findings_and_sheet(self):
        seen = told = 0
        with tempfile.TemporaryDirectory() as folder:
            path = os.path.join(folder, "bowl.txt")
            for post in self.posts():
                with open(path, "w", encoding="utf-8") as f:
                    f.write(post)
                drawn, answer = rows(path, "--posted"), json.loads(run("check", path, "--posted", *DOG, "--json") or "{}")
                by_name = {n["name"]: n for n in answer.get("nutrients", [])}
                for finding in answer.get("findings", []):
                    m = SHORT.match(finding["text"])
                    if not m:
                        continue
                    told += 1
                    self.assertEqual(drawn[m[1]], (m[2], m[4]), finding["text"])
                    share = by_name[m[1]]["amount"] / by_name[m[1]]["allowance"]
                    self.assertEqual(m[3], "under 1" if 0 < share < 0.01 else str(int(share * 100 + 0.5)), finding["text"])
                sheet = re.sub(r"\s+", " ", html.unescape(re.sub(r"<[^>]*>", " ", run("sheet", path, "--posted", *DOG))))
                for name, (amount, need) in drawn.items():
                    near = re.findall(re.escape(name) + r"[ ,:]+(.{0,300})", sheet)
                    if need and near and name not in BEGINS_OTHERS:
                        seen += 1
                        self.assertTrue(any(amount in words for words in near), (name, amount, near[:2]))
        self.assertGreater(told, 50)
        self.assertGreater(seen, 500)

    def test_side_and_why(self):
        recipes = sorted(glob.glob(os.path.join(SOURCE, "examples/*.recipe")))
        beside = chains = 0
        for a, b in zip(recipes, recipes[1:] + recipes[:1]):
            first, second = rows(a), rows(b)
            side = run("side", a, b, *DOG, "--all", "--width", "160")
            for name in first:
                m = re.search(rf"^  {re.escape(name)}  .*? ({NUMBER}|\?)\+? +({NUMBER}|\?)\+? +(?:µg|mg|g)\b", side, re.M)
                if m and name in second:
                    beside += 1
                    self.assertEqual([x.replace("not known", "?") for x in (first[name][0], second[name][0])], [m[1], m[2]], (a, b, name))
            for name in list(first)[:8]:
                m = re.search(rf"─ [a-z ]+, (not known|{NUMBER})", run("check", a, *DOG, "--why", name.lower()))
                if m:
                    chains += 1
                    self.assertEqual(m[1], first[name][0], (a, name))
        self.assertGreater(beside, 200)
        self.assertGreater(chains, 40)


if __name__ == "__main__":
    unittest.main(argv=sys.argv[:1])
