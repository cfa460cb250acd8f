"""The reply says nothing that the check does not: every figure in it is one of `check --json` or of the text that `mend` proposes.
Usage: reply.py PROGRAM SOURCE_DIR"""
import glob
import json
import os
import re
import subprocess
import sys
import unittest

program, source = sys.argv[1:3]
RECIPES = sorted(glob.glob(os.path.join(source, "examples/*.recipe"))) + sorted(glob.glob(os.path.join(source, "tests/mend/posted/*.recipe")))[:10]
NUMBER = re.compile(r"\d[\d.]*\d|\d")
OURS = {"7", "10", "75", "100", "3"}  # days of a transition, the confidence, EPA + DHA as omega-3


def run(*words):
    done = subprocess.run([program, *words], capture_output=True, text=True, timeout=300)
    assert done.returncode in (0, 5), (words, done.stderr)
    return done.stdout


def strings(x):
    if isinstance(x, str):
        yield x
    elif isinstance(x, dict):
        for v in x.values():
            yield from strings(v)
    elif isinstance(x, list):
        for v in x:
            yield from strings(v)


def numbers(x):
    if isinstance(x, bool) or x is None:
        return
    if isinstance(x, (int, float)):
        yield float(x)
    elif isinstance(x, dict):
        for v in x.values():
            yield from numbers(v)
    elif isinstance(x, list):
        for v in x:
            yield from numbers(v)


def animal(path):
    with open(path, encoding="utf-8") as f:
        return ["--cat", "4.6kg"] if re.search("Pim|cat", f.read()) else ["--dog", "18kg"]


