"""Drills: every verb on a machine where something is wrong. Usage: drill.py BUILD_DIR SOURCE_DIR

The verbs and what is typed are the program's own: each row of its overview, and the example in that verb's help. A verb that is
added is drilled from then on.

What must hold, whatever fails: the program ends by itself with one of its exit codes; when it says that all is well the answer is the
same as on a sound machine, byte for byte; else standard error says something, and what came out is a beginning of that answer.

BW_LONG=1 tries more places, BW_LONG=all every one, BW_SAMPLE=1 fewer."""
import concurrent.futures
import fcntl
import os
import pty
import re
import shlex
import shutil
import struct
import subprocess
import sys
import tempfile
import termios

build, source = sys.argv[1], sys.argv[2]
PROGRAM = os.path.join(build, "bowlwright")
FAILING = os.path.join(build, "bowlwright-failing")
LONG = os.environ.get("BW_LONG", "")
SAMPLE = not LONG and os.environ.get("BW_SAMPLE", "")
SECONDS = 120
TODAY = "2026-11-02"
ENVIRONMENT = {"PATH": os.environ["PATH"], "BOWLWRIGHT_TODAY": TODAY, "LC_ALL": "C.UTF-8"}
for name in ("ASAN_OPTIONS", "UBSAN_OPTIONS", "TMPDIR"):
    if name in os.environ:
        ENVIRONMENT[name] = os.environ[name]
CODES = {0, 1, 2, 3, 4, 5, 6}
faults, tries = [], 0


def wrong(what, command, *rest):
    faults.append((what, command))
    print("FAILED: %s: bowlwright %s" % (what, shlex.join(command)), *rest, file=sys.stderr)


def help_of(*words):
    return subprocess.run([PROGRAM, *words, "--help"], capture_output=True, check=True, timeout=SECONDS).stdout.decode()


def commands():
    """One example of each verb, as text and, where the verb knows it, as JSON."""
    found = re.findall(r"^  ([a-z]+) +\S", help_of().split("\nVerbs:\n")[1].split("\n'bowlwright")[0], re.M)
    assert len(found) >= 11, found
    for verb in found:
        if verb == "serve":  # goes on until it is stopped: tests/serve
            continue
        text = help_of(verb)
        example = shlex.split(re.search(r"\nExample:\n\n  bowlwright (.*)", text).group(1))
        assert example[0] == verb
        yield example
        if re.search(r"^  --json\b", text, re.M):
            yield example + ["--json"]


def run(command, program=PROGRAM, env=None, cwd=source, **how):
    global tries
    tries += 1
    how.setdefault("stdin", subprocess.DEVNULL)
    how.setdefault("stdout", subprocess.PIPE)
    how.setdefault("stderr", subprocess.PIPE)
    done = subprocess.run([program, *command], cwd=cwd, env=dict(ENVIRONMENT, **(env or {})), timeout=SECONDS, **how)
    return done.returncode, done.stdout or b"", (done.stderr or b"").decode(errors="replace")


def sound(code, err, what, command):
    if code not in CODES or "Sanitizer" in err or "runtime error" in err:
        wrong("%s: exit %d" % (what, code), command, err[-2000:])
        return False
    return True


def same_or_told(what, command, usual, got):
    code, out, err = got
    if not sound(code, err, what, command):
        return
    if code == usual[0]:
        if out != usual[1]:
            wrong("%s: another answer, and nothing is said of it" % what, command, err)
    elif code not in (2, 3, 6) or not err:
        wrong("%s: exit %d without a word" % (what, code), command)
    elif not usual[1].startswith(out):
        wrong("%s: something else came out" % what, command, out[:200])


def places(count, most):
    """All of them, or 'most': the first, the last, and some between."""
    if count <= most or LONG == "all":
        return list(range(1, count + 1))
    ends = most // 4
    step = (count - 2 * ends) / (most - 2 * ends)
    between = [ends + 1 + int(i * step) for i in range(most - 2 * ends)]
    return list(range(1, ends + 1)) + between + list(range(count - ends + 1, count + 1))


