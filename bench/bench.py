"""Speed and memory of Bowlwright as ratios against baselines measured in the same run.

Usage: bench.py BUILD_DIR. Medians of alternating runs; a ratio below 1 means Bowlwright is the smaller (or faster) one.
"""
import os
import subprocess
import sys
import tempfile
import time

import numpy

BUILD = os.path.abspath(sys.argv[1])
ROOT = os.path.dirname(os.path.dirname(os.path.abspath(__file__)))
RUNS = 41


def processes():
    check = [BUILD + "/bowlwright", "check", ROOT + "/examples/weeknight-bowl.recipe", "--for", ROOT + "/examples/saltmarsh.animals"]
    baseline = [sys.executable, "-c", "pass"]
    printed = subprocess.check_output([BUILD + "/bench_processes", str(RUNS)] + check + ["--"] + baseline, text=True)
    ours, theirs = [tuple(map(float, line.split())) for line in printed.splitlines()]
    print("one whole check, as a process    %8.2f ms   python3 -c pass %8.2f ms   ratio %.3f" % (ours[0], theirs[0], ours[0] / theirs[0]))
    print("its peak memory                  %8.1f MB   python3 -c pass %8.1f MB   ratio %.3f"
          % (ours[1] / 1024, theirs[1] / 1024, ours[1] / theirs[1]))


def recipes(count=20000):
    with tempfile.TemporaryDirectory() as folder:
        path = folder + "/recipes.bin"
        printed = subprocess.check_output([BUILD + "/bench_recipes", BUILD + "/bowlwright.library", str(count), path], text=True)
        ours, zinc = map(float, printed.split())
        data = numpy.fromfile(path)
    foods, nutrients, count, lines = map(int, data[:4])
    table = data[4:4 + foods * nutrients].reshape(foods, nutrients) / 100
    pairs = data[4 + foods * nutrients:].reshape(count, lines, 2)
    grams = numpy.zeros((count, foods))
    rows = numpy.arange(count)
    for k in range(lines):
        numpy.add.at(grams, (rows, pairs[:, k, 0].astype(int)), pairs[:, k, 1])
    best = min(timed(lambda: grams @ table) for _ in range(5))
    totals = grams @ table
    column = int(os.environ.get("BW_ZINC_COLUMN", "40"))
    close = abs(totals[:, column].sum() - zinc) <= 1e-6 * abs(zinc)
    theirs = count / best
    print("recipes a second, whole check    %8.0f      numpy totals    %8.0f      ratio of time %.2f" % (ours, theirs, theirs / ours))
    print("  (numpy: one matrix product, totals only: no spread, days, allowances or verdicts; neither lists who supplies what; zinc totals agree: %s)" % close)
    if not close:
        raise SystemExit("the two disagree about the zinc total: %r and %r" % (totals[:, column].sum(), zinc))


def timed(f):
    start = time.perf_counter()
    f()
    return time.perf_counter() - start


def posts():
    """Reading a post against checking the recipe that comes of it; and how much of the posts is read as a careful person read them."""
    print(subprocess.check_output([BUILD + "/bench_posts", BUILD + "/bowlwright.library", "tests/post"], text=True), end="")


processes()
recipes()
posts()