class Replies(unittest.TestCase):
    def test_every_figure_is_the_checks(self):
        for path in RECIPES:
            whom = animal(path)
            checked = json.loads(run("check", path, *whom, "--json").splitlines()[0])
            answer = json.loads(run("reply", path, *whom, "--plain", "--patience", "20", "--quiet", "--json"))
            reply, proposed = answer["text"], answer["recipe"] or ""
            known = list(numbers(checked))
            known.append(sum(1 for n in checked["nutrients"] if n["verdict"] != "no figure"))
            known.append(sum(1 for n in checked["nutrients"] if n["verdict"] == "met"))
            if answer["scaled"]:
                known.append(answer["scaled"])
            if proposed:
                with open(os.path.join(os.environ["TMPDIR_REPLY"], "proposed.recipe"), "w", encoding="utf-8") as f:
                    f.write(proposed)
                after = json.loads(run("check", f.name, *whom, "--json").splitlines()[0])
                known.append(after["energy"]["supply_kcal"])
                unmet = [n["key"] for n in after["nutrients"] if n["verdict"] in ("short", "thin", "over", "unproven")]
                self.assertEqual("every need is met" in reply, not unmet, (path, unmet))
                plain = re.sub(r" \[[^]]*\]", "", proposed)
                for line in re.findall("(?:Add|becomes) “([^”]*)”", reply):
                    self.assertIn(line, plain)
                reply = re.sub("“[^”]*”|[0-9]+ smaller changes", "", reply)
            said = set(NUMBER.findall(" ".join(strings(checked))))
            for figure in NUMBER.findall(reply):
                if figure in said or figure in OURS:
                    continue
                value = float(figure.rstrip("."))
                near = any(abs(k - value) <= 0.006 * abs(k) + 1e-9 or abs(100 * k - value) <= 0.6 for k in known)
                # a number before a heading's dot is the number of a question
                self.assertTrue(near, (os.path.basename(path), figure, reply))

    def test_lengths(self):
        for path in RECIPES:
            whom = animal(path)
            letter = run("reply", path, *whom, "--plain", "--patience", "20", "--quiet")
            words = len(letter.split())
            self.assertTrue(150 <= words <= 420, (path, words, letter))
            for lines in (1, 3, 5):
                few = run("reply", path, *whom, "--lines", str(lines), "--patience", "20", "--quiet")
                self.assertLessEqual(len(few.splitlines()), lines)
            full = run("reply", path, *whom, "--full", "--patience", "20", "--quiet")
            self.assertGreater(len(full), len(letter))
            self.assertIn("| Zinc |", full)

    def test_a_post_is_asked_about(self):
        """The scoop of kelp in the post has no weight: the letter must ask for it and say that it is not counted."""
        post = os.path.join(source, "examples/posted.txt")
        checked = json.loads(run("check", post, "--posted", "--json", "--quiet"))
        asked = [q["ask"] for q in checked["questions"]]
        self.assertTrue(any("Which scoop" in q for q in asked), asked)
        for length in ([], ["--full"]):
            letter = run("reply", post, "--posted", "--plain", "--patience", "20", "--quiet", *length)
            told = asked if length else asked[:2]
            for question in told:
                self.assertIn(question, letter)
            self.assertRegex(letter, "could not count “[^”]*kelp[^”]*”")
            if not length:
                self.assertLessEqual(len(letter.split()), 420)
                self.assertTrue(letter.startswith("Thank you"), letter)
        strict = run("reply", RECIPES[0], *animal(RECIPES[0]), "--plain", "--patience", "20", "--quiet")
        self.assertNotIn("could not count", strict)

    def test_markdown_cannot_be_made_by_the_owner(self):
        recipe = "Recipe: *bold* [x](http://example.org)\n300 g beef mince\n20 g beef liver # <b>\n"
        done = subprocess.run([program, "reply", "-", "--dog", "18", "--patience", "5", "--quiet"], input=recipe, capture_output=True, text=True, timeout=120)
        self.assertEqual(done.returncode, 0)
        self.assertNotIn("](http", done.stdout)
        self.assertNotIn("<b>", done.stdout)

    def test_seaweed_without_a_stated_content_goes_out(self):
        recipe = "300 g beef mince\n20 g beef liver\n5 g kelp\n"
        done = subprocess.run([program, "reply", "-", "--dog", "18", "--patience", "10", "--quiet", "--plain", "--json"], input=recipe, capture_output=True, text=True, timeout=120)
        self.assertEqual(done.returncode, 0)
        answer = json.loads(done.stdout)
        self.assertRegex(answer["text"], "Leave out “[0-9.]+ g kelp”: nobody knows how much iodine")
        self.assertNotRegex(answer["recipe"], "(?m)^[0-9.]+ g kelp$")
        self.assertRegex(answer["recipe"], "iodine [0-9]+ µg")

    def test_a_change_says_what_it_reckons_without(self):
        recipe = "300 g beef mince\n20 g beef liver\n? 1 scoop kelp\n"
        for verb, words in (("reply", ["--plain"]), ("reply", ["--lines", "3"]), ("mend", ["--plain"])):
            done = subprocess.run([program, verb, "-", "--dog", "18", "--patience", "10", "--quiet", *words], input=recipe, capture_output=True, text=True, timeout=120)
            self.assertRegex(" ".join(done.stdout.split()), "This reckons without .?1 scoop kelp", (verb, words))

    def test_refused_animals_get_no_formula(self):
        pup = "Animal: Pup\nSpecies: dog\nAge: 4 months\nWeight: 8 kg\n"
        with open(os.path.join(os.environ["TMPDIR_REPLY"], "pup.animals"), "w", encoding="utf-8") as f:
            f.write(pup)
        done = subprocess.run([program, "reply", "-", "--for", f.name, "--quiet"], input="300 g beef mince\n20 g beef liver\n", capture_output=True, text=True, timeout=120)
        self.assertEqual(done.returncode, 4)
        self.assertIn("Ask a veterinarian trained in nutrition", done.stdout)
        self.assertNotIn("Add “", done.stdout)


unittest.main(argv=[sys.argv[0]], verbosity=1)
