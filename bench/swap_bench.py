"""swap against the same work in numpy: amounts, spreads, verdicts and score of every food for every nutrient.

Usage: swap_bench.py BUILD_DIR. Both make one pass over arrays that are ready in memory, and pick the best twenty. Two numpy
forms are timed and the faster one counts: nutrient by nutrient with buffers that are reused, and all nutrients as one
matrix; both in single precision, the chance as a comparison with its bound (no distribution function for each).
"""
import subprocess
import sys
import tempfile
import time

import numpy as np

BUILD = sys.argv[1]
SHORT, THIN, MET, OVER, UNPROVEN, NO_FIGURE = range(6)
HEAD = 9
NONE = np.float32(1e30)


class Work:
    def __init__(self, path):
        data = np.fromfile(path)
        self.n, self.rows, self.z = int(data[0]), int(data[1]), np.float32(data[2])
        at = 3
        columns = []
        for _ in range(3):
            columns.append(data[at:at + self.n])
            at += self.n
        self.grams, fat, kcal = columns
        rest_fat, rest_kcal = data[at:at + 2]
        at += 2
        self.row = []
        for _ in range(self.rows):
            head = data[at:at + HEAD]
            at += HEAD
            part = [data[at + k * self.n:at + (k + 1) * self.n] for k in range(4)]
            at += 4 * self.n
            self.row.append((head, part))
        self.need_fat = rest_fat + self.grams * fat
        self.kcal = rest_kcal + self.grams * kcal
        self.prepare()

    def prepare(self):
        """What the C side has ready as well: arrays in single precision, limits of each nutrient (by energy: of each food)."""
        n, rows = self.n, self.rows
        self.g = self.grams.astype(np.float32)
        self.mean = np.empty((rows, n), np.float32)
        self.variance = np.empty_like(self.mean)
        self.most = np.empty_like(self.mean)
        self.allowance = np.empty_like(self.mean)
        self.floor = np.empty_like(self.mean)
        self.upper = np.empty_like(self.mean)
        self.rest = np.empty((rows, 3), np.float32)
        self.verdict = np.empty((rows, n), np.int64)
        for i, (head, part) in enumerate(self.row):
            _, waived, allowance, minimum, fixed, per_kcal, worst, variance, most = head
            self.mean[i], self.variance[i], self.most[i], self.verdict[i] = part
            self.rest[i] = worst, variance, most
            if waived:
                allowance = -1.0
            self.allowance[i] = allowance
            if head[0] == VITAMIN_E:
                self.allowance[i] = np.maximum(allowance, self.need_fat)
            self.floor[i] = 0.7 * self.allowance[i] if np.isnan(minimum) else minimum
            upper = np.fmin(np.full(n, fixed), per_kcal * self.kcal)
            self.upper[i] = np.where(np.isnan(upper), NONE, upper)

    def by_rows(self):
        n = self.n
        score = np.zeros(n, np.float32)
        worst, v, s, miss, t = (np.empty(n, np.float32) for _ in range(5))
        g, g2, z = self.g, self.g * self.g, self.z
        out = np.empty((self.rows, n), np.int8)
        for i in range(self.rows):
            a, upper = self.allowance[i], self.upper[i]
            np.multiply(g, self.mean[i], out=worst)
            worst += self.rest[i, 0]
            np.multiply(g2, self.variance[i], out=v)
            v += self.rest[i, 1]
            np.multiply(g, self.most[i], out=miss)
            miss += self.rest[i, 2]
            np.multiply(worst, worst, out=s)
            np.divide(v, s, out=s)
            np.log1p(s, out=s)                       # sigma^2
            np.sqrt(s, out=t)
            t *= z
            s *= np.float32(0.5)
            need = np.exp(t + s)                     # amount / allowance that is sure enough
            keep = np.exp(t - s)                     # limit / amount
            over = worst > upper
            below = worst < a
            met = (worst >= a * need) & (upper >= worst * keep)
            could = (miss > 0) & (worst + miss >= a)
            short = worst < self.floor[i]
            w = np.where(over, OVER, np.where(below, np.where(could, UNPROVEN, np.where(short, SHORT, THIN)), np.where(met, MET, THIN)))
            out[i] = w
            score += TROUBLE[w]
            np.add(score, np.float32(1) - worst / a, out=score, where=w == SHORT)
            np.add(score, np.minimum(worst / upper - 1, 1), out=score, where=w == OVER)
        best = np.argpartition(score, 20)[:20]
        return out, best

    def by_matrix(self):
        g, z = self.g, self.z
        worst = g * self.mean + self.rest[:, :1]
        v = g * g * self.variance + self.rest[:, 1:2]
        miss = g * self.most + self.rest[:, 2:3]
        sigma2 = np.log1p(v / (worst * worst))
        zs = z * np.sqrt(sigma2)
        half = np.float32(0.5) * sigma2
        met = (worst >= self.allowance * np.exp(zs + half)) & (self.upper >= worst * np.exp(zs - half))
        low = np.where((miss > 0) & (worst + miss >= self.allowance), UNPROVEN, np.where(worst < self.floor, SHORT, THIN))
        w = np.where(worst > self.upper, OVER, np.where(worst < self.allowance, low, np.where(met, MET, THIN)))
        score = TROUBLE[w] + (w == SHORT) * (1 - worst / self.allowance) + (w == OVER) * np.minimum(worst / self.upper - 1, 1)
        total = score.sum(axis=0)
        return w, np.argpartition(total, 20)[:20]


TROUBLE = np.array([0.5, 0.25, 0, 1, 0.5, 0], np.float32)


def best_of(f, runs):
    best = float("inf")
    for _ in range(runs):
        start = time.perf_counter()
        f()
        best = min(best, time.perf_counter() - start)
    return best


def nutrient_number(key):
    """Place of a nutrient in src/foods/nutrient.h."""
    import os
    import re
    root = os.path.dirname(os.path.dirname(os.path.abspath(__file__)))
    keys = re.findall(r'X\([A-Z0-9_]+, "([a-z0-9_]+)"', open(root + "/src/foods/nutrient.h").read())
    return keys.index(key)


VITAMIN_E = nutrient_number("vitamin_e")

with np.errstate(all="ignore"), tempfile.TemporaryDirectory() as folder:
    path = folder + "/swap.bin"
    printed = subprocess.check_output([BUILD + "/bench_swap", BUILD + "/bowlwright.library", path], text=True)
    ours, opened, offers, rows = [float(x) for x in printed.split()]
    work = Work(path)
    theirs = min(best_of(work.by_rows, 15), best_of(work.by_matrix, 15))
    again = float(subprocess.check_output([BUILD + "/bench_swap", BUILD + "/bowlwright.library", path], text=True).split()[0])
    ours = min(ours, again)
    judged = np.array([i for i in range(work.rows) if not np.isnan(work.row[i][0][2]) or work.row[i][0][1]])
    usable = work.grams > 0
    same = (work.by_matrix()[0][judged][:, usable] == work.verdict[judged][:, usable]).mean()
    print("swap, %d foods x %d nutrients     %8.3f ms   numpy           %8.3f ms   times faster %.1f" % (offers, rows, 1000 * ours, 1000 * theirs, theirs / ours))
    print("  (verdicts, spread and score of each; numpy agrees in %.3f %% of them, single precision decides the rest; opening once: %.1f ms)" % (100 * same, 1000 * opened))
    if same < 0.995:
        raise SystemExit("the two do not compute the same thing")
