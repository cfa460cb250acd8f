"""Two builds of Bowlwright in turns: what became faster. Usage: editions.py OLD_BUILD NEW_BUILD

Both need a release build with -DBW_BENCH=ON. Time is that of the processor, user and system, so that what else the machine
does meanwhile counts little; of each figure the smallest of several runs in turns. Prints rows of a table."""
import os
import subprocess
import sys
import tempfile

ROOT = os.path.dirname(os.path.dirname(os.path.abspath(__file__)))
BUILDS = [os.path.abspath(b) for b in sys.argv[1:3]]
RECIPE, ANIMALS = ROOT + "/examples/weeknight-bowl.recipe", ROOT + "/examples/saltmarsh.animals"


def cpu_ms(*command):
    """Of one process, and its peak memory in MB."""
    child = os.fork()
    if child == 0:
        nowhere = os.open(os.devnull, os.O_WRONLY)
        os.dup2(nowhere, 1)
        os.dup2(nowhere, 2)
        os.execv(command[0], command)
    _, status, used = os.wait4(child, 0)
    if status != 0:
        raise SystemExit("failed: " + " ".join(command))
    return 1e3 * (used.ru_utime + used.ru_stime), used.ru_maxrss / 1024


def in_turns(runs, measure):
    """The smallest of each build's runs."""
    took = [[], []]
    for _ in range(runs):
        for k in (0, 1):
            took[k].append(measure(BUILDS[k]))
    return [min(t) for t in took]


def row(what, before, after, unit, digits):
    print("| %s | %.*f %s | %.*f %s | %.2f |" % (what, digits, before, unit, digits, after, unit, after / before))


def checks(build):
    """Microseconds of a whole check: short rounds, so that one of them is left in peace."""
    with tempfile.TemporaryDirectory() as folder:
        printed = subprocess.check_output([build + "/bench_recipes", build + "/bowlwright.library", "1000", folder + "/out"], text=True)
    return 1e6 / float(printed.split()[0])


def keystroke(build):
    printed = subprocess.check_output([build + "/bench_page", build + "/bowlwright.library", ROOT + "/examples"], text=True)
    return {words[0]: float(words[1]) for words in map(str.split, printed.splitlines())}


def main():
    print("| what | before | after | ratio |\n| --- | --- | --- | --- |")
    process = ("check", RECIPE, "--for", ANIMALS)
    row("`check` as a process", *in_turns(60, lambda b: cpu_ms(b + "/bowlwright", *process)[0]), "ms", 2)
    row("its peak memory", *in_turns(5, lambda b: cpu_ms(b + "/bowlwright", *process)[1]), "MB", 1)
    row("one whole check of twelve foods", *in_turns(25, checks), "µs", 1)
    calls = [[], []]
    for _ in range(4):
        for k in (0, 1):
            calls[k].append(keystroke(BUILDS[k]))
    for call, what in (("numbers", "a keystroke on the page, in the core: the numbers"), ("review", "a rest from typing, in the core: the written review")):
        row(what, *[min(c[call] for c in calls[k]) for k in (0, 1)], "ms", 2)


main()
