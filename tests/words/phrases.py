"""Phrases that were weeded out do not come back: tests/words/phrases.tsv against everything that people read."""
import pathlib
import re
import sys

ROOT = pathlib.Path(sys.argv[1])
STRING = re.compile(r'"((?:[^"\\\n]|\\.)*)"')


def rules():
    for line in (ROOT / "tests/words/phrases.tsv").read_text(encoding="utf-8").splitlines()[3:]:
        phrase, instead, but = (line.split("\t") + ["", ""])[:3]
        yield re.compile(phrase), instead, re.compile(but) if but else None


def c_strings(path):
    """Neighbouring literals are one text, as the compiler reads them; comments and #include lines are not read."""
    text = re.sub(r"/\*.*?\*/", lambda m: "\n" * m.group(0).count("\n"), path.read_text(encoding="utf-8"), flags=re.S)
    joined, last = "", None
    for number, line in enumerate(text.splitlines(), 1):
        if line.startswith("#include"):
            continue
        for m in STRING.finditer(line):
            between = line[: m.start()] if last == number - 1 and not line[: m.start()].strip() else None
            if joined and between is None:
                yield last, joined
                joined = ""
            joined += m.group(1)
            last = number
    if joined:
        yield last, joined


def table_words(path, columns):
    lines = [l for l in path.read_text(encoding="utf-8").splitlines()]
    head = next(l for l in lines if not l.startswith("#")).split("\t")
    for number, line in enumerate(lines, 1):
        if line.startswith("#") or line.split("\t") == head:
            continue
        cells = line.split("\t")
        for name in columns:
            if head.index(name) < len(cells):
                yield number, cells[head.index(name)]


def texts():
    for path in sorted(ROOT.glob("src/*/*.[ch]")):
        if not path.name.endswith("_test.c"):
            yield from ((path, *found) for found in c_strings(path))
    for name, columns in (("findings", ("words", "reason", "remedy")), ("fixes", ("words",))):
        path = ROOT / f"data/{name}.tsv"
        yield from ((path, *found) for found in table_words(path, columns))
    for path in sorted(ROOT.glob("page/src/**/*.ts*")):
        if "/answers/" in str(path) or ".test." in path.name:
            continue  # written from the tables of src/json
        text = re.sub(r"/\*.*?\*/", lambda m: "\n" * m.group(0).count("\n"), path.read_text(encoding="utf-8"), flags=re.S)
        for number, line in enumerate(text.splitlines(), 1):
            if not line.lstrip().startswith(("import ", "//")):
                yield path, number, line
    for path in sorted(ROOT.glob("docs/manual/*.md")):
        for number, line in enumerate(path.read_text(encoding="utf-8").splitlines(), 1):
            yield path, number, line


def main():
    bad, read, kinds = 0, 0, list(rules())
    for path, number, text in texts():
        read += 1
        for phrase, instead, but in kinds:
            found = phrase.search(text)
            if found and not (but and but.search(text)):
                print(f"{path.relative_to(ROOT)}:{number}: '{found.group(0)}'; say: {instead}: {text[:160]}")
                bad += 1
    if read < 3000:
        print(f"only {read} texts were read")
        bad += 1
    # The patterns find what they were written for.
    for phrase, sample in zip((k[0] for k in kinds), ("that is no amount", "it brings zinc", "meat carries zinc", "for want of data")):
        if not phrase.search(sample):
            print(f"'{phrase.pattern}' does not find '{sample}'")
            bad += 1
    return 1 if bad else 0


sys.exit(main())
