"""Writes values.json beside this file: studentized range and Dunnett's largest t, upper tails.

A second way, not the app's: Gauss-Legendre panels over the estimated spread itself (not its logarithm) and over the
shared or smallest value, complements taken last. Errors about 1e-13 absolute; the script compares two panel counts.
Run with Python 3, numpy and scipy; the versions used stand in the file. Edit this script, never the values.
"""
import json
import os
import platform

import numpy as np
import scipy
from scipy.special import gammaln, log_ndtr, ndtr

NODES, WEIGHTS = np.polynomial.legendre.leggauss(24)


def panels(edges):
    edges = np.asarray(edges)
    half, middle = np.diff(edges) / 2, (edges[1:] + edges[:-1]) / 2
    return (middle[:, None] + half[:, None] * NODES).ravel(), (half[:, None] * WEIGHTS).ravel()


def over_spread(known, df, fine):
    """Mean of a lower probability over s; in panels that double below the bulk."""
    top = 1 + 14 / np.sqrt(df)
    edges = np.concatenate([[0], 2.0 ** np.arange(-44, -4, 1 / fine), np.linspace(2.0 ** -4, top, 16 * fine)])
    s, weight = panels(edges)
    log = np.log(2) + df / 2 * np.log(df / 2) - gammaln(df / 2) + (df - 1) * np.log(s) - df * s * s / 2
    return float(np.sum(weight * np.exp(log) * np.array([known(v) for v in s])))


def phi(z):
    return np.exp(-z * z / 2) / np.sqrt(2 * np.pi)


def range_upper(q, k, df, fine):
    z, weight = panels(np.linspace(-10, 10, 16 * fine))
    upper = ndtr(-z)
    def known(s):
        inside = ndtr(-z) - ndtr(-z - q * s)
        return k * np.sum(weight * phi(z) * (upper ** (k - 1) - inside ** (k - 1)))
    return over_spread(known, df, fine)


def dunnett_upper(t, loadings, df, sides, fine):
    z, weight = panels(np.linspace(-12, 12, 24 * fine))
    loading = np.array(loadings)[:, None]
    own = np.sqrt(1 - loading ** 2)
    def known(s):
        within = ndtr((t * s - loading * z) / own)
        if sides == "two-sided":
            within = within - ndtr((-t * s - loading * z) / own)
        return np.sum(weight * phi(z) * (1 - np.prod(within, axis=0)))
    return over_spread(known, df, fine)


def checked(compute, *args):
    once, twice = compute(*args, 1), compute(*args, 2)
    assert abs(once / twice - 1) < 2e-11, (args, once, twice)
    return twice


def main():
    half, uneven = 0.5 ** 0.5, [0.4, 0.6, 0.75, 0.9]
    ranges = [[q, k, df, checked(range_upper, q, k, df)]
              for k in (3, 6, 15) for df in (1, 3.5, 22.7) for q in (2, 5)]
    dunnett = [[t, loadings, df, sides, checked(dunnett_upper, t, loadings, df, sides)]
               for loadings in ([half] * 7, uneven, [-0.5, 0.5, 0.8])
               for df in (1, 5.5, 22.7) for t in (1, 2.6) for sides in ("two-sided", "one-sided")]
    head = {
        "id": "largest-of-several",
        "source": {
            "what": "computed from the definitions by make.py",
            "madeBy": f"make.py, numpy {np.__version__}, scipy {scipy.__version__}, Python {platform.python_version()}",
        },
        "seenInSource": False,
        "earlier": {
            "what": "an earlier computation, mpmath at 30 digits; quantiles to about 13 digits",
            "rangeUpper": [[3, 3, 10, "0.1349834151895639969"], [4, 3, 10, "0.043349349759982502505"],
                           [4, 3, 20.5, "0.026475445869126170852"], [4, 5, 120, "0.042817754636771139797"],
                           [6, 20, 20.5, "0.032334655777949633524"], [12, 2, 2, "0.013606076167856262221"],
                           [3, 3, None, "0.085542571654958003039"], [6, 10, None, "0.00092151530387726078506"]],
            "rangeQuantile": [[0.05, 3, 10, "3.8767767500132"], [0.05, 5, 20.5, "4.2221823117152"],
                              [0.05, 3, None, "3.3144931553981"], [0.05, 3, 2, "8.3307826456370"],
                              [0.01, 20, 2, "37.943462287637"]],
        },
        "nullMeans": "infinitely many degrees of freedom",
    }
    lines = [f' {json.dumps(k)}: {json.dumps(v)}' for k, v in head.items()]
    for name, rows in (("range", ranges), ("dunnett", dunnett)):
        lines.append(f' "{name}": [\n' + ",\n".join("  " + json.dumps(row) for row in rows) + "\n ]")
    with open(os.path.join(os.path.dirname(os.path.abspath(__file__)), "values.json"), "w") as file:
        file.write("{\n" + ",\n".join(lines) + "\n}\n")
    print(len(ranges), len(dunnett))


main()
