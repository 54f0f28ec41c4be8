export type Root = { bracketed: true; at: number } | { bracketed: false };

/**
 * Where a continuous function crosses zero between two points.
 *
 * Takes    values: finite at both ends and between; tolerance: relative to the size of the root, absolute below 1
 * Returns  the crossing, or `bracketed: false` when both ends have the same sign
 * Source   T. R. Chandrupatla 1997, Advances in Engineering Software (from memory): inverse quadratic steps where
 *          they are safe, else halving; never leaves the bracket
 * Example  root((x) => x * x - 2, 0, 2) // { bracketed: true, at: 1.414213562373095 }
 */
export function root(values: (x: number) => number, low: number, high: number, tolerance = 1e-15): Root {
  let [a, b] = [high, low];
  let [fa, fb] = [values(a), values(b)];
  if (fa === 0) return { bracketed: true, at: a };
  if (fb === 0) return { bracketed: true, at: b };
  if (Number.isNaN(fa) || Number.isNaN(fb) || fa > 0 === fb > 0) return { bracketed: false };
  let share = 0.5;
  for (let step = 0; step < 200; step++) {
    const x = a + share * (b - a);
    const fx = values(x);
    const kept = fx > 0 === fa > 0 ? { c: a, fc: fa } : { c: b, fc: fb };
    if (fx > 0 !== fa > 0) [b, fb] = [a, fa];
    [a, fa] = [x, fx];
    const best = Math.abs(fa) < Math.abs(fb) ? a : b;
    const least = (tolerance * Math.max(1, Math.abs(best))) / Math.abs(b - a);
    if (fx === 0) return { bracketed: true, at: x };
    if (least > 0.5) return { bracketed: true, at: best };
    share = Math.min(1 - least, Math.max(least, nextShare(a, fa, b, fb, kept.c, kept.fc)));
  }
  return { bracketed: true, at: Math.abs(fa) < Math.abs(fb) ? a : b };
}

/** How far from a to b the next try lies: inverse quadratic through three points if that is safe, else the middle. */
function nextShare(a: number, fa: number, b: number, fb: number, c: number, fc: number): number {
  const xi = (a - b) / (c - b);
  const phi = (fa - fb) / (fc - fb);
  if (!(phi * phi < xi && (1 - phi) ** 2 < 1 - xi)) return 0.5;
  return (fa / (fb - fa)) * (fc / (fb - fc)) + ((c - a) / (b - a)) * (fa / (fc - fa)) * (fb / (fc - fb));
}
