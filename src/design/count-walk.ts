/**
 * Critical numbers and powers for all panel sizes from 0 on, each from the one before: what a planner's picture asks for
 * at every move of a slider. From n to n + 1 a critical number stays or grows by one, and a tail changes by single terms.
 */

/** P(X >= least) and P(X = least) of n answers, each right with one probability p. */
type Walk = { n: number; least: number; tail: number; point: number };

/** One answer more: the tail gains those who were one short and are right now. */
function grow(walk: Walk, p: number): void {
  const { n, least, point } = walk;
  walk.n = n + 1;
  if (least > n) {
    walk.point = least === n + 1 ? p ** least : 0;
    walk.tail = walk.point;
    return;
  }
  walk.tail = Math.min(1, walk.tail + point * (least / (n - least + 1)) * (1 - p));
  walk.point = point * ((n + 1) / (n + 1 - least)) * (1 - p);
}

/** One right more is asked for: the tail loses those who have exactly so many. */
function raise(walk: Walk, p: number): void {
  const { n, least, point } = walk;
  walk.least = least + 1;
  if (least >= n) {
    walk.point = 0;
    walk.tail = 0;
    return;
  }
  walk.tail = Math.max(0, walk.tail - point);
  if (p < 1) walk.point = point * ((n - least) / (least + 1)) * (p / (1 - p));
  else walk.point = least + 1 === n ? 1 : 0;
}

/** Nearer to the risk than this, as a share of it, the exact tail decides: the walk is good to some 1e-13. */
const tooNear = 1e-9;

/**
 * The least count that a panel with this share right reaches with probability `risk` or less, by number of answers.
 *
 * Takes    p: strictly between 0 and 1; exact: the same by an exact tail, null where no count does
 * Returns  index n = 0 to `upTo`; n + 1 where no count does
 */
export function criticalCounts(
  p: number,
  risk: number,
  upTo: number,
  exact: (n: number) => number | null,
): Uint32Array {
  const counts = new Uint32Array(upTo + 1);
  const walk: Walk = { n: 0, least: 0, tail: 1, point: 1 };
  const over = ({ n, least, tail }: Walk) =>
    Math.abs(tail - risk) < tooNear * risk ? (exact(n) ?? n + 1) > least : tail > risk;
  for (let n = 0; n <= upTo; n++) {
    if (n > 0) grow(walk, p);
    while (walk.least <= n && over(walk)) raise(walk, p);
    counts[n] = walk.least;
  }
  return counts;
}

/**
 * Chance of at least the critical count, by number of answers, when each is right with probability p.
 *
 * Takes    counts: of `criticalCounts`; p: 0 to 1
 * Returns  index n = 0 to the last of `counts`; absolute error below 1e-11
 */
export function chancesAlong(counts: Uint32Array, p: number): Float64Array {
  const chances = new Float64Array(counts.length);
  const walk: Walk = { n: 0, least: 0, tail: 1, point: 1 };
  for (const [n, least] of counts.entries()) {
    if (n > 0) grow(walk, p);
    while (walk.least < least) raise(walk, p);
    chances[n] = walk.tail;
  }
  return chances;
}
