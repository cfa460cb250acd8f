"""What a page of the manual quotes of an answer is what the program says. A block that is indented by six blanks or more quotes; each of its
lines, less four blanks, must be printed, in this order, by one of the commands ("    $ bowlwright ...") that stand above it on the page.
Usage: excerpts.py BUILD_DIR SOURCE_DIR FILE..."""
import os
import subprocess
import sys

build, source, files = os.path.abspath(sys.argv[1]), os.path.abspath(sys.argv[2]), sys.argv[3:]
environment = {**os.environ, "PATH": build + ":" + os.environ["PATH"], "LC_ALL": "C.UTF-8", "BOWLWRIGHT_TODAY": "2026-11-02"}
COMMAND, QUOTE = "    $ ", "      "
said = {}


def says(command):
    if command not in said:
        done = subprocess.run(["sh", "-c", command], cwd=source, env=environment, capture_output=True, stdin=subprocess.DEVNULL, timeout=300)
        said[command] = [line.rstrip() for line in done.stdout.decode().split("\n")]
    return said[command]


def missing(quote, lines):
    """The first line of the quote that the answer does not have where it should be; None when all are there."""
    at = 0
    for line in quote:
        if line not in lines[at:]:
            return line
        at = lines.index(line, at) + 1
    return None


def quotes(page):
    """Each quote with the commands above it, the nearest first."""
    commands, quote = [], []
    for line in page + [""]:
        if line.startswith(QUOTE):
            quote.append(line[4:].rstrip())
            continue
        if quote:
            yield quote, commands[::-1]
            quote = []
        if line.startswith(COMMAND):
            commands.append(line[len(COMMAND):])


wrong = count = 0
for name in files:
    with open(os.path.join(source, name), encoding="utf-8") as f:
        page = f.read().split("\n")
    before = count
    for quote, commands in quotes(page):
        count += 1
        lacks = [missing(quote, says(c)) for c in commands]
        if None not in lacks:
            wrong += 1
            print("%s quotes what no command above it prints: %s" % (name, lacks[0] if lacks else quote[0]), file=sys.stderr)
    if count == before:
        wrong += 1
        print("%s quotes nothing" % name, file=sys.stderr)
print("%d quotes, %d are not what the program says" % (count, wrong))
sys.exit(1 if wrong else 0)
