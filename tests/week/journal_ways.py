"""Random journals from text to table, to the store and back, through the program. What each line says is known here before it is
written, so what comes back is compared with that and not with the program's own reading; tables are read and written by Python's
reader of RFC 4180, the store is asked in SQL."""

import calendar
import csv
import datetime
import io
import os
import random
import sqlite3
import subprocess
import sys
import tempfile
import unittest

PROGRAM = os.path.join(sys.argv[1], "bowlwright")
ENVIRONMENT = {k: v for k, v in os.environ.items() if not k.startswith("BOWLWRIGHT")}
ENVIRONMENT["LC_ALL"] = "C.UTF-8"
ENVIRONMENT["BOWLWRIGHT_TODAY"] = "2032-03-01"

NAMES = ["Juniper", "Old Bess", "Zoë", "Señor Pelusa", "Ōkami", "小白", "Пират", "🐕 Rex", "O'Malley", 'Bo "the Nose"', "Dr. Paws", "A#1", "7", "Bean, jr", "e\u0301clair"]
FOODS = ["Weeknight bowl", "lamb heart, raw", "Köttbullar (no onion)", "小魚", 'the "good" tin', "chicken & rice", "50:50 mash", "bowl#2", "crème fraîche"]
REMARKS = ["", "", "", "wet towel", 'he said "so", really', "a; b; c", "# again", "ünïcødé 🐾", "1,5 kg?", "=SUM(A1)"]
GRAMS = {"kg": 1000, "g": 1, "lb": 453.59237, "oz": 28.349523125}  # the international pound, 1959


def run(*arguments, code=0):
    done = subprocess.run([PROGRAM, *arguments], capture_output=True, env=ENVIRONMENT, timeout=120)
    assert done.returncode == code, (arguments, done.returncode, done.stderr.decode())
    return done.stdout.decode("utf-8"), done.stderr.decode("utf-8")


def some_day(r):
    if r.random() < 0.15:
        return datetime.date(r.choice([2000, 2024, 2028, 2032]), 2, 29)
    return datetime.date(2000, 1, 1) + datetime.timedelta(days=r.randrange(11700))


def mass(r, least, most):
    """As it is written, and in grams."""
    unit = r.choice(["kg", "g", "lb", "oz"])
    x = round(r.uniform(least, most) / GRAMS[unit], r.randrange(4))
    return (f"{x:.3f}".rstrip("0").rstrip("."), unit, x * GRAMS[unit]) if x > 0 else mass(r, least, most)


def thing(r):
    """One thing eaten: words, and its grams where they are told."""
    way = r.random()
    food = r.choice(FOODS)
    if way < 0.6:
        x, unit, grams = mass(r, 5, 900)
        return f"{x} {unit} {food}", grams
    if way < 0.75:
        return f"{r.choice(['1', '2', 'half', '1/2'])} {r.choice(['can', 'tin', 'small'])} {food}", None
    if way < 0.9:
        return f"? {r.choice(['a biscuit', 'something at the neighbours'])}", None
    return "unknown", None


def line(r):
    """A line's text and what it says: (day, animal, fact, correction, kg, [(words, grams)], remark); None: it tells no fact."""
    if r.random() < 0.12:
        return r.choice(["", "# spring", '# a remark, with "quotes"; and more', "#", "# 2026-11-02 Juniper weighs 18 kg"]), None
    day, name, fact = some_day(r), r.choice(NAMES), r.choice(["weighs", "weighs", "ate", "ate", "ate", "left", "note"])
    correction, kg, things = r.random() < 0.1, None, []
    if fact == "weighs" and r.random() < 0.1:
        said = "unknown"
    elif fact == "weighs":
        x, unit, grams = mass(r, 2000, 60000)
        said, kg = f"{x} {unit}", grams / 1000
    elif fact == "ate":
        things = [thing(r) for _ in range(r.choice([1, 1, 2, 3]))] if r.random() > 0.1 else []
        said = "; ".join(words for words, _ in things) if things else "nothing"
    elif fact == "left":
        x, unit, grams = mass(r, 1, 300)
        said, told = r.choice([(f"{x} {unit}", grams), ("a quarter", None), ("20 %", None), ("some", None), ("nothing", 0)])
        things = [(said, told)]
    else:
        said = r.choice(["off her food", "at the vet, 3 pm", "新しい", 'said "no"; twice'])
    remark = r.choice(REMARKS)
    remark = f"# {remark}" if remark and remark[0] != "#" else remark
    text = f"{day} {name} {'correction: ' if correction else ''}{fact}{':' if fact == 'note' else ''} {said}" + (f"  {remark}" if remark else "")
    return text, (str(day), name, fact, correction, kg, things or [(said, None)], remark)


def close(told, want):
    return told == "" if want is None else told != "" and abs(float(told) - want) <= 1e-6 * max(1, abs(want))


