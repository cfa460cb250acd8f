"""Writes docs/performance.md from what the benchmarks printed. Usage: table.py PRINTED OUT.md

Every line that names a baseline becomes a row with its ratio; the others stand below as they were printed."""
import os
import platform
import re
import subprocess
import sys

NUMBER = r"([0-9][0-9.,]*(?:e[+-]?\d+)?)"
# what, ours, the baseline's name, its figure, the ratio
WITH_BASELINE = [
    (re.compile(r"^(.+?)\s{2,}%s (\S+)\s{2,}(.+?)\s+%s \S+\s+ratio(?: of time)? %s" % (NUMBER, NUMBER, NUMBER)),
     lambda m: (m[1], "%s %s" % (m[2], m[3]), "%s: %s %s" % (m[4], m[5], m[3]), m[6])),
    (re.compile(r"^(.+?)\s{2,}%s\s{2,}(.+?)\s+%s\s+ratio(?: of time)? %s" % (NUMBER, NUMBER, NUMBER)),
     lambda m: (m[1], m[2], "%s: %s" % (m[3], m[4]), m[5])),
    (re.compile(r"^(.+): %s ms for (\d+) foods .*; (whole checks|plain pass) %s ms .*; ratio %s" % (NUMBER, NUMBER, NUMBER)),
     lambda m: ("swap, %s, of %s foods" % (m[1], m[3]), m[2] + " ms", "%s: %s ms" % ({"whole checks": "as many whole checks"}.get(m[4], "a plain pass, windows and all"), m[5]),
                "%.3f" % (1 / float(m[6])))),
    (re.compile(r"^(.{20,50}?)\s{2,}%s\s{2,}(\S.*?)\s{2,}times %s" % (NUMBER, NUMBER)),
     lambda m: ("solver: " + m[1], m[2] + " µs", re.sub(r"\s{2,}", ", ", m[3]) + " µs", "%.3f" % (1 / float(m[4])))),
]
LEFT_OUT = re.compile(r"^the solver, microseconds")


def first_line(*command):
    return subprocess.run(command, capture_output=True, text=True, check=False).stdout.split("\n")[0]


def machine():
    with open("/proc/cpuinfo", encoding="utf-8") as f:
        told = f.read()
    speed, cache = re.search(r"cpu MHz\s*: (\d+)", told), re.search(r"cache size\s*: (.*)", told)
    with open("/proc/meminfo", encoding="utf-8") as f:
        memory = int(re.search(r"MemTotal:\s*(\d+)", f.read())[1]) / 1048576
    with open("/etc/os-release", encoding="utf-8") as f:
        system = re.search(r'PRETTY_NAME="(.*)"', f.read())[1]
    return "%s, %d cores%s%s, %.0f GiB of memory, %s, Linux %s, %s; load when it began %s" % (
        platform.machine(), os.cpu_count(), " of %s MHz" % speed[1] if speed else "", " with %s of cache" % cache[1] if cache else "", memory, system, platform.release().split("-")[0],
        first_line("gcc", "--version"), os.environ.get("BW_BENCH_LOAD", "%.1f" % os.getloadavg()[0]))


def sources():
    told = first_line("git", "log", "-1", "--date=format:%e %B %Y", "--format=%cd, %h").strip()
    return "Of the sources of %s.\n\n" % told if told else ""


rows, rest = [], []
with open(sys.argv[1], encoding="utf-8") as printed:
    for line in printed:
        line = line.rstrip("\n")
        for pattern, row in WITH_BASELINE:
            found = pattern.match(line)
            if found:
                rows.append(row(found))
                break
        else:
            if line.strip() and not LEFT_OUT.match(line):
                rest.append(line)
if len(rows) < 7:
    sys.exit("only %d lines with a baseline were found; has a benchmark changed its words?" % len(rows))
# What stands behind this heading is written by hand and stays.
KEPT = "## What was gained, and what the rest of the time buys"
with open(sys.argv[2], encoding="utf-8") as before:
    kept = before.read().partition(KEPT)
with open(sys.argv[2], "w", encoding="utf-8") as out:
    out.write("""# How fast, how much

Written by `make bench` (`bench/table.py`) down to the last heading; do not edit. Each ratio is ours by the baseline's, measured in the same run on the same machine: below 1 we take
less time or memory, and of rates the ratio is that of times. The absolute figures hold for this machine alone, and for how busy it was.

Machine: %s.

%sTo repeat: `make bench`, on a machine that does nothing else. It takes some ten minutes.

| what | Bowlwright | baseline | ratio |
| --- | --- | --- | --- |
""" % (machine(), sources()))
    for row in rows:
        out.write("| %s | %s | %s | %s |\n" % tuple(cell.replace("|", "\\|") for cell in row))
    out.write("\nWhat else the run printed: how much of the posts is read as a careful person read them, what the estimates are worth, what mend makes of 300 bowls.\n\n")
    out.writelines(("    " + line).rstrip() + "\n" for line in rest)
    if kept[1]:
        out.write("\n" + kept[1] + kept[2])
print("%d rows with a baseline" % len(rows))
