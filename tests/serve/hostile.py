"""Thousands of damaged requests over the socket, some of them with the right token: the server goes on, nothing of what was saved before is
lost, and the next honest request is answered. Usage: hostile.py PROGRAM SOURCE_DIR

The same ones each time; BW_LONG=1 sends more, BW_LONG=all many more, BW_SAMPLE=1 fewer."""
import json
import os
import random
import socket
import sys

from server import Scratch, Server

program = sys.argv[1]
COUNT = {"": 1000 if os.environ.get("BW_SAMPLE") else 3000, "1": 8000}.get(os.environ.get("BW_LONG", ""), 40000)
dice = random.Random(20261128)
PIECES = [b"\r\n", b"\n", b"\0", b" ", b"/", b"..", b"%2e%2e/", b"%00", b"?", b":", b"\xff\xfe", b"A" * 5000, b"Transfer-Encoding: chunked\r\n", b"Content-Length: -1\r\n",
          b"Content-Length: 99999999999999999999\r\n", b"Expect: 100-continue\r\n", b"Host: evil.example\r\n", b"Range: bytes=0-,5-1\r\n", b"ffffffffffffffff\r\n",
          b"HTTP/0.9", b"HTTP/1.0", b"HTTP/9.9", b"\r\n\r\n", b"If-Match: \"0\"\r\n", b"\x1b[2J", b"{", b"\\u0000", b"[" * 3000]


def samples(s):
    head = "Host: 127.0.0.1:%d\r\nX-Bowlwright-Token: %s\r\n" % (s.port, s.token)
    body = json.dumps({"kind": "recipe", "body": "300 g lamb heart\n", "keep": True})
    bundle = json.dumps({"bowlwright": 1, "texts": [{"id": "b-1", "kind": "larder", "body": "x", "rev": 3, "saved": "2026-11-02T09:30:00.123Z"}], "versions": []})
    put = "PUT /api/texts/other HTTP/1.1\r\n%sIf-Match: \"0\"\r\nContent-Length: %d\r\n\r\n%s" % (head, len(body), body)
    chunked = "PUT /api/texts/other HTTP/1.1\r\n%sIf-Match: \"0\"\r\nTransfer-Encoding: chunked\r\n\r\n%x\r\n%s\r\n0\r\n\r\n" % (head, len(body), body)
    return [t.encode() for t in (
        "GET / HTTP/1.1\r\n%s\r\n" % head, "GET /api/texts HTTP/1.1\r\n%s\r\n" % head, "GET /api/texts/kept/versions?before=3 HTTP/1.1\r\n%s\r\n" % head, put, chunked,
        "POST /api/bundle HTTP/1.1\r\n%sContent-Length: %d\r\n\r\n%s" % (head, len(bundle), bundle), "HEAD /sw.js HTTP/1.1\r\n%s\r\n" % head,
        "DELETE /api/texts/other HTTP/1.1\r\n%sIf-Match: \"1\"\r\n\r\n" % head, put + put, "GET /api/changes?after=0 HTTP/1.1\r\n%s\r\n" % head)]


def damaged(data):
    data = bytearray(data)
    for _ in range(dice.randint(1, 4)):
        at, kind = dice.randrange(len(data) + 1), dice.randrange(5)
        if kind == 0 and at < len(data):
            data[at] = dice.randrange(256)
        elif kind == 1:
            del data[at:at + dice.randint(1, 30)]
        elif kind == 2:
            data[at:at] = dice.choice(PIECES)
        elif kind == 3:
            data[at:at] = data[max(0, at - dice.randint(1, 60)):at]
        elif dice.random() < 0.3:
            del data[at:]
    return bytes(data)


def send(s, data):
    """Without waiting for more than a first answer: some requests are never complete, and some streams never end."""
    with socket.create_connection((s.address, s.port), timeout=30) as c:
        try:
            c.sendall(data)
            c.shutdown(socket.SHUT_WR)
            c.settimeout(5)
            return c.recv(4096)
        except (ConnectionError, TimeoutError, OSError):
            return b""


with Scratch() as scratch:
    server = Server(program, scratch.path("texts.db"), scratch.page)
    states = ["first", "second", "third and last"]
    for i, body in enumerate(states):
        assert server.put("kept", body, i)[0] == 200
    answered = {}
    every = samples(server)
    for n in range(COUNT):
        code = send(server, damaged(dice.choice(every)))[9:12].decode(errors="replace")
        answered[code] = answered.get(code, 0) + 1
        if n % 50 == 0:  # others are served meanwhile
            kept = server.read("/api/texts/kept")
            assert (kept["body"], kept["rev"]) == (states[-1], 3), kept
    versions = server.read("/api/texts/kept/versions")["versions"]
    assert [v["body"] for v in versions] == ["second", "first"], versions
    assert server.put("after", "honest", 0)[0] == 200 and server.read("/api/texts/after")["body"] == "honest"
    assert server.stop() == 0
    assert len([c for c in answered if c[:1] == "4"]) >= 3 and answered.get("200", 0) > 0, answered
    print("%d damaged requests: %s" % (COUNT, ", ".join("%s %d" % (c or "cut off", n) for c, n in sorted(answered.items()))))
