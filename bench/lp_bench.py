"""The solver of src/lp against GLPK, Clp, Cbc and HiGHS (scipy) on the same models in one run.

Usage: lp_bench.py BUILD_DIR. Processor time, medians over models; "times" is how many times faster than the fastest of the
others. All must agree on the objectives; a solver that stopped at its time limit is left out and said to be.
"""
import math
import os
import statistics
import subprocess
import sys
import tempfile

BUILD = sys.argv[1]
ROOT = os.path.dirname(os.path.dirname(os.path.abspath(__file__)))
TASKS = [
    ("cold120", "120 foods, from arrays to the answer"),
    ("warm120", "120 foods, one limit moved"),
    ("cold540", "540 foods, from arrays to the answer"),
    ("warm540", "540 foods, one limit moved"),
    ("mixed120", "120 foods, at most 10, 5 g if used, whole eggs"),
]


def highs(path, runs):
    """Median microseconds and sum of objectives."""
    lines = subprocess.check_output([sys.executable, ROOT + "/tests/lp/highs.py", path, str(runs)], text=True).split("\n")[:-1]
    answers = [line.split() for line in lines]
    total = sum(float(a[1]) if a[0] == "optimal" else math.nan for a in answers)
    return 1e6 * statistics.median(float(a[2]) for a in answers), total


def main():
    results = {}
    with tempfile.TemporaryDirectory() as folder:
        for line in subprocess.check_output([BUILD + "/bench_lp", folder], text=True).splitlines():
            task, solver, us, objective = line.split()
            results.setdefault(task, {})[solver] = (float(us), float(objective))
        for task, runs in (("cold120", 3), ("cold540", 3), ("mixed120", 1)):
            results[task]["highs"] = highs("%s/%s.lp" % (folder, task), runs)
    print("%-50s %14s   %s" % ("the solver, microseconds", "ours", "others"))
    for task, words in TASKS:
        ours, objective = results[task].pop("ours")
        others = results[task]
        disagree = [s for s, (_, o) in others.items() if not math.isnan(o) and abs(o - objective) > 1e-6 * abs(objective)]
        if math.isnan(objective) or disagree:
            raise SystemExit("%s: objectives differ: ours %r, %r" % (task, objective, others))
        done = {s: us for s, (us, o) in others.items() if not math.isnan(o)}
        text = "  ".join("%s %.0f%s" % (s, us, "" if s in done else " (not all proven)") for s, (us, _) in sorted(others.items()))
        best = min(done.values()) if done else min(us for us, _ in others.values())
        print("%-50s %14.1f   %s   times %.1f" % (words, ours, text, best / ours))


main()