def each_failure_in_turn(command, usual, scratch):
    count = os.path.join(scratch, "count")
    env = {"BW_FAIL_COUNT": count}
    assert run(command, FAILING, env)[:2] == usual[:2], command
    with open(count, encoding="ascii") as f:
        seen = re.fullmatch(r"memory (\d+) system (\d+)\n", f.read())
    for kind, n in (("memory", int(seen.group(1))), ("system", int(seen.group(2)))):
        assert n > 0
        for at in places(n, 32 if LONG else 4 if SAMPLE else 16):
            for on in ("", "+") if LONG == "all" or at % 3 == 0 else ("",):
                told = "%s %d%s" % (kind, at, on)
                got = run(command, FAILING, {"BW_FAIL": told})
                same_or_told(told, command, usual, got)
                if kind == "memory" and got[0] == 6 and (got[1] or "memory" not in got[2]):
                    wrong("%s: memory is short, and it says otherwise" % told, command, got[2])


def interruptions(command, usual):
    same_or_told("interrupted reads and writes", command, usual, run(command, FAILING, {"BW_FAIL": "slow"}))
    got = run(command, FAILING, {"BW_FAIL": "slow"})
    if got[:2] != usual[:2]:
        wrong("interrupted reads and writes: another answer", command)


def without_proc(command, usual):
    """A folder that is only made a root has no /proc to tell where the program lies."""
    if run(command, FAILING, {"BW_FAIL": "bare"})[:2] != usual[:2]:
        wrong("without /proc: another answer", command)


def nobody_listens(command, usual):
    """A pipe whose reader goes away (| head -1), a full disk, outputs and input that are closed."""
    p = subprocess.Popen([PROGRAM, *command], cwd=source, env=ENVIRONMENT, stdin=subprocess.DEVNULL, stdout=subprocess.PIPE, stderr=subprocess.PIPE)
    p.stdout.readline()
    p.stdout.close()
    err = p.stderr.read().decode(errors="replace")
    p.stderr.close()
    code = p.wait(timeout=SECONDS)
    sound(code, err, "| head -1", command)
    if code not in (usual[0], 6) or err != usual[2]:
        wrong("| head -1: exit %d, says something" % code, command, err)
    read, write = os.pipe()
    os.close(read)
    code, _, err = run(command, stdout=write)
    os.close(write)
    if code != 6 or err != usual[2]:
        wrong("a reader that is gone: exit %d" % code, command, err)
    with open("/dev/full", "wb") as full:
        code, _, err = run(command, stdout=full)
        if code != 6 or "could not be written" not in err:
            wrong("a full disk: exit %d" % code, command, err)
        code, out, _ = run(command, stderr=full)
        if (code, out) != usual[:2]:
            wrong("complaints that cannot be written change the answer", command)
    for closed in ([0], [1], [2], [0, 1], [1, 2], [0, 1, 2]):
        line = shlex.join([PROGRAM, *command]) + "".join(" %d%s&-" % (n, "<" if n == 0 else ">") for n in closed)
        code, out, err = run(["-c", line], "/bin/sh")
        sound(code, err, "closed %s" % closed, command)
        if (1 in closed and code != 6) or (1 not in closed and (code, out) != usual[:2]):
            wrong("closed %s: exit %d" % (closed, code), command, err)


def on_terminal(command, size, env):
    """The answer as a terminal of that size gets it."""
    pid, terminal = pty.fork()
    if pid == 0:
        os.chdir(source)
        fcntl.ioctl(1, termios.TIOCSWINSZ, struct.pack("HHHH", size[1], size[0], 0, 0))
        os.execve(PROGRAM, [PROGRAM, *command], dict(ENVIRONMENT, **env))
    got = b""
    try:
        while True:
            piece = os.read(terminal, 65536)
            if not piece:
                break
            got += piece
    except OSError:  # the other side is closed
        pass
    os.close(terminal)
    return os.waitstatus_to_exitcode(os.waitpid(pid, 0)[1]), got.decode(errors="replace").replace("\r\n", "\n")


def words_of(text):
    return re.sub(r"\x1b\[[0-9;]*[A-Za-z]|[^A-Za-z]+", "", text)


