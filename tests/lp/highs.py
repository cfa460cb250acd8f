"""Solves programs in the LP format as src/lp/write.c writes it with HiGHS, by way of scipy.

Usage: highs.py FILE [TIMES]. FILE holds many programs, each ends with a line "End". One line is printed for each:
status (optimal, infeasible, unbounded, other), objective, seconds of processor time (the least of TIMES runs).
"""
import sys
import time

import numpy
from scipy.optimize import Bounds, LinearConstraint, milp

STATUS = {0: "optimal", 2: "infeasible", 3: "unbounded"}


def form(tokens):
    """Coefficients of "+ 3 x1 - 2 x2" or "x1 - 5 u1"."""
    out, sign, number = {}, 1.0, 1.0
    for token in tokens:
        if token in "+-":
            sign, number = (1.0 if token == "+" else -1.0), 1.0
        elif token[0].isalpha():
            out[token] = out.get(token, 0.0) + sign * number
        else:
            number = float(token)
    return out


class Program:
    def __init__(self):
        self.cost, self.rows, self.bounds, self.whole, self.index = {}, [], {}, [], {}

    def column(self, name):
        return self.index.setdefault(name, len(self.index))

    def read(self, text):
        section, statement = None, []
        for line in text:
            if line.startswith("\\"):
                continue
            words = line.split()
            head = line.strip()
            if head in ("Minimize", "Subject To", "Bounds", "Generals", "Binaries", "End"):
                self.take(section, statement)
                section, statement = head, []
            elif section in ("Bounds", "Generals", "Binaries"):
                self.take(section, words)
            elif words and words[0].endswith(":"):
                self.take(section, statement)
                statement = words[1:]
            else:
                statement += words

    def take(self, section, words):
        if not words:
            return
        if section == "Minimize":
            self.cost = form(words)
        elif section == "Subject To":
            relation, limit = words[-2], float(words[-1])
            low = limit if relation in (">=", "=") else -numpy.inf
            high = limit if relation in ("<=", "=") else numpy.inf
            self.rows.append((form(words[:-2]), low, high))
        elif section == "Bounds":
            if words[-1] == "free":
                self.bounds[words[0]] = (-numpy.inf, numpy.inf)
            else:
                self.bounds[words[2]] = (float(words[0]), float(words[4]) if len(words) > 3 else numpy.inf)
        else:
            self.whole.append(words[0])
            self.bounds[words[0]] = (0, 1 if section == "Binaries" else numpy.inf)

    def arrays(self):
        for name in list(self.cost) + list(self.bounds):
            self.column(name)
        for row, _, _ in self.rows:
            for name in row:
                self.column(name)
        n = len(self.index)
        cost, low, high, whole = numpy.zeros(n), numpy.zeros(n), numpy.full(n, numpy.inf), numpy.zeros(n)
        for name, value in self.cost.items():
            cost[self.index[name]] = value
        for name, (lo, hi) in self.bounds.items():
            low[self.index[name]], high[self.index[name]] = lo, hi
        for name in self.whole:
            whole[self.index[name]] = 1
        a = numpy.zeros((len(self.rows), n))
        row_low, row_high = numpy.zeros(len(self.rows)), numpy.zeros(len(self.rows))
        for i, (row, lo, hi) in enumerate(self.rows):
            size = max([abs(v) for v in row.values()] + [0]) or 1.0  # HiGHS drops coefficients under 1e-9
            for name, value in row.items():
                a[i, self.index[name]] = value / size
            row_low[i], row_high[i] = lo / size, hi / size
        return cost, low, high, whole, a, row_low, row_high


def solve(cost, low, high, whole, a, row_low, row_high):
    limits = [LinearConstraint(a, row_low, row_high)] if len(a) else []
    options = {"mip_rel_gap": 1e-9} if whole.any() else {}
    start = time.process_time()
    answer = milp(cost, constraints=limits, bounds=Bounds(low, high), integrality=whole, options=options)
    seconds = time.process_time() - start
    if answer.status == 4 and "unbounded or infeasible" in answer.message.lower().replace("infeasible or unbounded", "unbounded or infeasible"):
        again = milp(numpy.zeros_like(cost), constraints=limits, bounds=Bounds(low, high), integrality=whole)
        return ("unbounded" if again.status == 0 else STATUS.get(again.status, "other")), None, seconds
    return STATUS.get(answer.status, "other"), answer.fun, seconds


def main():
    times = int(sys.argv[2]) if len(sys.argv) > 2 else 1
    text = []
    with open(sys.argv[1]) as file:
        for line in file:
            text.append(line)
            if line != "End\n":
                continue
            program = Program()
            program.read(text)
            text = []
            arrays = program.arrays()
            runs = [solve(*arrays) for _ in range(times)]
            status, objective, _ = runs[0]
            print(status, repr(float(objective)) if objective is not None else "nan", min(r[2] for r in runs))


main()
