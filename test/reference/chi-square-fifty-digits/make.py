"""Writes values.json beside this file: chi-square tails by mpmath's incomplete gamma, 50 digits. Run: python3 make.py"""
import json
import mpmath as mp

mp.mp.dps = 50
cases = [(0.001, 1), (0.1, 1), (3.84, 1), (60, 1), (1300, 1), (5, 2), (0.001, 3), (1300, 3), (8.25, 10), (16.4, 11),
         (200, 10), (60, 59), (62, 60), (30, 60), (150, 60), (900, 1000), (1000, 1000), (1100, 1000), (2000, 1000),
         (49500, 50000), (50000, 50000), (51500, 50000)]
rows = []
for value, df in cases:
    a, x = mp.mpf(df) / 2, mp.mpf(value) / 2
    upper = mp.gammainc(a, x, mp.inf, regularized=True)
    lower = mp.gammainc(a, 0, x, regularized=True)
    rows.append("  " + json.dumps([value, df, mp.nstr(lower, 25), mp.nstr(upper, 25)]))
with open("values.json", "w") as out:
    out.write('{\n "id": "chi-square-fifty-digits",\n "title": "Chi-square tails",\n')
    out.write(f' "source": {{ "what": "computed by make.py", "madeBy": "mpmath {mp.__version__}" }},\n')
    out.write(' "seenInSource": false,\n "columns": ["value", "df", "lower", "upper"],\n "rows": [\n')
    out.write(",\n".join(rows) + "\n ]\n}\n")
