"""Writes values.json beside this file: tails of beta, t and F at 50 digits, on the exact double inputs.

Two ways, neither of them the app's continued fraction: mpmath's incomplete beta (hypergeometric series) where it can,
and integration of the density for t with many degrees of freedom; where both work they must agree.
Run with Python 3 and mpmath; the versions used stand in the file. Edit this script, never the values.
"""
import json
import os
import platform

import mpmath as mp

mp.mp.dps = 50
LEAST = mp.mpf(10) ** -300
text = lambda v: mp.nstr(v, 22) if v > LEAST else None


def beta_tails(a, b, x):
    """P(X <= x) and P(X >= x); each is computed as itself."""
    a, b, x = mp.mpf(a), mp.mpf(b), mp.mpf(x)
    lower = mp.betainc(a, b, 0, x, regularized=True)
    upper = mp.betainc(b, a, 0, 1 - x, regularized=True)
    assert abs(lower + upper - 1) < mp.mpf(10) ** -30, (a, b, x)
    return lower, upper


def beta_rows():
    rows = []
    for a in (0.05, 0.5, 1, 1.5, 3.67, 10, 60.25, 500):
        for b in (0.05, 0.5, 1, 2, 14.85, 40, 700.5):
            # multiples of 2^-20, so that x and 1 - x are both exact
            for part in (1, 2**6, 2**12, 2**17, 2**19, 3 * 2**18, 2**20 - 2**14, 2**20 - 2**7, 2**20 - 1):
                x = part / 2**20
                lower, upper = beta_tails(a, b, x)
                rows.append([a, b, x, text(lower), text(upper)])
    return rows


def t_by_beta(t, df):
    t, df = mp.mpf(t), mp.mpf(df)
    return mp.betainc(df / 2, mp.mpf(1) / 2, 0, df / (df + t * t), regularized=True) / 2


def t_by_integration(t, df):
    """A half less the area from 0, 50 digits having some to spare; farther out the tail itself, in u = log(1 + s^2/df)."""
    t, df = mp.mpf(t), mp.mpf(df)
    height = mp.exp(mp.loggamma((df + 1) / 2) - mp.loggamma(df / 2)) / mp.sqrt(df * mp.pi)
    if t < 2:
        return mp.mpf(1) / 2 - mp.quad(lambda s: height * mp.exp(-(df + 1) / 2 * mp.log1p(s * s / df)), [0, t / 2, t])
    start = mp.log1p(t * t / df)
    # scaled by its first value, since the integration settles for an absolute error
    slope = lambda u: mp.exp(-(df - 1) / 2 * (u - start)) / (2 * mp.sqrt(df * mp.expm1(u)))
    area = mp.quad(slope, [start + 2 * k / df for k in (0, 1, 2, 4, 8, 16, 32, 64, 128)] + [mp.inf])
    return height * df * mp.exp(-(df - 1) / 2 * start) * area


def t_rows():
    rows = []
    for df in (0.1, 0.5, 1, 2, 2.7, 5, 7.34, 11, 22, 29.5, 57.81, 120, 1000, 12345.6, 1e5, 1e7):
        for t in (0.001, 0.1, 0.5, 1, 1.5, 2, 3, 5, 8, 12, 20, 30, 100, 1e4, 1e8):
            if df > 1000 and t > 30:
                continue
            tail = t_by_beta(t, df) if df <= 1000 else t_by_integration(t, df)
            if 100 < df <= 1000 and t <= 30:
                assert abs(t_by_integration(t, df) / tail - 1) < mp.mpf(10) ** -25, (t, df)
            if tail > LEAST:
                rows.append([t, df, text(tail)])
    return rows


def t_quantile_rows():
    """The t whose upper tail is the risk, found by bisection and Newton at 50 digits."""
    rows = []
    for df in (1, 2, 3, 7.34, 11, 22, 29.5, 120, 500):
        for tail in (0.45, 0.3, 0.1, 0.05, 0.025, 0.005, 1e-6, 1e-12):
            low, high = mp.mpf(0), mp.mpf(1)
            while t_by_beta(high, df) > tail:
                high *= 4
            for _ in range(170):
                middle = (low + high) / 2
                if t_by_beta(middle, df) > tail:
                    low = middle
                else:
                    high = middle
            rows.append([tail, df, mp.nstr((low + high) / 2, 22)])
    return rows


def f_rows():
    rows = []
    for d1 in (0.5, 1, 2, 3, 5, 11, 33):
        for d2 in (1, 2, 5, 7.2, 15, 22, 29.7, 57.8, 1000, 5000.5):
            for f in (0.001, 0.1, 0.5, 1, 2, 3, 5, 10.5, 30, 200, 1e4, 1e7):
                f1, f2, v = mp.mpf(d1), mp.mpf(d2), mp.mpf(f)
                upper = mp.betainc(f2 / 2, f1 / 2, 0, f2 / (f2 + f1 * v), regularized=True)
                lower = mp.betainc(f1 / 2, f2 / 2, 0, f1 * v / (f2 + f1 * v), regularized=True)
                assert abs(lower + upper - 1) < mp.mpf(10) ** -30, (f, d1, d2)
                rows.append([f, d1, d2, text(lower), text(upper)])
    return rows


def main():
    tables = {
        "beta": (["a", "b", "x", "lower", "upper"], beta_rows()),
        "t": (["t", "df", "upper"], t_rows()),
        "tQuantile": (["upperTail", "df", "t"], t_quantile_rows()),
        "f": (["f", "numeratorDf", "denominatorDf", "lower", "upper"], f_rows()),
    }
    head = {
        "id": "beta-family",
        "source": {
            "what": "computed from the definitions at 50 digits by make.py",
            "madeBy": f"make.py, mpmath {mp.__version__}, Python {platform.python_version()}",
        },
        "seenInSource": False,
        "nullMeans": "below 1e-300",
    }
    lines = [f' {json.dumps(k)}: {json.dumps(v)}' for k, v in head.items()]
    for name, (columns, rows) in tables.items():
        body = ",\n".join("  " + json.dumps(row) for row in rows)
        lines.append(f' "{name}": {{ "columns": {json.dumps(columns)}, "rows": [\n{body}\n ] }}')
    here = os.path.dirname(os.path.abspath(__file__))
    with open(os.path.join(here, "values.json"), "w") as file:
        file.write("{\n" + ",\n".join(lines) + "\n}\n")
    print({name: len(rows) for name, (_, rows) in tables.items()})


main()
