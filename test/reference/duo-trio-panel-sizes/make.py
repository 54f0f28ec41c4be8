"""Recomputes firstN and stableN of values.json, and of two-sided-panel-sizes, and says where they differ.

The distribution of the number right is built up one assessor at a time (a sum of positive terms), which is another way
than the app's. Python 3, standard library. Run: python3 make.py
"""

import json
import pathlib

here = pathlib.Path(__file__).parent


def points(share, largest):
    row = [1.0]
    for _ in range(largest):
        row = [
            (row[k] if k < len(row) else 0.0) * (1 - share) + (row[k - 1] if k else 0.0) * share
            for k in range(len(row) + 1)
        ]
        yield row


def check(name, two_sided):
    rows = json.loads((here.parent / name / "values.json").read_text())["rows"]
    differing = 0
    for sought in sorted({row[0] for row in rows}, reverse=True):
        wanted = [row for row in rows if row[0] == sought]
        largest = 2 * max(row[4] for row in wanted) + 100
        share = sought if two_sided else 0.5 + 0.5 * sought
        found = {tuple(row[:3]): [None, None] for row in wanted}
        for n, (half, told) in enumerate(zip(points(0.5, largest), points(share, largest)), start=1):
            for row in wanted:
                risk = row[1] / 2 if two_sided else row[1]
                tail, needed = 0.0, n + 1
                while needed > 0 and tail + half[needed - 1] <= risk:
                    needed -= 1
                    tail += half[needed]
                yes = sum(told[needed:]) + (sum(told[: n - needed + 1]) if two_sided else 0.0)
                reached = needed <= n and 1 - yes <= row[2]
                entry = found[tuple(row[:3])]
                if reached and entry[0] is None:
                    entry[0] = n
                if not reached:
                    entry[1] = n + 1
        for row in wanted:
            if found[tuple(row[:3])] != row[4:6]:
                differing += 1
                print("differs:", name, row, found[tuple(row[:3])])
    print(name, len(rows), "rows,", differing, "differ")


check("duo-trio-panel-sizes", False)
check("two-sided-panel-sizes", True)
