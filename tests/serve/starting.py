"""How a run begins and ends: exit codes, complaints, files that are left alone, backups. Usage: starting.py PROGRAM SOURCE_DIR"""
import os
import re
import resource
import shutil
import signal
import socket
import sqlite3
import subprocess
import sys
import time
import urllib.request

from server import Scratch, Server, run_tests

program = sys.argv[1]


def run(*options, env=None, limits=None):
    """Runs to the end: (code, standard output, standard error)."""
    done = subprocess.run([program, "serve", *options], stdin=subprocess.DEVNULL, capture_output=True, timeout=60,
                          env=dict(os.environ, **(env or {})), preexec_fn=limits)
    out, err = done.stdout.decode(), done.stderr.decode()
    assert "Sanitizer" not in err and "runtime error" not in err, err
    return done.returncode, out, err


def refused(code, words, *options, **kw):
    got, out, err = run(*options, **kw)
    assert got == code and out == "" and re.search(words, err), (got, out, err)
    return err


def bytes_of(path):
    with open(path, "rb") as f:
        return f.read()


def usage():
    with Scratch() as t:
        for options, words in [(["--port", "x"], "takes a number"), (["--port", "65536"], "0 to 65535"), (["--port", "-1"], "."),
                               (["extra"], "does not know"), (["--json"], "no option --json"), (["--dog", "18kg"], "no option --dog"),
                               (["--listen", "localhost"], "address in figures"), (["--listen", "127.0.0.1:80"], "address in figures"),
                               (["--stor", "x"], "did you mean '--store'"), (["--store"], "needs a value"), (["--store", ""], "needs a value")]:
            refused(2, words, "--page", t.page, *options)
        code, out, _ = run("--help")
        assert code == 0 and "bowlwright serve" in out and "--store FILE" in out


def beyond_this_machine_only_when_asked_twice():
    with Scratch() as t:
        store = ["--store", t.path("texts.db"), "--page", t.page, "--port", "0"]
        for address in ["0.0.0.0", "::", "192.0.2.1", "10.0.0.1", "::ffff:127.0.0.1"]:
            err = refused(2, "--yes-beyond-this-machine", "--listen", address, *store)
            assert address in err
        # An address of documentation (RFC 5737), which no machine has: the warning comes, and nothing can listen there.
        refused(6, "warning: everybody.*\n.*cannot listen at 192.0.2.1", "--listen", "192.0.2.1", "--yes-beyond-this-machine", *store)
        s = Server(program, t.path("texts.db"), t.page, "--listen", "127.0.0.2")
        assert s.ask("GET", "/api/texts", headers={"Host": "127.0.0.2:%d" % s.port})[0] == 200
        assert s.ask("GET", "/api/texts", headers={"Host": "elsewhere.example:%d" % s.port})[0] == 403
        assert s.stop() == 0


def the_other_loopback():
    try:
        with socket.socket(socket.AF_INET6) as six:
            six.bind(("::1", 0))
    except OSError:
        return  # this machine has none
    with Scratch() as t:
        s = Server(program, t.path("texts.db"), t.page, "--listen", "::1")
        assert s.ask("GET", "/api/texts")[0] == 200
        assert s.stop() == 0


def only_this_machine_hears():
    with Scratch() as t:
        s = Server(program, t.path("texts.db"), t.page)
        try:
            socket.create_connection(("127.0.0.3", s.port), timeout=5).close()
            raise AssertionError("it listens at more than 127.0.0.1")
        except ConnectionRefusedError:
            pass
        assert s.stop() == 0


def a_port_in_use():
    with Scratch() as t:
        s = Server(program, t.path("texts.db"), t.page)
        refused(6, r"port %d of 127.0.0.1 is in use.*--port \d+" % s.port, "--page", t.page, "--store", t.path("texts.db"), "--port", str(s.port))
        assert s.ask("GET", "/api/texts")[0] == 200
        assert s.stop() == 0
        again = subprocess.Popen([program, "serve", "--page", t.page, "--store", t.path("texts.db"), "--port", str(s.port)], stdout=subprocess.PIPE,
                                 stderr=subprocess.DEVNULL)
        assert again.stdout.readline().decode() == "http://127.0.0.1:%d/\n" % s.port  # free again at once
        again.send_signal(signal.SIGTERM)
        assert again.wait(timeout=60) == 0
        again.stdout.close()


def no_page():
    with Scratch() as t:
        refused(6, "no index.html", "--page", t.path("page/assets"), "--store", t.path("texts.db"))
        refused(6, "cannot be read", "--page", t.path("nowhere"), "--store", t.path("texts.db"))
        assert not os.path.exists(t.path("texts.db"))


def the_page_in_the_program():
    """A build without the page says how to get one; a build with it gives it out."""
    with Scratch() as t:
        p = subprocess.Popen([program, "serve", "--store", t.path("texts.db"), "--port", "0"], stdout=subprocess.PIPE, stderr=subprocess.PIPE)
        line = p.stdout.readline().decode()
        if line:
            page = urllib.request.urlopen(line.strip(), timeout=60).read().decode()
            p.send_signal(signal.SIGTERM)
            assert 'name="bowlwright-token"' in page and "<title>Bowlwright</title>" in page
        _, err = p.communicate(timeout=60)
        assert p.returncode == 0 if line else (p.returncode == 6 and b"no page in it" in err and b"make serve" in err), err


