"""Runs a long search on a terminal, ends it with Ctrl-C once its bar is seen, and looks at what it says.

Usage: stop.py PROGRAM ARGUMENT...   Exit code 0: as it should be; 77: it was done before the bar was seen."""
import json
import os
import pty
import select
import signal
import subprocess
import sys

program, arguments = sys.argv[1], sys.argv[2:]
os.environ["TERM"] = "xterm"  # one on which the bar is drawn
master, terminal = pty.openpty()
run = subprocess.Popen([program, *arguments, "--json"], stdin=subprocess.DEVNULL, stdout=subprocess.PIPE, stderr=terminal)
os.close(terminal)
seen, ended = b"", False
out = b""
while True:
    ready, _, _ = select.select([master, run.stdout], [], [], 300)
    if not ready:
        run.kill()
        sys.exit("nothing happened for five minutes")
    if master in ready:
        try:
            got = os.read(master, 4096)
        except OSError:  # the other end is closed
            got = b""
        seen += got
        if not ended and b"Ctrl-C stops" in seen:
            ended = True
            run.send_signal(signal.SIGINT)
    if run.stdout in ready:
        more = os.read(run.stdout.fileno(), 65536)
        if not more:
            break
        out += more
code = run.wait()
if not ended:
    sys.exit(77)
while True:
    try:
        more = os.read(master, 4096)
    except OSError:
        break
    if not more:
        break
    seen += more
answer = json.loads(out)
words = seen.decode()


def must(holds, what):
    if not holds:
        sys.exit(f"{what}\nexit code {code}\n{words}\n{out.decode()[:2000]}")


must(code in (0, 5), "the program did not end by itself")
must("the search" in words, "that the search was stopped is not said")
must("[" in words and "]" in words, "there was no bar")
must("\r\x1b[K" in words[words.rindex("Ctrl-C stops") + 12 :], "the bar was left behind")
if code == 0:
    must(answer["text"], "a found answer without a text")
    must(answer["status"] in ("found", "stopped"), "status")
    must(answer.get("stopped", True) or answer["status"] == "stopped", "that it was stopped is not in the JSON")
else:
    must(answer["status"] == "stopped", "an ended search says more than it knows")
    must(answer["conflict"] == [], "an ended search names a conflict")
sys.stdout.write(answer.get("text") or "")
