"""Kill -9 in the middle of saves, many times over: what was acknowledged is there, and nothing else happened.
Usage: killed.py PROGRAM SOURCE_DIR [ROUNDS]

Several writers save their own texts and one that they share, as fast as they can; the server is killed at a random moment; after each
round Python's own sqlite3 reads the file. A save whose answer never came may or may not be there, in whole.

Stopped as Ctrl-C does, the server finishes what it has begun: everything on the disk has been acknowledged."""
import http.client
import json
import os
import random
import shutil
import signal
import sqlite3
import sys
import threading
import time

from server import Scratch, Server

program = sys.argv[1]
rounds = int(sys.argv[3]) if len(sys.argv) > 3 else 100
WRITERS = 4
dice = random.Random(20261102)


def body_of(id, base, writer):
    """What a save says follows from where it comes from: half a text would be seen."""
    return "%s %d %d %s" % (id, base, writer, "x" * (base * 7919 % 30000))


class Writer(threading.Thread):
    def __init__(self, server, n, known):
        super().__init__()
        self.server, self.n, self.known = server, n, dict(known)
        self.acknowledged, self.attempted, self.wrong = [], [], []

    def save(self, connection, id):
        base = self.known.get(id, 0)
        self.attempted.append((id, base + 1))
        status, said = self.server.put(id, body_of(id, base, self.n), base, keep=base % 3 == 0, connection=connection)
        if status == 200:
            self.acknowledged.append((id, said["rev"], body_of(id, base, self.n)))
            self.known[id] = said["rev"]
        elif status == 412:
            self.known[id] = said["theirs"]["rev"]
        else:
            self.wrong.append((status, said))

    def run(self):
        try:
            c = self.server.connect()
            while True:
                self.save(c, "own-%d" % self.n)
                self.save(c, "shared")
        except (OSError, http.client.HTTPException, json.JSONDecodeError):
            pass  # the server is gone


def look(path):
    db = sqlite3.connect(path)
    try:
        assert db.execute("PRAGMA integrity_check").fetchall() == [("ok",)]
        states = {(id, rev): body for id, rev, body in db.execute("SELECT id, rev, body FROM state")}
        heads = dict(db.execute("SELECT id, rev FROM text").fetchall())
        return states, heads
    finally:
        db.close()


def one_round(scratch, store, states, heads, how):
    server = Server(program, store, scratch.page)
    writers = [Writer(server, n, heads) for n in range(WRITERS)]
    for w in writers:
        w.start()
    time.sleep(dice.uniform(0.0, 0.04))
    server.process.send_signal(how)
    assert server.process.wait() == (0 if how == signal.SIGTERM else -signal.SIGKILL)
    for w in writers:
        w.join()
    server.process.stdout.close()
    server.err.close()
    # As it would be found after a crash, log and all: read a copy, so that the program itself does the recovery too.
    shutil.copy(store, scratch.path("found.db"))
    log = scratch.path("found.db-wal")
    if os.path.exists(store + "-wal"):
        shutil.copy(store + "-wal", log)
    elif os.path.exists(log):
        os.remove(log)
    now, now_heads = look(scratch.path("found.db"))
    for w in writers:
        assert not w.wrong, w.wrong
        for id, rev, body in w.acknowledged:
            assert now.get((id, rev)) == body, "acknowledged, and lost: %s %d" % (id, rev)
    attempted = {a for w in writers for a in w.attempted}
    for key, body in states.items():
        assert now.get(key) == body, "an older state changed: %s %d" % key
    for (id, rev), body in now.items():
        if (id, rev) not in states:
            assert (id, rev) in attempted, "nobody wrote %s %d" % (id, rev)
            assert body == body_of(id, rev - 1, int(body.split(" ")[2])), "half a text: %s %d" % (id, rev)
    for id, rev in now_heads.items():
        assert {r for i, r in now if i == id} == set(range(1, rev + 1)), "a gap in %s" % id
    return now, now_heads, sum(len(w.acknowledged) for w in writers)


with Scratch() as scratch:
    store, states, heads, total, cut_short = scratch.path("texts.db"), {}, {}, 0, 0
    for _ in range(rounds):
        before = len(states)
        states, heads, acknowledged = one_round(scratch, store, states, heads, signal.SIGKILL)
        total += acknowledged
        cut_short += len(states) - before - acknowledged
    for _ in range(rounds // 2):
        before = len(states)
        states, heads, acknowledged = one_round(scratch, store, states, heads, signal.SIGTERM)
        assert len(states) - before == acknowledged, "stopped between a save and its answer"
    last = Server(program, store, scratch.page)
    assert {t["id"]: t["rev"] for t in last.read("/api/texts")["texts"]} == heads
    assert last.stop() == 0
    print("%d kills, %d saves acknowledged, none lost; %d more were on the disk when the answer was cut off; %d stops, all answered"
          % (rounds, total, cut_short, rounds // 2))
    assert total > rounds, "too few saves to prove anything"