def stores_that_are_left_alone():
    with Scratch() as t:
        s = Server(program, t.path("good.db"), t.page)
        for i in range(30):
            s.put("t-%d" % i, "x" * 5000, 0)
        assert s.stop() == 0
        good = bytes_of(t.path("good.db"))
        assert not os.path.exists(t.path("good.db-wal"))
        files = {"garbage.db": (b"no database at all, but long enough for a header of one hundred bytes; so SQLite reads it, and is surprised. " * 9, "damaged"),
                 "cut.db": (good[: len(good) // 2], "damaged"),
                 "holed.db": (good[: len(good) // 2] + b"\xa5" * 9000 + good[len(good) // 2 + 9000:], "damaged")}
        for name, (content, _) in files.items():
            with open(t.path(name), "wb") as f:
                f.write(content)
        for name, version, words in [("newer.db", "PRAGMA user_version = 4", "newer edition"), ("foreign.db", "PRAGMA application_id = 7", "another program")]:
            shutil.copy(t.path("good.db"), t.path(name))
            db = sqlite3.connect(t.path(name))
            db.execute(version)
            db.execute("PRAGMA journal_mode = DELETE")
            db.close()
            files[name] = (bytes_of(t.path(name)), words)
        for name, (content, words) in files.items():
            err = refused(6, words, "--page", t.page, "--store", t.path(name), "--port", "0")
            assert "left as it is" in err or "left as it was" in err or "was left" in err, err
            refused(6, words, "--store", t.path(name), "--backup", t.path("copy-of-" + name))
            assert bytes_of(t.path(name)) == content, name
            assert not os.path.exists(t.path("copy-of-" + name))
        refused(6, "not a file", "--page", t.page, "--store", t.folder, "--port", "0")
        refused(6, "Not a directory|is not used", "--page", t.page, "--store", t.path("good.db/texts.db"), "--port", "0")


def no_room_to_begin():
    with Scratch() as t:
        limit = lambda: resource.setrlimit(resource.RLIMIT_FSIZE, (0, resource.RLIM_INFINITY))
        refused(6, "no room", "--page", t.page, "--store", t.path("texts.db"), "--port", "0", limits=limit)
        s = Server(program, t.path("texts.db"), t.page)  # what is left of the try does not stand in the way
        assert s.put("a", "x", 0)[0] == 200
        assert s.stop() == 0


def media_that_refuse():
    """A store on a medium that may only be read, and one on a disk without room: both are opened for reading and copied.
    Needs leave to mount; without it the C tests of the store stand alone."""
    with Scratch() as t:
        s = Server(program, t.path("texts.db"), t.page)
        assert s.put("a", "kept", 0)[0] == 200
        assert s.stop() == 0
        os.mkdir(t.path("medium"))
        if subprocess.run(["mount", "-t", "tmpfs", "-o", "size=256k", "none", t.path("medium")], capture_output=True).returncode != 0:
            print("media_that_refuse: may not mount here")
            return
        try:
            shutil.copy(t.path("texts.db"), t.path("medium/texts.db"))
            try:
                with open(t.path("medium/full"), "wb", buffering=0) as f:
                    while f.write(b"x" * 4096):
                        pass
            except OSError:
                pass
            s = Server(program, t.path("medium/texts.db"), t.page)
            assert s.read("/api/texts/a")["body"] == "kept"
            assert s.put("a", "no room for this", 1)[0] == 507
            os.remove(t.path("medium/full"))
            assert s.put("a", "room again", 1)[0] == 200
            assert s.stop() == 0
            subprocess.run(["mount", "-o", "remount,ro", t.path("medium")], check=True)
            s = Server(program, t.path("medium/texts.db"), t.page)
            assert s.read("/api/texts/a")["body"] == "room again"
            status, said = s.put("a", "never", 2)
            assert status == 507 and said["why"] == "read-only", said
            assert s.stop() == 0
            assert run("--store", t.path("medium/texts.db"), "--backup", t.path("copy.db"))[0] == 0
            assert os.path.getsize(t.path("copy.db")) > 4096
        finally:
            subprocess.run(["umount", t.path("medium")], check=True)


def where_texts_are_kept():
    with Scratch() as t:
        for env, place in [({"XDG_DATA_HOME": t.path("data"), "HOME": t.path("home")}, "data/bowlwright/bowlwright.db"),
                           ({"XDG_DATA_HOME": "relative", "HOME": t.path("home")}, "home/.local/share/bowlwright/bowlwright.db"),
                           ({"XDG_DATA_HOME": "", "HOME": t.path("home")}, "home/.local/share/bowlwright/bowlwright.db")]:
            p = subprocess.Popen([program, "serve", "--page", t.page, "--port", "0"], stdout=subprocess.PIPE, stderr=subprocess.PIPE, env=dict(os.environ, **env))
            assert p.stdout.readline().startswith(b"http://127.0.0.1:")
            p.send_signal(signal.SIGINT)
            _, err = p.communicate(timeout=60)
            assert p.returncode == 0 and t.path(place).encode() in err, err
            assert os.stat(t.path(place)).st_mode & 0o777 == 0o600
        refused(6, "--store FILE", "--page", t.page, env={"XDG_DATA_HOME": "", "HOME": ""})


def showing_it_in_a_browser():
    """A stand-in for xdg-open writes down what it is given. Signals that the server holds back must reach it."""
    with Scratch() as t:
        t.write("xdg-open", '#!/bin/sh\nprintf "%s %s" "$1" "$(awk \'/^SigBlk/ { print $2 }\' /proc/self/status)" >"$0.new" && mv "$0.new" "$0.said"\n')
        os.chmod(t.path("xdg-open"), 0o700)
        p = subprocess.Popen([program, "serve", "--quiet", "--open", "--page", t.page, "--store", t.path("texts.db"), "--port", "0"], stdout=subprocess.PIPE,
                             stderr=subprocess.PIPE, env=dict(os.environ, PATH=t.folder + ":" + os.environ["PATH"]))
        address = p.stdout.readline().decode().strip()
        for _ in range(400):
            if os.path.exists(t.path("xdg-open.said")):
                break
            time.sleep(0.05)
        p.send_signal(signal.SIGTERM)
        _, err = p.communicate(timeout=60)
        assert p.returncode == 0 and err == b"", err
        with open(t.path("xdg-open.said"), encoding="utf-8") as f:
            said, held = f.read().split(" ")
        assert said == address and int(held, 16) == 0, (said, address, held)


def a_backup_beside_a_running_server():
    with Scratch() as t:
        s = Server(program, t.path("texts.db"), t.page)
        s.put("a", "one", 0)
        s.put("a", "two", 1)
        code, out, err = run("--store", t.path("texts.db"), "--backup", t.path("copy.db"))
        assert code == 0 and "copy.db" in out and err == "", (code, out, err)
        assert s.put("a", "three", 2)[0] == 200
        copy = bytes_of(t.path("copy.db"))
        refused(6, "never writes over", "--store", t.path("texts.db"), "--backup", t.path("copy.db"))
        assert bytes_of(t.path("copy.db")) == copy
        db = sqlite3.connect("file:%s?immutable=1" % t.path("copy.db"), uri=True)
        assert db.execute("PRAGMA integrity_check").fetchall() == [("ok",)]
        assert db.execute("SELECT rev, body FROM state ORDER BY rev").fetchall() == [(1, "one"), (2, "two")]
        db.close()
        refused(6, "no store", "--store", t.path("nowhere.db"), "--backup", t.path("other.db"))
        assert not os.path.exists(t.path("nowhere.db"))
        assert s.stop() == 0
        # No room for the copy: none is left behind.
        limit = lambda: resource.setrlimit(resource.RLIMIT_FSIZE, (8192, resource.RLIM_INFINITY))
        shutil.copy(t.path("texts.db"), t.path("source.db"))
        refused(6, "room|not written|is not used", "--store", t.path("source.db"), "--backup", t.path("cut.db"), limits=limit)
        assert not os.path.exists(t.path("cut.db"))
        restored = Server(program, t.path("copy.db"), t.page)
        assert restored.read("/api/texts/a")["body"] == "two"
        assert restored.stop(signal.SIGHUP) == 0


def a_backup_that_is_killed():
    """What bears the name of a backup is a whole one: half a copy would be found on the day it is needed."""
    with Scratch() as t:
        s = Server(program, t.path("texts.db"), t.page)
        for i in range(8):
            assert s.put("t-%d" % i, "x" * 4000000, 0)[0] == 200
        assert s.stop() == 0
        cut_short = 0
        for n in range(8):
            os.mkdir(t.path("copies-%d" % n))
            p = subprocess.Popen([program, "serve", "--store", t.path("texts.db"), "--backup", t.path("copies-%d/copy.db" % n)], stdout=subprocess.DEVNULL)
            while p.poll() is None and not os.listdir(t.path("copies-%d" % n)):
                pass
            time.sleep(n * 0.005)
            p.kill()
            p.wait()
            if os.path.exists(t.path("copies-%d/copy.db" % n)):
                db = sqlite3.connect("file:%s?immutable=1" % t.path("copies-%d/copy.db" % n), uri=True)
                assert db.execute("SELECT count(*), min(length(body)) FROM state").fetchall() == [(8, 4000000)]
                db.close()
            else:
                cut_short += 1
                assert run("--store", t.path("texts.db"), "--backup", t.path("copies-%d/copy.db" % n))[0] == 0
        assert cut_short > 0


run_tests([usage, beyond_this_machine_only_when_asked_twice, the_other_loopback, only_this_machine_hears, a_port_in_use, no_page, the_page_in_the_program,
           stores_that_are_left_alone, no_room_to_begin, media_that_refuse, where_texts_are_kept, showing_it_in_a_browser,
           a_backup_beside_a_running_server, a_backup_that_is_killed])
