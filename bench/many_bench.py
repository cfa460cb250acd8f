"""A thousand posts in a folder: on two cores, on one, and as a loop of the shell over processes; as ratios in the same run.

Usage: many_bench.py BUILD_DIR. The posts are those of tests/post, again and again."""
import glob
import os
import re
import subprocess
import sys
import tempfile
import time

BUILD = os.path.abspath(sys.argv[1])
ROOT = os.path.dirname(os.path.dirname(os.path.abspath(__file__)))
POSTS = 1000


def posts():
    found = []
    for path in sorted(glob.glob(ROOT + "/tests/post/*.posts")):
        with open(path, encoding="utf-8") as f:
            found += re.findall(r"@post \S+(?: held)?\n(.*?)@reads", f.read(), re.S)
    return found


def seconds(*words):
    begin = time.monotonic()
    subprocess.run(words, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL, check=False)
    return time.monotonic() - begin


def peak_mb(folder):
    """Of the largest process, the workers' memory being their own."""
    code = "import resource,subprocess,sys; subprocess.run(sys.argv[1:],stdout=-3,stderr=-3); print(resource.getrusage(resource.RUSAGE_CHILDREN).ru_maxrss)"
    printed = subprocess.check_output([sys.executable, "-c", code, BUILD + "/bowlwright", "check", "--posted", folder, "--jobs", "2"], text=True)
    return int(printed) / 1024


def main():
    texts = posts()
    with tempfile.TemporaryDirectory() as folder:
        for i in range(POSTS):
            with open("%s/post-%04d.txt" % (folder, i), "w", encoding="utf-8") as f:
                f.write(texts[i % len(texts)])
        few = folder + "/few"
        os.mkdir(few)
        for i in range(len(texts)):
            with open("%s/post-%04d.txt" % (few, i), "w", encoding="utf-8") as f:
                f.write(texts[i])
        check = BUILD + "/bowlwright check --posted "
        two, one, loop = [], [], []
        for _ in range(3):
            two.append(seconds(BUILD + "/bowlwright", "check", "--posted", folder, "--jobs", "2"))
            one.append(seconds(BUILD + "/bowlwright", "check", "--posted", folder, "--jobs", "1"))
            loop.append(seconds("sh", "-c", 'for f in "$0"/*.txt; do %s "$f" >/dev/null 2>&1; done' % check, folder))
        a, b, c = min(two), min(one), min(loop)
        print("%d posts on two cores           %8.2f s    on one core        %8.2f s    ratio %.3f" % (POSTS, a, b, a / b))
        print("%d posts on two cores           %8.2f s    a loop of processes %7.2f s    ratio %.3f" % (POSTS, a, c, a / c))
        many, less = peak_mb(folder), peak_mb(few)
        print("peak memory at %d posts        %8.1f MB   at %d posts         %8.1f MB   ratio %.3f" % (POSTS, many, len(texts), less, many / less))


main()
