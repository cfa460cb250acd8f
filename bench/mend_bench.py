"""What mend makes of 300 bowls as owners feed them (tests/mend/bowls.h): found, proven, how long, how much of the dinner is kept.
Bowls held aside are told apart; of what the review newly asks to watch, what it says of the food ("watch: food") and what of how sure
the figures are ("watch: sure"). Usage: mend_bench.py BUILD_DIR [COUNT]"""

import statistics
import subprocess
import sys

COLUMNS = ["bowls", "found", "proven", "median s", "95th s", "longest s", "meat kept", "2/3 kept", "new lines", "new foods", "stretched", "taken out", "new to act", "watch: food", "watch: sure", "pills a day"]


def rows(build, count):
    lines = subprocess.run([f"{build}/bench_mend", f"{build}/bowlwright.library", "0", str(count)], capture_output=True, text=True, check=True)
    return [line.split("\t") for line in lines.stdout.splitlines() if line[:1].isdigit()]


def share(numbers, at):
    return sorted(numbers)[min(len(numbers) - 1, int(len(numbers) * at))]


def summary(some):
    found = [r for r in some if r[4] == "found"]
    seconds, kept = [float(r[6]) for r in some], [float(r[7]) for r in found]
    return [
        len(some),
        len(found) + sum(r[4] == "met" for r in some),
        sum(r[10] == "1" for r in found),
        f"{statistics.median(seconds):.2f}",
        f"{share(seconds, 0.95):.2f}",
        f"{max(seconds):.2f}",
        f"{statistics.median(kept):.2f}",
        sum(k > 0.66 for k in kept),
        f"{statistics.mean(int(r[8]) for r in found):.1f}",
        f"{statistics.mean(int(r[12]) for r in found):.1f}",
        *(sum(r[column] != "0" for r in found) for column in (11, 13, 14, 15, 16)),
        f"{statistics.mean(float(r[17]) for r in found):.2f}",
    ]


def main():
    build, count = sys.argv[1], int(sys.argv[2]) if len(sys.argv) > 2 else 300
    every = rows(build, count)
    print("mend, one proposal with everything on offer: " + ", ".join(COLUMNS))
    for name, held in (("open", "open"), ("held aside", "aside")):
        for kind in ("dog", "cat"):
            some = [r for r in every if r[5] == held and r[1] == kind]
            if some:
                print(f"{name + ', ' + kind:16}" + "".join(f"{x!s:>13}" for x in summary(some)))


if __name__ == "__main__":
    main()
