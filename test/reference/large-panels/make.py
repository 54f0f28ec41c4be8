"""Binomial tails of large panels at 40 digits, summed term by term as tails, and two-group tails (hypergeometric).

Inputs are the exact values of the doubles. Run: python3 make.py
"""

import json
import os
import platform

import mpmath
from mpmath import mp, mpf

mp.dps = 40
least = mpf(10) ** -300


def log_point(k, n, p):
    return (
        mpmath.loggamma(n + 1) - mpmath.loggamma(k + 1) - mpmath.loggamma(n - k + 1)
        + k * mpmath.log(p) + (n - k) * mpmath.log(1 - p)
    )


def tail(k, n, p, direction):
    term = mpmath.exp(log_point(k, n, p))
    total, odds = term, p / (1 - p)
    while 0 <= k + direction <= n and term > total * mpf(10) ** -35:
        term *= (n - k) * odds / (k + 1) if direction > 0 else k / (odds * (n - k + 1))
        k += direction
        total += term
    return total


def tails():
    rows = []
    for share in (1 / 2, 1 / 3):
        p = mpf(share)
        for n in (1, 7, 60, 1000, 20000, 100000):
            sd = mpmath.sqrt(n * p * (1 - p))
            for step in (-36, -30, -20, -10, -5, -2, -1, 0, 1, 2, 5, 10, 20, 30, 36):
                k = int(mpmath.nint(n * p + step * sd))
                if not 0 <= k <= n or (rows and rows[-1][:3] == [k, n, share]):
                    continue
                upper, lower = tail(k, n, p, 1), tail(k, n, p, -1)
                text = lambda value: mpmath.nstr(value, 22) if value >= least else None
                rows.append([k, n, share, text(lower), text(upper)])
    return rows


def groups():
    rows = []
    for first, second, told in ((4, 4, 4), (3, 3, 3), (12, 12, 11), (24, 24, 25), (25, 26, 20), (60, 60, 55), (40, 80, 90),
                                (500, 700, 640), (5000, 5000, 4000), (40000, 60000, 50000)):
        mean = mpf(told) * first / (first + second)
        sd = mpmath.sqrt(mean * (1 - mpf(told) / (first + second)) * second / (first + second - 1))
        low, high = max(0, told - second), min(first, told)
        seen = set()
        for step in (-3, -1, 0, 1, 2, 3, 6, 12, 25):
            k = int(mpmath.nint(mean + step * sd))
            if k in seen or not low <= k <= high:
                continue
            seen.add(k)
            term = mpmath.exp(
                sum(mpmath.loggamma(a + 1) - mpmath.loggamma(b + 1) - mpmath.loggamma(a - b + 1)
                    for a, b in ((first, k), (second, told - k)))
                - mpmath.loggamma(first + second + 1) + mpmath.loggamma(told + 1) + mpmath.loggamma(first + second - told + 1)
            )
            total, at = term, k
            while at < high and (at < mean or term > total * mpf(10) ** -35):
                term *= mpf(first - at) * (told - at) / ((at + 1) * mpf(second - told + at + 1))
                at += 1
                total += term
            if total >= least:
                rows.append([k, first, second, told, mpmath.nstr(total, 22)])
    return rows


def lines(rows):
    return "[\n" + ",\n".join("  " + json.dumps(row) for row in rows) + "\n ]"


made = f"make.py, mpmath {mpmath.__version__}, Python {platform.python_version()}"
with open(os.path.join(os.path.dirname(os.path.abspath(__file__)), "values.json"), "w") as file:
    file.write("{\n")
    file.write(f' "id": "large-panels",\n "source": {{"what": "computed from the definitions at 40 digits", "madeBy": "{made}"}},\n')
    file.write(' "seenInSource": false,\n "nullMeans": "below 1e-300",\n')
    file.write(f' "tails": {{ "columns": ["right", "n", "p", "lower", "upper"], "rows": {lines(tails())} }},\n')
    file.write(f' "groups": {{ "columns": ["firstTold", "first", "second", "told", "upper"], "rows": {lines(groups())} }}\n')
    file.write("}\n")
