"""What README shows is what the program says. In a block of code a line "    $ COMMAND" is run at the top of the sources; the lines below it, up
to the next "$" or the end of the block, must be what it prints. BW_GOLDEN_WRITE=1 writes them anew.
Usage: shown.py BUILD_DIR SOURCE_DIR FILE..."""
import os
import subprocess
import sys

build, source, files = os.path.abspath(sys.argv[1]), os.path.abspath(sys.argv[2]), sys.argv[3:]
environment = {"PATH": build + ":" + os.environ["PATH"], "LC_ALL": "C.UTF-8", "BOWLWRIGHT_TODAY": "2026-11-02"}
for name in ("ASAN_OPTIONS", "UBSAN_OPTIONS"):
    if name in os.environ:
        environment[name] = os.environ[name]
INDENT = "    "
wrong = shown = 0


def printed(command):
    done = subprocess.run(["sh", "-c", command], cwd=source, env=environment, capture_output=True, stdin=subprocess.DEVNULL, timeout=300)
    lines = done.stdout.decode().rstrip("\n").split("\n")
    assert done.stdout.strip(), (command, done.stderr.decode())
    return [(INDENT + line).rstrip() for line in lines]


for name in files:
    with open(os.path.join(source, name), encoding="utf-8") as f:
        old = f.read().split("\n")
    new, i = [], 0
    while i < len(old):
        new.append(old[i])
        i += 1
        if not new[-1].startswith(INDENT + "$ "):
            continue
        told = i
        while i < len(old) and not old[i].startswith(INDENT + "$ ") and (old[i].startswith(INDENT) or not old[i].strip()):
            i += 1
        end = i
        while end > told and not old[end - 1].strip():  # empty lines behind the block
            end -= 1
        says = printed(new[-1][len(INDENT) + 2:])
        shown += 1
        if old[told:end] != says:
            wrong += 1
            print("%s: %s\n%s" % (name, new[-1].strip(), "\n".join(says)), file=sys.stderr)
        new += says + old[end:i]
    if os.environ.get("BW_GOLDEN_WRITE"):
        with open(os.path.join(source, name), "w", encoding="utf-8") as f:
            f.write("\n".join(new))
        wrong = 0
print("%d commands shown, %d say something else now" % (shown, wrong))
sys.exit(1 if wrong or shown == 0 else 0)
