"""A folder of texts is answered as each of them alone is: the same verdicts, the same replies, whatever the number of
workers; what is broken is told and stops nothing. Usage: many.py PROGRAM SOURCE_DIR"""
import collections
import json
import os
import re
import resource
import shutil
import signal
import subprocess
import sys
import tempfile
import time
import unittest
import xml.etree.ElementTree as ElementTree

program, source = sys.argv[1:3]
SVG = "{http://www.w3.org/2000/svg}"


def posts(style):
    text = read(source, "tests/post", style)
    return re.findall(r"@post (\S+)(?: held)?\n(.*?)@reads", text, re.S)


def read(*path):
    with open(os.path.join(*path), encoding="utf-8") as f:
        return f.read()


def run(*words, **how):
    return subprocess.run([program, *words], capture_output=True, text=True, timeout=1800, **how)


class Many(unittest.TestCase):
    def setUp(self):
        self.home = tempfile.mkdtemp()
        self.folder = os.path.join(self.home, "posts")
        self.out = os.path.join(self.home, "answers")
        os.mkdir(self.folder)
        for style in ("01_meals.posts", "04_cats.posts", "13_mixed.posts"):
            for name, text in posts(style):
                self.put(name + ".txt", text.encode())

    def tearDown(self):
        os.chmod(self.home, 0o700)
        shutil.rmtree(self.home)

    def put(self, name, data):
        with open(os.path.join(self.folder, name), "wb") as f:
            f.write(data)

    def names(self):
        return sorted(n for n in os.listdir(self.folder) if n.endswith(".txt"))

    def check(self, *more):
        done = run("check", "--posted", "--json", self.folder, *more)
        return done.returncode, json.loads(done.stdout)

    def test_each_as_it_alone(self):
        code, many = self.check()
        self.assertEqual([f["file"] for f in many["files"]], self.names())
        times = collections.Counter()
        for f in many["files"]:
            alone = run("check", "--posted", "--json", os.path.join(self.folder, f["file"]))
            one = json.loads(alone.stdout)
            self.assertEqual(f["code"], alone.returncode)
            short = {n["key"] for n in one["nutrients"] if n["verdict"] == "short"}
            self.assertEqual(set(f["short"]), short if f["judged"] else set())
            self.assertEqual(f["left_out"], len([x for x in one["left_out"] if x.get("fed", True)]) if "left_out" in one else 0)
            times.update(f["short"])
        self.assertEqual({n["key"]: n["short"] for n in many["nutrients"] if n["short"]}, dict(times))
        order = [n["short"] for n in many["nutrients"]]
        self.assertEqual(order, sorted(order, reverse=True))
        self.assertEqual(code, max(f["code"] for f in many["files"]))

    def test_the_same_whoever_works(self):
        self.assertEqual(self.check("--jobs", "1"), self.check("--jobs", "3"))

    def test_what_is_broken_stops_nothing(self):
        self.put("a-nul.txt", b"a\0b")
        self.put("b-empty.txt", b"")
        self.put("c \u05e9\u05dc\u05d5\u05dd \U0001f415.txt", b"Dog: 20 kg\n400 g beef heart\n")
        self.put("photo.png", b"\x89PNG")
        os.mkdir(os.path.join(self.folder, "folder.txt"))
        code, many = self.check()
        by = {f["file"]: f for f in many["files"]}
        self.assertEqual(code, 3)
        self.assertIn("NUL", by["a-nul.txt"]["complaint"])
        self.assertEqual(by["b-empty.txt"]["code"], 3)
        self.assertTrue(by["c \u05e9\u05dc\u05d5\u05dd \U0001f415.txt"]["judged"])
        self.assertEqual(many["other"], 2)
        self.assertEqual(many["unread"], 2)
        self.assertGreater(many["judged"], 10)

    def test_replies_are_those_of_each_alone(self):
        for name in self.names()[5:]:
            os.remove(os.path.join(self.folder, name))
        # Searches end by themselves in a second; under sanitizers later, and one that is ended by time may answer otherwise.
        long = ("--patience", "900")
        done = run("reply", "--posted", self.folder, "--out", self.out, "--jobs", "2", *long)
        self.assertIn("texts:", done.stdout)
        for name in self.names()[::2]:
            alone = run("reply", "--posted", os.path.join(self.folder, name), *long)
            self.assertEqual(read(self.out, name + ".reply.md"), alone.stdout)
        left = [n for n in os.listdir(self.out) if n.endswith(".part") or n.startswith(".")]
        self.assertEqual(left, [])

    def test_the_picture_says_the_same(self):
        run("check", "--posted", self.folder, "--out", self.out)
        many = json.loads(read(self.out, "summary.json"))
        svg = ElementTree.parse(os.path.join(self.out, "summary.svg")).getroot()
        words = svg.find(SVG + "desc").text
        self.assertTrue(svg.find(SVG + "title").text)
        for n in [n for n in many["nutrients"] if n["short"]][:10]:
            self.assertIn("short %d" % n["short"], words)
        self.assertIn("of %d judged" % many["judged"], "".join(t.text for t in svg.iter(SVG + "text")))
        self.assertIn("%d judged" % many["judged"], read(self.out, "summary.txt"))

    def test_where_answers_cannot_go(self):
        self.assertEqual(run("reply", "--posted", self.folder).returncode, 2)
        self.assertEqual(run("reply", "--posted", self.folder, "--out", self.folder).returncode, 2)
        self.assertEqual(run("check", "--posted", self.folder, "--out", __file__).returncode, 2)
        self.assertEqual(run("check", "--posted", self.folder, "--out", "/proc/no/such").returncode, 6)
        empty = os.path.join(self.home, "empty")
        os.mkdir(empty)
        self.assertEqual(run("check", "--posted", empty).returncode, 6)
        os.mkdir(self.out, 0o500)
        held = ["setpriv", "--bounding-set=-dac_override,-dac_read_search"] if os.geteuid() == 0 else []
        done = subprocess.run([*held, program, "check", "--posted", self.folder, "--out", self.out], capture_output=True, timeout=300)
        self.assertEqual(done.returncode, 6)
        self.assertEqual(os.listdir(self.out), [])

    def test_a_full_disk(self):
        def small_files():
            signal.signal(signal.SIGXFSZ, signal.SIG_IGN)
            resource.setrlimit(resource.RLIMIT_FSIZE, (700, 700))

        done = run("check", "--posted", self.folder, "--out", self.out, preexec_fn=small_files)
        self.assertEqual(done.returncode, 6)
        for name in os.listdir(self.out):  # nothing half-written
            self.assertFalse(name.endswith(".part") or name.startswith("."), name)
            self.assertNotIn(".check.txt", name)

    def many_copies(self):
        text = read(self.folder, self.names()[0]).encode()
        for i in range(400):
            self.put("copy-%03d.txt" % i, text)

    def start(self):
        return subprocess.Popen([program, "check", "--posted", self.folder, "--out", self.out, "--jobs", "2"],
                                stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True)

    def wait_for_answers(self, p):
        while p.poll() is None and not (os.path.isdir(self.out) and any(n.endswith(".check.txt") for n in os.listdir(self.out))):
            time.sleep(0.01)

    def test_stopped(self):
        self.many_copies()
        p = self.start()
        self.wait_for_answers(p)
        p.send_signal(signal.SIGINT)
        out, err = p.communicate(timeout=60)
        self.assertEqual(p.returncode, 6)
        self.assertIn("stopped", err)
        self.assertIn("not reached", out)
        for name in os.listdir(self.out):
            self.assertFalse(name.endswith(".part"), name)
            self.assertGreater(os.path.getsize(os.path.join(self.out, name)), 0)

    def test_a_worker_that_dies(self):
        self.many_copies()
        p = self.start()
        self.wait_for_answers(p)
        children = read("/proc/%d/task/%d/children" % (p.pid, p.pid)).split()
        os.kill(int(children[0]), signal.SIGKILL)
        out, _ = p.communicate(timeout=200)
        many = json.loads(read(self.out, "summary.json"))
        failed = [f for f in many["files"] if f["complaint"] and "failed" in f["complaint"]]
        self.assertLessEqual(len(failed), 1)
        self.assertEqual(many["reached"], many["texts"])
        self.assertGreaterEqual(many["judged"], 400)


if __name__ == "__main__":
    unittest.main(argv=sys.argv[:1])
