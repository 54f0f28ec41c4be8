"""Shares right and wrong of five methods, and slopes, from their integrals at 30 digits; the slope by differentiating.

Forms from memory: Frijters 1979 and Ennis 1993 (triangle, duo-trio), Hacker and Ratcliff 1979 (three-alternative),
Ennis and Jesionka 2011 (tetrad), each independent unit-variance percepts. Run: python3 make.py
"""

import json
import os
import platform

import mpmath
from mpmath import mp, mpf

mp.dps = 40
inf = mpmath.inf
Phi = lambda x: mpmath.erfc(-x / mpmath.sqrt(2)) / 2
Q = lambda x: mpmath.erfc(x / mpmath.sqrt(2)) / 2
phi = lambda x: mpmath.exp(-x * x / 2) / mpmath.sqrt(2 * mpmath.pi)
cuts = lambda d: [-14, -6, -2, 0, d / 2, 2, d, d + 2, d + 6, d + 14]


def line(values, d):
    return mpmath.quad(values, sorted(set(mpf(cut) for cut in cuts(d))))


def triangle_wrong(d):
    s, three = d * mpmath.sqrt(mpf(2) / 3), mpmath.sqrt(3)
    # the pick is wrong when the odd percept lies within: both tails apart
    inside = lambda z: Q(s - z * three) - Q(s + z * three)
    return 2 * mpmath.quad(lambda z: phi(z) * inside(z), [0, 1, 2, 4, 8, 16])


def duo_trio_wrong(d):
    a, b = d / mpmath.sqrt(2), d / mpmath.sqrt(6)
    return Phi(a) * Q(b) + Q(a) * Phi(b)


wrong = {
    "paired-difference": lambda d: Q(d / mpmath.sqrt(2)),
    "three-alternative": lambda d: line(lambda z: phi(z - d) * Q(z) * (1 + Phi(z)), d),
    "triangle": triangle_wrong,
    "duo-trio": duo_trio_wrong,
    "tetrad": lambda d: line(lambda z: 2 * phi(z) * Phi(z - d) * (2 * Phi(z) - Phi(z - d)), d),
}

rows = []
for method, f in wrong.items():
    for d in (0, 0.001, 0.05, 0.3, 0.75, 1, 1.5, 2.25, 3, 4, 6, 8, 12):
        value = f(mpf(d))
        slope = -mpmath.diff(f, mpf(d), h=mpf(10) ** -10) if d else None
        rows.append([method, d, mpmath.nstr(1 - value, 20), mpmath.nstr(value, 20), None if slope is None else mpmath.nstr(slope, 16)])

made = f"make.py, mpmath {mpmath.__version__}, Python {platform.python_version()}"
with open(os.path.join(os.path.dirname(os.path.abspath(__file__)), "values.json"), "w") as file:
    file.write(f'{{\n "id": "psychometric",\n "source": {{"what": "computed from the integrals at 40 digits; forms from memory", "madeBy": "{made}"}},\n')
    file.write(' "seenInSource": false,\n "columns": ["method", "dprime", "right", "wrong", "slope"],\n "nullMeans": "not computed",\n "rows": [\n')
    file.write(",\n".join("  " + json.dumps(row) for row in rows) + "\n ]\n}\n")
