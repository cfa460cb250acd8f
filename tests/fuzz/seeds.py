"""Writes the seeds of a fuzz target into a folder, one file each: the cases of tests/cases and the posts of tests/post that are of its
kind, the examples, the files of tests/fuzz/seeds; for "store" a store that the program made, for "image"
changes of the food library beside it.
Usage: seeds.py KIND FOLDER [PROGRAM]"""
import glob
import os
import random
import re
import shutil
import struct
import sys

kind, folder = sys.argv[1], sys.argv[2]
here = os.path.dirname(os.path.abspath(__file__))
source = os.path.dirname(os.path.dirname(here))
written = 0


def seed(data):
    global written
    with open(os.path.join(folder, "seed-%04d" % written), "wb") as f:
        f.write(data)
    written += 1


def texts(pattern, begins, ends):
    """What stands between a line that begins so and the next that begins so."""
    for path in sorted(glob.glob(os.path.join(source, pattern))):
        with open(path, "rb") as f:
            for part in re.split(begins, f.read())[1:]:
                seed(re.split(ends, part)[0])


def a_store():
    sys.path.insert(0, os.path.join(source, "tests", "serve"))
    from server import Scratch, Server
    with Scratch() as scratch:
        s = Server(sys.argv[3], scratch.path("texts.db"), scratch.page)
        for i, body in enumerate(["300 g lamb heart", "300 g lamb heart\n20 g liver", "x" * 3000]):
            assert s.put("a", body, i)[0] == 200
        assert s.put("b", "Animal: Pim\n", 0, kind="animals")[0] == 200
        assert s.ask("DELETE", "/api/texts/b", headers={"If-Match": '"1"'})[0] in (200, 204)
        assert s.stop() == 0
        with open(scratch.path("texts.db"), "rb") as f:
            seed(f.read())


def changes_of_the_library():
    """As fuzz_image.c reads them; and the beginning of the library as an image by itself."""
    dice = random.Random(7)
    seed(bytes.fromhex("000c04fdaf20edbcba"))  # a limit of nothing
    for asked in range(8):
        seed(bytes([asked]))
        for section in range(40):
            seed(bytes([asked, section, dice.randrange(6), dice.randrange(256), dice.randrange(256)]) + struct.pack("<I", dice.randrange(2 ** 32)))
    with open(os.path.join(os.path.dirname(sys.argv[3]), "bowlwright.library"), "rb") as f:
        beginning = f.read(1900)
    for length in (0, 40, 48, 100, 1900):
        seed(b"w" + beginning[:length])


os.makedirs(folder, exist_ok=True)
texts("tests/cases/%s*.case" % kind, rb"(?m)^=== .*\n", rb"(?m)^--- ")
if kind == "recipe":
    texts("tests/cases/words_*.case", rb"(?m)^=== .*\n", rb"(?m)^--- ")
if kind in ("post", "reply"):
    before = b"" if kind == "post" else b"posted=yes\nlines=6\n\n"
    for path in sorted(glob.glob(os.path.join(source, "tests/post/**/*.posts"), recursive=True)):
        with open(path, "rb") as f:
            for part in re.split(rb"(?m)^@post .*\n", f.read())[1::1 if kind == "post" else 8]:
                seed(before + re.split(rb"(?m)^@reads", part)[0])
for end, of in ((".recipe", "recipe"), (".animals", "animal"), (".foods", "label"), (".larder", "larder"), (".week", "week"), (".journal", "journal"), (".journal", "trend")):
    if of == kind:
        for path in sorted(glob.glob(os.path.join(source, "examples", "*" + end))):
            shutil.copy(path, folder)
            written += 1
for path in sorted(glob.glob(os.path.join(here, "seeds", kind, "*"))):
    shutil.copy(path, folder)
    written += 1
if kind == "store":
    a_store()
if kind == "image":
    changes_of_the_library()
print("%d seeds of %s" % (written, kind))