def terminals(command, usual):
    for size, env in (((20, 5), {"TERM": "xterm-256color"}), ((10, 3), {"TERM": "xterm"}), ((1, 1), {"TERM": "xterm"}), ((0, 0), {"TERM": "xterm", "COLUMNS": "20"}),
                      ((65535, 65535), {"TERM": "xterm"}), ((80, 24), {"TERM": "dumb"}), ((80, 24), {})):
        code, out = on_terminal(command, size, env)
        if code != usual[0] or not out:
            wrong("terminal of %d columns: exit %d" % (size[0], code), command, out[:300])
        if "\x1b" in out and env.get("TERM") in (None, "dumb"):
            wrong("colours on a terminal without", command)
    for columns in ("20", "0", "-5", "x", "99999999999999999999", ""):
        code, out, err = run(command, env={"COLUMNS": columns})
        if code != usual[0] or not out or "\x1b" in out.decode():
            wrong("COLUMNS=%s: exit %d" % (columns, code), command, err)
    code, out, err = run(command, start_new_session=True, env={"TERM": "", "HOME": ""})  # no terminal at all
    if (code, out) != usual[:2]:
        wrong("without a terminal: exit %d" % code, command, err)
    tries_before = subprocess.run([PROGRAM, *command], cwd=source, env={}, stdin=subprocess.DEVNULL, capture_output=True, timeout=SECONDS)
    sound(tries_before.returncode, tries_before.stderr.decode(errors="replace"), "an empty environment", command)


def clocks(command, usual):
    """A clock that was set back, or is far off; the age of an animal may then be another, never the manners."""
    for date in ("1900-01-01", "1969-12-31", "1970-01-01", "2000-02-29", "9999-12-31"):
        code, out, err = run(command, env={"BOWLWRIGHT_TODAY": date})
        sound(code, err, "on " + date, command)
        if code in (0, 1, 4, 5) and not out:
            wrong("on %s: no answer" % date, command)
    for seconds in (3600, 366 * 86400, 100 * 366 * 86400):
        code, out, err = run(command, FAILING, {"BOWLWRIGHT_TODAY": "", "BW_FAIL_SECONDS": "-%d" % seconds})
        sound(code, err, "clock %d s behind" % seconds, command)


def folders(command, usual, scratch):
    """From a folder that may not be written, on the same files by their full names."""
    shut = os.path.join(scratch, "shut")
    os.makedirs(shut, exist_ok=True)
    os.chmod(shut, 0o500)
    full = [os.path.join(source, w) if os.path.exists(os.path.join(source, w)) and "/" in w else w for w in command]
    code, out, err = run(full, cwd=shut)
    if code != usual[0]:
        wrong("in a folder that may not be written: exit %d" % code, command, err)
    if os.listdir(shut):
        wrong("a file is left behind", command, os.listdir(shut))


def damaged_library(command, usual, scratch):
    """The food library cut short, emptied, and with a byte changed in it: refused, and nothing is answered from it. A changed
    byte among the values of foods that an answer does not read leaves that answer as it is, to the byte."""
    with open(os.path.join(build, "bowlwright.library"), "rb") as f:
        good = f.read()
    path = os.path.join(scratch, "damaged.library")
    for at in [0, 9, 40, 200] + [len(good) * k // 12 for k in range(1, 12, 5 if SAMPLE else 1)] + [len(good) - 1]:
        for bad in (good[:at], good[:at] + bytes([good[at] ^ 0x10]) + good[at + 1:]):
            with open(path, "wb") as f:
                f.write(bad)
            code, out, err = run(command + ["--library", path])
            if len(bad) == len(good) and at >= 200 and (code, out, err) == usual:
                continue
            if at >= 200 and len(bad) == len(good) and code == 0 and "the search was stopped" in err:
                continue  # a slow machine ended the search at its time limit: another answer, of other foods
            if code != 6 or out or "library" not in err:
                wrong("a library that is damaged at %d: exit %d" % (at, code), command, err)
    with open(path, "wb") as f:
        f.write(good[:40])
    code, out, err = run(command + ["--library", path], env={"BOWLWRIGHT_LIBRARY": path})
    if code != 6:
        wrong("a damaged library is used", command)


def drill(command):
    scratch = tempfile.mkdtemp(prefix="bowlwright-drill-")
    try:
        usual = run(command)
        if usual[0] != 0 or not usual[1]:
            wrong("the example of the help ends with %d" % usual[0], command, usual[2])
            return
        each_failure_in_turn(command, usual, scratch)
        interruptions(command, usual)
        without_proc(command, usual)
        nobody_listens(command, usual)
        if "--json" not in command:
            terminals(command, usual)
            clocks(command, usual)
            folders(command, usual, scratch)
            if re.search(r"^  --library\b", help_of(command[0]), re.M):
                damaged_library(command, usual, scratch)
    finally:
        shutil.rmtree(scratch)


with concurrent.futures.ThreadPoolExecutor(2) as pool:
    every = list(commands())
    for done in pool.map(drill, every):
        pass
print("%d commands, %d runs, %d faults" % (len(every), tries, len(faults)))
sys.exit(1 if faults else 0)
