"""Recomputes the columns firstN and stableN of values.json and says where they differ. Python 3, standard library.

The distribution of the number right is built up one assessor at a time (a sum of positive terms, so that small tails
keep their digits), which is another way than the app's. Run: python3 make.py
"""

import json
import pathlib

here = pathlib.Path(__file__).parent
rows = json.loads((here / "values.json").read_text())["rows"]
GUESS = 1 / 3


def upper_tails(share_right, largest):
    """For n = 1, 2, ... largest: the list of P(X >= k), k = 0 .. n + 1."""
    points = [1.0]
    for _ in range(largest):
        points = [
            (points[k] if k < len(points) else 0.0) * (1 - share_right) + (points[k - 1] if k else 0.0) * share_right
            for k in range(len(points) + 1)
        ]
        tails = [0.0] * (len(points) + 1)
        for k in range(len(points) - 1, -1, -1):
            tails[k] = tails[k + 1] + points[k]
        yield tails


differing = 0
for sought in sorted({row[0] for row in rows}, reverse=True):
    wanted = [row for row in rows if row[0] == sought]
    largest = 2 * max(row[4] for row in wanted) + 100
    found = {tuple(row[:3]): [None, None] for row in wanted}
    pairs = zip(upper_tails(GUESS, largest), upper_tails(GUESS + (1 - GUESS) * sought, largest))
    for n, (guessing, telling) in enumerate(pairs, start=1):
        for row in wanted:
            needed = next(k for k in range(n + 2) if guessing[k] <= row[1])
            reached = needed <= n and 1 - telling[needed] <= row[2]
            entry = found[tuple(row[:3])]
            if reached and entry[0] is None:
                entry[0] = n
            if not reached:
                entry[1] = n + 1
    for row in wanted:
        if found[tuple(row[:3])] != row[4:6]:
            differing += 1
            print("differs:", row, found[tuple(row[:3])])
print(len(rows), "rows,", differing, "differ")
