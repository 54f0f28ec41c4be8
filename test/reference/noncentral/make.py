"""Writes values.json beside this file: tails of noncentral t and noncentral F, on the exact double inputs.

t by the beta series of the lower tail at 100 digits, checked in places by integration over the estimated spread;
F by the Poisson mixture at 60 digits summed from 0; F on one numerator degree of freedom is checked against t.
Run with Python 3 and mpmath; the versions used stand in the file. Edit this script, never the values.
"""
import json
import os
import platform

import mpmath as mp

LEAST = mp.mpf(10) ** -60
text = lambda v: mp.nstr(v, 20) if v > LEAST else None


def normal_upper(x):
    return mp.erfc(x / mp.sqrt(2)) / 2


def t_by_integration(t, df, shift):
    """Integral over u = log s of the density of the estimated spread times the normal tail, about its largest value."""
    mp.mp.dps = 30
    t, df, shift = mp.mpf(t), mp.mpf(df), mp.mpf(shift)
    front = mp.log(2) + df / 2 * mp.log(df / 2) - mp.loggamma(df / 2)
    log = lambda u: front + df * u - df * mp.exp(2 * u) / 2 + mp.log(normal_upper(t * mp.exp(u) - shift))
    peak = max((mp.mpf(k) / 8 for k in range(-80, 25)), key=log)
    top = log(peak)
    left = right = peak
    while log(left) > top - 65:
        left -= mp.mpf(1) / 8
    while log(right) > top - 65:
        right += mp.mpf(1) / 8
    pieces = mp.linspace(left, right, 12)
    # scaled by the largest value, so that the integration settles for a relative error
    return mp.exp(top) * mp.quad(lambda u: mp.exp(log(u) - top), pieces)


def t_both(t, df, shift):
    """Lower and upper tail for t above 0: the beta series of the lower one, with digits to spare for the difference."""
    mp.mp.dps = 100
    t, df, shift = mp.mpf(t), mp.mpf(df), mp.mpf(shift)
    x = t * t / (df + t * t)
    half = shift * shift / 2
    total = normal_upper(shift)
    j = 0
    while True:
        p = mp.exp(-half) * half**j / mp.factorial(j)
        q = shift / mp.sqrt(2) * mp.exp(-half) * half**j / mp.gamma(j + mp.mpf(3) / 2)
        total += (p * mp.betainc(j + mp.mpf(1) / 2, df / 2, 0, x, regularized=True)
                  + q * mp.betainc(j + 1, df / 2, 0, x, regularized=True)) / 2
        if j > half and p + abs(q) < mp.mpf(10) ** -95:
            return total, 1 - total
        j += 1


def t_rows():
    rows = []
    for df in (1, 2.5, 9, 20.5, 57.81, 400):
        for shift in (-6, -2, 0.5, 2, 4):
            for t in (0.5, 2, 3.5, 8, 40):
                lower, upper = t_both(t, df, shift)
                rows.append([t, df, shift, text(lower), text(upper)])
    for t, df, shift in ((2, 9, 2), (8, 2.5, -2), (40, 20.5, 4), (3.5, 57.81, -6)):
        assert abs(t_by_integration(t, df, shift) / t_both(t, df, shift)[1] - 1) < mp.mpf(10) ** -20, (t, df, shift)
    return rows


def f_both(f, top, bottom, noncentrality):
    mp.mp.dps = 60
    f, top, bottom, half = mp.mpf(f), mp.mpf(top), mp.mpf(bottom), mp.mpf(noncentrality) / 2
    x = top * f / (bottom + top * f)
    lower = upper = mp.mpf(0)
    j, weight = 0, mp.exp(-half)
    while True:
        lower += weight * mp.betainc(top / 2 + j, bottom / 2, 0, x, regularized=True)
        upper += weight * mp.betainc(bottom / 2, top / 2 + j, 0, 1 - x, regularized=True)
        j += 1
        weight *= half / j
        if j > 2 * half + 20 and weight < upper * mp.mpf(10) ** -30:
            assert abs(lower + upper - 1) < mp.mpf(10) ** -25
            return lower, upper


def f_rows():
    rows = []
    for top, bottom in ((1, 20.5), (2, 57.3), (3, 30), (4.5, 7.2), (9, 99)):
        for noncentrality in (0.25, 1, 10, 40, 120):
            for f in (0.02, 0.8, 3, 12, 50):
                lower, upper = f_both(f, top, bottom, noncentrality)
                rows.append([f, top, bottom, noncentrality, text(lower), text(upper)])
    # t squared with one numerator degree of freedom
    for t in (2, 4):
        two_sided = t_both(t, 20.5, 3)[1] + t_both(t, 20.5, -3)[1]
        assert abs(two_sided / f_both(t * t, 1, 20.5, 9)[1] - 1) < mp.mpf(10) ** -25
    return rows


def main():
    tables = {
        "t": (["t", "df", "noncentrality", "lower", "upper"], t_rows()),
        "f": (["f", "numeratorDf", "denominatorDf", "noncentrality", "lower", "upper"], f_rows()),
    }
    head = {
        "id": "noncentral",
        "source": {
            "what": "computed from the definitions by make.py",
            "madeBy": f"make.py, mpmath {mp.__version__}, Python {platform.python_version()}",
        },
        "seenInSource": False,
        "nullMeans": "below 1e-60",
    }
    # a second, earlier computation (mpmath, 40 digits)
    head["earlier"] = {
        "tUpper": [[2, 9, 2, "0.5210290749393514361428398"], [3, 28.6, 3, "0.5101303612891069808742867"]],
        "fUpper": [[4, 2, 57.3, 10, "0.6913264927858829087851195"], [3, 3, 30, 1, "0.1003135278079465735239834"]],
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
