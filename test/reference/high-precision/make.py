"""Writes values.json beside this file: tails, limits and psychometric values at 60 digits, on the exact double inputs.

Run with Python 3 and mpmath; the versions used stand in the file. Edit this script, never the values.
"""
import json
import os
import platform
from fractions import Fraction
from math import comb

import mpmath as mp

mp.mp.dps = 60
text = lambda x: mp.nstr(x, 22)
THIRD = 1 / 3


def point(k, n, p):
    p = mp.mpf(p)
    return mp.binomial(n, k) * p**k * (1 - p) ** (n - k)


def upper(k, n, p):
    """P(X >= k), summed term by term until nothing is added."""
    p = mp.mpf(p)
    term, total = point(k, n, p), mp.mpf(0)
    for j in range(k, n + 1):
        total += term
        if term < total * mp.mpf(10) ** -45 and j > n * p:
            break
        term = term * (n - j) / (j + 1) * p / (1 - p)
    return total


def lower(k, n, p):
    p = mp.mpf(p)
    term, total = point(k, n, p), mp.mpf(0)
    for j in range(k, -1, -1):
        total += term
        if term < total * mp.mpf(10) ** -45 and j < n * p:
            break
        term = term * j / (n - j + 1) * (1 - p) / p
    return total


def tails():
    rows = []
    for n in (1, 2, 3, 5, 6, 12, 24, 36, 60, 108, 500, 1000, 5000, 20000, 100000):
        for p in (THIRD, 0.5, 0.1, 2 / 3, 0.95, 1e-4):
            spread = float(mp.sqrt(n * p * (1 - p)))
            counts = {round(n * p + step * spread) for step in (-36, -20, -8, -4, -2, -1, 0, 1, 2, 4, 8, 20, 36)} | {0, 1, n - 1, n}
            for k in sorted(k for k in counts if 0 <= k <= n):
                low, up = lower(k, n, p), upper(k, n, p)
                rows.append([k, n, p] + [text(v) if v > mp.mpf(10) ** -300 else None for v in (low, up)])
    return rows


def limits():
    """Clopper-Pearson limits: the share at which the tail equals the risk, by bisection to 40 digits."""
    rows = []
    for correct, n in ((0, 60), (1, 20), (7, 24), (14, 24), (20, 60), (23, 24), (24, 24), (29, 108), (333, 1000), (999, 1000), (33500, 100000)):
        for tail in (0.2, 0.05, 0.025, 0.001, 5e-7):
            low = solve(lambda p: upper(correct, n, p) - tail) if correct > 0 else mp.mpf(0)
            high = solve(lambda p: tail - lower(correct, n, p)) if correct < n else mp.mpf(1)
            rows.append([correct, n, tail, text(low), text(high)])
    return rows


def solve(rising):
    low, high = mp.mpf(0), mp.mpf(1)
    for _ in range(110):
        middle = (low + high) / 2
        low, high = (middle, high) if rising(middle) < 0 else (low, middle)
    return low


def normal():
    points = (-37, -20, -10, -8.5, -5, -4, -3, -2.6, -2.5, -1, -0.1, 0, 0.1, 1, 2.59, 2.61, 4, 6)
    return [[x, text(mp.ncdf(x)), text(mp.npdf(x))] for x in points]


def normal_quantile():
    risks = (1e-300, 1e-100, 1e-20, 1e-10, 1e-6, 9.9e-6, 1.1e-5, 0.001, 0.025, 0.05, 0.3, 0.7, 0.975, 0.999999)
    return [[p, text(-mp.sqrt(2) * mp.erfinv(1 - 2 * mp.mpf(p)) if p > 1e-40 else deep(p))] for p in risks]


def deep(p):
    return mp.findroot(lambda x: mp.log(mp.erfc(-x / mp.sqrt(2)) / 2) - mp.log(mp.mpf(p)), -mp.sqrt(-2 * mp.log(mp.mpf(p))))


def triangle():
    rows = []
    for d in (0, 0.01, 0.1, 0.5, 1, 1.5, 2, 3, 4, 6, 8, 10, 15, 20):
        shift, slope = mp.mpf(d) * mp.sqrt(mp.mpf(2) / 3), mp.sqrt(3)
        wrong = lambda z: mp.npdf(z) * (mp.ncdf(z * slope - shift) - mp.ncdf(-z * slope - shift))
        right = lambda z: mp.npdf(z) * (mp.ncdf(shift - z * slope) + mp.ncdf(-shift - z * slope))
        cuts = [0, 0.5, 1, 2, 3, 4, 6, 8, 11, 16, 30]
        rows.append([d, text(2 * mp.quad(right, cuts)), text(2 * mp.quad(wrong, cuts))])
    return rows


def power():
    """Chance of reaching the critical number, which is found with fractions, so that no rounding decides it."""
    rows = []
    for n in (6, 12, 24, 30, 36, 42, 60, 108):
        for alpha in (Fraction(1, 20), Fraction(1, 100)):
            needed = next((k for k in range(n + 1) if exact_upper(k, n) <= alpha), None)
            for pd in (0.1, 0.3, 0.5):
                share = mp.mpf(1) / 3 + mp.mpf(2) / 3 * mp.mpf(pd)
                rows.append([n, float(alpha), pd, needed, text(upper(needed, n, share))])
    return rows


def exact_upper(k, n):
    return sum(Fraction(comb(n, j) * 2 ** (n - j), 3**n) for j in range(k, n + 1))


values = {
    "id": "high-precision",
    "source": {
        "what": "computed from the definitions at 60 digits by make.py; psychometric form from memory (Frijters 1979, Ennis 1993)",
        "madeBy": f"make.py, mpmath {mp.__version__}, Python {platform.python_version()}",
    },
    "seenInSource": False,
    "nullMeans": "below 1e-300",
    "tails": {"columns": ["right", "n", "p", "lower", "upper"], "rows": tails()},
    "limits": {"columns": ["correct", "judgments", "tail", "low", "high"], "rows": limits()},
    "normal": {"columns": ["x", "lower", "density"], "rows": normal()},
    "normalQuantile": {"columns": ["p", "x"], "rows": normal_quantile()},
    "power": {"columns": ["people", "alpha", "discriminatorShare", "needed", "power"], "rows": power()},
    "triangle": {"columns": ["dprime", "right", "wrong"], "rows": triangle()},
}
def rows(part):
    if not isinstance(part, dict) or "rows" not in part:
        return json.dumps(part)
    lines = ",\n".join("  " + json.dumps(row) for row in part["rows"])
    return f'{{ "columns": {json.dumps(part["columns"])}, "rows": [\n{lines}\n ] }}'


with open(os.path.join(os.path.dirname(os.path.abspath(__file__)), "values.json"), "w") as file:
    parts = [f" {json.dumps(name)}: {rows(part)}" for name, part in values.items()]
    file.write("{\n" + ",\n".join(parts) + "\n}\n")