class Ways(unittest.TestCase):
    def setUp(self):
        self.folder = tempfile.TemporaryDirectory()
        self.addCleanup(self.folder.cleanup)

    def put(self, name, text):
        path = os.path.join(self.folder.name, name)
        with open(path, "w", encoding="utf-8", newline="") as file:
            file.write(text)
        return path

    def table_tells(self, table, lines):
        rows = list(csv.DictReader(io.StringIO(table, newline="")))
        at = 0
        for number, (text, says) in enumerate(lines, 1):
            if says is None:
                row = rows[at]
                at += 1
                self.assertEqual((row["line"], row["fact"], row["said"]), (str(number), "", text))
                continue
            day, name, fact, correction, kg, things, remark = says
            for k, (words, grams) in enumerate(things):
                row = rows[at]
                at += 1
                self.assertEqual((row["line"], row["date"], row["animal"], row["fact"], row["said"], row["correction"], row["remark"]),
                                 (str(number), day, name, fact, words, "yes" if correction else "", remark if k == 0 else ""), text)
                self.assertTrue(close(row["kg"], kg), (text, row))
                self.assertTrue(close(row["grams"], grams), (text, row))
        self.assertEqual(at, len(rows))
        return rows

    def store_tells(self, store, lines):
        base = sqlite3.connect(store)
        rows = base.execute("SELECT line, day, animal, fact, kg, body FROM journal_line WHERE gone IS NULL ORDER BY line").fetchall()
        base.close()
        self.assertEqual([r[5] for r in rows], [text for text, _ in lines])
        days = {r[1] - datetime.date.fromisoformat(says[0]).toordinal() for r, (_, says) in zip(rows, lines) if says}
        self.assertLessEqual(len(days), 1, "one count of days")
        for (_, _, animal, fact, kg, _), (text, says) in zip(rows, lines):
            if says:
                self.assertEqual((animal, fact), (says[1], says[2]), text)
                self.assertTrue(kg is None if says[4] is None else abs(kg - says[4]) < 1e-9 * says[4], text)

    def again(self, rows, r):
        """The same table as another program would write it: columns in another order, every field in quotes, other line ends."""
        columns = list(rows[0])
        r.shuffle(columns)
        out = io.StringIO(newline="")
        writer = csv.DictWriter(out, columns + ["mood"], quoting=r.choice([csv.QUOTE_ALL, csv.QUOTE_MINIMAL]), lineterminator=r.choice(["\n", "\r\n"]))
        writer.writeheader()
        for row in rows:
            writer.writerow(dict(row, mood=r.choice(["", "fine"])))
        return out.getvalue()

    def test_there_and_back(self):
        for seed in range(12):
            with self.subTest(seed=seed):
                r = random.Random(seed)
                lines = [line(r) for _ in range(r.choice([1, 40, 400]))]
                text = "".join(t + "\n" for t, _ in lines)
                path, store = self.put("j.journal", text), os.path.join(self.folder.name, f"{seed}.db")
                self.assertEqual(run("journal", path, "--quiet")[0], text)
                table = run("journal", path, "--csv", "--quiet")[0]
                rows = self.table_tells(table, lines)
                self.assertEqual(run("journal", self.put("t.csv", table), "--quiet")[0], text)
                self.assertEqual(run("journal", self.put("u.csv", "\ufeff" + self.again(rows, r)), "--quiet")[0], text)
                run("journal", path, "--store", store, "--quiet")
                self.store_tells(store, lines)
                self.assertEqual(run("journal", "--store", store, "--quiet")[0], text)
                self.assertEqual(run("journal", "--store", store, "--csv", "--quiet")[0], table)
                # Lines put in, taken out and moved: the store is the new text, and the table that of the new text.
                for _ in range(1 + len(lines) // 20):
                    at = r.randrange(len(lines) + 1)
                    r.choice([lambda: lines.insert(at, line(r)), lambda: lines.pop(at - 1) if len(lines) > 1 else None, lambda: lines.append(lines[at - 1])])()
                text = "".join(t + "\n" for t, _ in lines)
                run("journal", self.put("j.journal", text), "--store", store, "--quiet")
                self.store_tells(store, lines)
                self.table_tells(run("journal", "--store", store, "--csv", "--quiet")[0], lines)

    def test_sloppy_hands(self):
        """Blanks, capital letters, other words for a fact, line ends of elsewhere and none at the end: the same facts."""
        for seed in range(4):
            r = random.Random(1000 + seed)
            lines = [line(r) for _ in range(120)]
            sloppy = ""
            for text, says in lines:
                if says:
                    day, name, fact, correction, _, things, remark = says
                    word = r.choice({"weighs": ["weighs", "Weighed:", "WEIGHS"], "ate": ["ate", "Ate:", "fed"], "left": ["left", "LEFT:"], "note": ["note:", "Note"]}[fact])
                    said = "; ".join(words for words, _ in things)
                    text = f"{r.choice(['', '  '])}{day}{r.choice([' ', '   ', chr(9)])}{name} {'correction: ' if correction else ''}{word}  {said.replace('; ', r.choice([';', ' ; ', '; ;'])) if fact == 'ate' else said}  {remark}"
                sloppy += text + r.choice(["\n", "\r\n", "  \n"])
            self.assertEqual(run("journal", self.put("s.journal", sloppy.rstrip("\r\n")), "--quiet")[0], "".join(t + "\n" for t, _ in lines).rstrip("\n") + "\n")

    def test_leap_days(self):
        for year in (1900, 2000, 2023, 2024, 2100):
            path = self.put("l.journal", f"{year}-02-29 Zoë weighs 4 kg\n")
            leap = calendar.isleap(year)
            said = run("journal", path, code=0 if leap else 3)
            self.assertIn(f"{year}-02-29" if leap else "is not a leap year", said[0] if leap else said[1])


unittest.main(argv=[sys.argv[0]])
