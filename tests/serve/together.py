"""Several writers, several servers, listeners, a full disk, the end of a run. Usage: together.py PROGRAM SOURCE_DIR

The file is read back by Python's own sqlite3, not by the program."""
import json
import resource
import signal
import socket
import sqlite3
import sys
import threading
import urllib.parse

from server import Scratch, Server, run_tests

program = sys.argv[1]


def rows(path, question, *values):
    db = sqlite3.connect("file:%s?mode=ro" % urllib.parse.quote(path), uri=True)
    try:
        return db.execute(question, values).fetchall()
    finally:
        db.close()


class Listener:
    """Reads a stream of events by hand."""

    def __init__(self, server, last=None):
        head = "GET /api/changes HTTP/1.1\r\nHost: 127.0.0.1:%d\r\nX-Bowlwright-Token: %s\r\n" % (server.port, server.token)
        if last is not None:
            head += "Last-Event-ID: %s\r\n" % last
        self.socket = socket.create_connection(("127.0.0.1", server.port), timeout=60)
        self.socket.sendall((head + "\r\n").encode())
        self.got = b""
        self.until(b"retry: 2000")
        assert b"Content-Type: text/event-stream\r\n" in self.got, self.got

    def until(self, wanted):
        while wanted not in self.got:
            piece = self.socket.recv(4096)
            assert piece, "the stream ended without %r: %r" % (wanted, self.got)
            self.got += piece

    def heard(self, id, rev):
        self.until(b'data: {"id":"%s","rev":%d}\n\n' % (id.encode(), rev))

    def ends(self):
        while self.socket.recv(4096):
            pass
        self.socket.close()


def one_winner_a_rev():
    """Eight writers, some through a second server on the same file, all from the same rev: one gets through."""
    with Scratch() as scratch:
        store = scratch.path("texts.db")
        servers = [Server(program, store, scratch.page) for _ in range(2)]
        rounds, writers = 12, 8
        wins = [[] for _ in range(rounds)]
        gate = threading.Barrier(writers)
        unexpected = []

        def write(n):
            server = servers[n % 2]
            c = server.connect()
            for base in range(rounds):
                gate.wait()
                status, said = server.put("race", "writer %d from %d" % (n, base), base, connection=c)
                if status == 200:
                    wins[base].append((n, said["rev"]))
                elif status != 412:
                    unexpected.append((status, said))
                gate.wait()

        threads = [threading.Thread(target=write, args=(n,)) for n in range(writers)]
        for t in threads:
            t.start()
        for t in threads:
            t.join()
        assert not unexpected, unexpected
        assert all(len(w) == 1 and w[0][1] == base + 1 for base, w in enumerate(wins)), wins
        for server in servers:
            assert server.stop() == 0
        stored = rows(store, "SELECT rev, body FROM state WHERE id = 'race' ORDER BY rev")
        assert stored == [(base + 1, "writer %d from %d" % (w[0][0], base)) for base, w in enumerate(wins)], stored


def another_server_is_seen():
    with Scratch() as scratch:
        store = scratch.path("texts.db")
        a, b = Server(program, store, scratch.page), Server(program, store, scratch.page)
        assert a.token != b.token
        ear = Listener(a)
        assert b.put("t", "from b", 0)[0] == 200
        assert a.read("/api/texts/t")["body"] == "from b"
        ear.heard("t", 1)
        assert a.put("t", "stale", 0)[0] == 412
        assert a.put("t", "from a", 1)[0] == 200
        assert b.read("/api/texts/t")["body"] == "from a"
        ear.heard("t", 2)
        for server in (a, b):
            assert server.stop() == 0


