"""Starts the served page on a free loopback port and speaks to it, with nothing but Python's standard library."""
import atexit
import errno
import http.client
import json
import os
import re
import shutil
import signal
import socket
import subprocess
import sys
import tempfile
import time

PAGE = """<!doctype html>
<html lang="en">
  <head>
    <title>A page for tests</title>
  </head>
  <body></body>
</html>
"""


class Server:
    """One run of `bowlwright serve`. Reads its address and, from the page, its token."""

    def __init__(self, program, store, page, *options, limits=None):
        self.err = tempfile.TemporaryFile()
        self.process = subprocess.Popen(
            [program, "serve", "--store", store, "--page", page, "--port", "0", *options],
            stdout=subprocess.PIPE, stderr=self.err, stdin=subprocess.DEVNULL, preexec_fn=limits)
        atexit.register(self.process.kill)  # a test that fails leaves nothing running
        line = self.process.stdout.readline().decode()
        found = re.fullmatch(r"http://([0-9.]+|\[::1\]):([0-9]+)/\n", line)
        if not found:
            self.process.kill()
            self.process.wait()
            raise AssertionError("no address: %r %s" % (line, self.said()))
        self.address = found.group(1).strip("[]")
        self.port = int(found.group(2))
        self.token = json.loads(self.ask("GET", "/api/token", token=None)[2])["token"]

    def said(self):
        self.err.seek(0)
        return self.err.read().decode(errors="replace")

    def connect(self):
        return http.client.HTTPConnection(self.address, self.port, timeout=60)

    def ask(self, method, path, body=None, headers=None, token="", connection=None):
        """(status, headers, bytes). token: "" the right one, None none at all."""
        h = {} if token is None else {"X-Bowlwright-Token": token or self.token}
        h.update(headers or {})
        c = connection or self.connect()
        c.request(method, path, body=body, headers=h)
        answer = c.getresponse()
        data = answer.read()
        if not connection:
            c.close()
        return answer.status, answer.headers, data

    def put(self, id, body, base, kind="recipe", keep=True, connection=None):
        status, _, data = self.ask("PUT", "/api/texts/" + id, json.dumps({"kind": kind, "body": body, "keep": keep}).encode(),
                                   {"If-Match": '"%d"' % base}, connection=connection)
        return status, json.loads(data)

    def read(self, path):
        status, _, data = self.ask("GET", path)
        assert status == 200, (path, status, data)
        return json.loads(data)

    def raw(self, data, shut=True):
        """Bytes as they are; what comes back until the server closes."""
        with socket.create_connection((self.address, self.port), timeout=60) as s:
            s.sendall(data)
            if shut:
                try:
                    s.shutdown(socket.SHUT_WR)
                except OSError as e:  # it has refused what came first and closed already
                    if e.errno != errno.ENOTCONN:
                        raise
            got = b""
            try:
                while True:
                    piece = s.recv(65536)
                    if not piece:
                        return got
                    got += piece
            except ConnectionResetError:
                return got

    def stop(self, how=signal.SIGTERM):
        """The exit code; a sanitizer's complaint is a failure whatever the code."""
        self.process.send_signal(how)
        code = self.process.wait(timeout=60)
        self.process.stdout.close()
        said = self.said()
        self.err.close()
        assert "Sanitizer" not in said and "runtime error" not in said, said
        return code


class Scratch:
    """A folder with a small page in it; removed at the end."""

    def __enter__(self):
        self.folder = tempfile.mkdtemp(prefix="bowlwright-serve-")
        self.page = os.path.join(self.folder, "page")
        os.makedirs(os.path.join(self.page, "assets"))
        self.write("page/index.html", PAGE)
        self.write("page/sw.js", "// a worker\n")
        self.write("page/icon.svg", "<svg xmlns='http://www.w3.org/2000/svg'/>")
        self.write("page/manifest.webmanifest", "{}")
        self.write("page/assets/index-1a2b.js", "export {};\n")
        self.write("page/assets/core-3c4d.wasm", "\0asm")
        self.write("page/assets/table-5e6f.packed", "packed")
        self.write("secret.txt", "outside the page")
        return self

    def __exit__(self, *_):
        shutil.rmtree(self.folder)

    def path(self, name):
        return os.path.join(self.folder, name)

    def write(self, name, text):
        with open(self.path(name), "w", encoding="utf-8", newline="") as f:
            f.write(text)


def run_tests(tests):
    """Calls each with nothing; prints the ones that fail; ends the process."""
    failed = 0
    for test in tests:
        began = time.monotonic()
        try:
            test()
            if os.environ.get("BW_TIMES"):
                print("%6.2f s %s" % (time.monotonic() - began, test.__name__))
        except Exception as e:  # a failed check, or anything that a broken server causes
            import traceback
            failed += 1
            print("FAILED: %s: %r" % (test.__name__, e), file=sys.stderr)
            traceback.print_exc()
    print("%d of %d passed" % (len(tests) - failed, len(tests)))
    sys.exit(1 if failed else 0)