def listeners_hear_everything():
    with Scratch() as scratch:
        s = Server(program, scratch.path("texts.db"), scratch.page)
        s.put("before", "x", 0)
        ears = [Listener(s), Listener(s)]
        s.put("a", "1", 0)
        s.put("a", "2", 1)
        s.ask("DELETE", "/api/texts/a", headers={"If-Match": '"2"'})
        bundle = {"bowlwright": 1, "texts": [{"id": "taken-in", "kind": "larder", "body": "x", "rev": 4, "saved": "2026-11-01T10:00:00Z"}]}
        s.ask("POST", "/api/bundle", json.dumps(bundle).encode())
        for ear in ears:
            ear.heard("a", 0)  # a save right before may have been told together with it
            ear.heard("taken-in", 4)
            assert b"before" not in ear.got
        number = int(ears[0].got.rsplit(b"id: ", 1)[1].split(b"\n")[0])
        again = Listener(s, last=number - 1)
        again.heard("taken-in", 4)
        assert b'"a"' not in again.got
        for nonsense in ["x", "-1", "999999999", ""]:
            Listener(s, last=nonsense).socket.close()
        # A place that is left can be had again.
        crowd = [Listener(s) for _ in range(20)]
        for ear in crowd:
            ear.socket.close()
        assert s.stop() == 0
        for ear in ears + [again]:
            ear.ends()


def rows_that_cannot_be_told_hold_nothing_up():
    """Another program put texts into the file whose ids no page may see."""
    with Scratch() as scratch:
        store = scratch.path("texts.db")
        s = Server(program, store, scratch.page)
        ear = Listener(s)
        db = sqlite3.connect(store)
        with db:
            db.executemany("INSERT INTO text VALUES (?, 1, 0, ?)", [("no id %d" % i, i) for i in range(1, 251)])
        db.close()
        assert s.put("told", "x", 0)[0] == 200
        ear.heard("told", 1)
        assert b"no id" not in ear.got
        assert s.stop() == 0
        ear.ends()


def streams_have_an_end():
    with Scratch() as scratch:
        s = Server(program, scratch.path("texts.db"), scratch.page)
        ears = [Listener(s) for _ in range(32)]
        status, _, data = s.ask("GET", "/api/changes")
        assert (status, json.loads(data)["why"]) == (503, "streams"), (status, data)
        assert s.ask("HEAD", "/api/texts")[0] == 200
        quiet = s.connect()
        s.ask("GET", "/api/texts", connection=quiet)  # stays open
        assert s.stop(signal.SIGINT) == 0
        for ear in ears:
            ear.ends()


def a_full_disk():
    """The kernel refuses to let a file grow (RLIMIT_FSIZE), then relents."""
    with Scratch() as scratch:
        store = scratch.path("texts.db")
        usual = resource.getrlimit(resource.RLIMIT_FSIZE)
        s = Server(program, store, scratch.page)
        resource.prlimit(s.process.pid, resource.RLIMIT_FSIZE, (300000, usual[1]))
        acknowledged, refused = 0, 0
        for i in range(60):
            status, said = s.put("big-%d" % i, "x" * 20000, 0)
            if status == 507:
                refused += 1
                assert said["why"] == "room" and said["error"]
            else:
                assert status == 200, (status, said)
                acknowledged += 1
        assert acknowledged > 0 and refused > 0, (acknowledged, refused)
        listed = s.read("/api/texts")
        assert len(listed["texts"]) == acknowledged and listed["damaged"] == 0
        assert s.ask("POST", "/api/bundle", json.dumps({"bowlwright": 1, "texts": [dict(t, body="y" * 400000) for t in listed["texts"][:1]]}).encode())[0] == 507
        resource.prlimit(s.process.pid, resource.RLIMIT_FSIZE, usual)
        for i in range(60):
            status, said = s.put("big-%d" % i, "x" * 20000, 0)
            assert status in (200, 412), (status, said)
        assert len(s.read("/api/texts")["texts"]) == 60
        assert s.stop() == 0
        assert rows(store, "PRAGMA integrity_check") == [("ok",)]
        assert rows(store, "SELECT count(*), min(length(body)), max(length(body)) FROM state") == [(60, 20000, 20000)]


run_tests([one_winner_a_rev, another_server_is_seen, listeners_hear_everything, rows_that_cannot_be_told_hold_nothing_up,
           streams_have_an_end, a_full_disk])
