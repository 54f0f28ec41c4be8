/**
 * The critical number of a small risk from one tail instead of the dozen that halving takes: a guess near it, the tail
 * there, and then single terms up or down. A tail that comes too near to the risk is left to the exact one to decide, so
 * that the answer is the same.
 */

/** Nearer to the risk than this, as a share of it, a walked tail does not decide: it is good to some 1e-12. */
const tooNear = 1e-9;
/** A walk farther than this means that the guess was none: halving is as fast then. */
const mostSteps = 48;
/** Terms below the smallest double would stop the walk. */
const leastRisk = 1e-250;

/**
 * Least whole number whose upper tail is `alpha` or less.
 *
 * Takes    n: 1 or more; p: between 0 and 1; alpha: between 0 and 1; logPoint: of exactly so many of n;
 *          reaches: does the exact tail from so many on keep within alpha?
 * Returns  the number, n + 1 where not even n will do; null where this way does not lead there
 */
export function walkToCritical(
  n: number,
  p: number,
  alpha: number,
  logPoint: (right: number) => number,
  reaches: (right: number) => boolean,
): number | null {
  const mean = n * p;
  if (!(alpha > leastRisk && alpha < 0.5 && p > 0 && p < 1)) return null;
  const odds = p / (1 - p);
  let right = Math.max(Math.ceil(mean) + 1, guess(n, p, alpha));
  if (right > n) return null;
  let point = Math.exp(logPoint(right));
  if (!(point > leastRisk)) return null;
  let tail = point * tailOverPoint(right, n, odds);
  const within = () => (Math.abs(tail - alpha) <= tooNear * alpha ? reaches(right) : tail < alpha);
  let steps = 0;
  if (within()) {
    // down: the tail gains the term below, until it is too much
    for (; steps < mostSteps && right - 1 > mean; steps++) {
      point *= right / ((n - right + 1) * odds);
      right -= 1;
      tail += point;
      if (!within()) return right + 1;
    }
    return null;
  }
  let summed = tail;
  for (; steps < mostSteps && right < n; steps++) {
    // up: the tail loses its first term
    tail -= point;
    point *= ((n - right) / (right + 1)) * odds;
    right += 1;
    // what is left of a difference is no good where it is small beside what was taken: then it is summed anew
    if (tail < 1e-2 * summed) {
      tail = point * tailOverPoint(right, n, odds);
      summed = tail;
    }
    if (within()) return right;
  }
  return right === n ? n + 1 : null;
}

/** The sum of all terms from `right` on, as a multiple of the first. */
function tailOverPoint(right: number, n: number, odds: number): number {
  let term = 1;
  let sum = 1;
  for (let at = right; at < n && term > sum * 1e-17; at++) {
    term *= ((n - at) / (at + 1)) * odds;
    sum += term;
  }
  return sum;
}

/** Whole number near which the tail is alpha: the normal quantile, bent by the binomial's skewness (Cornish and Fisher). */
function guess(n: number, p: number, alpha: number): number {
  const spread = Math.sqrt(n * p * (1 - p));
  const z = roughQuantile(alpha);
  return Math.ceil(n * p + spread * z + ((1 - 2 * p) * (z * z - 1)) / 6 + 0.5);
}

/** Normal quantile of an upper tail below 1/2, to 5e-4 (Abramowitz and Stegun 26.2.23, from memory): for a guess only. */
function roughQuantile(alpha: number): number {
  const t = Math.sqrt(-2 * Math.log(alpha));
  return t - (2.515517 + t * (0.802853 + t * 0.010328)) / (1 + t * (1.432788 + t * (0.189269 + t * 0.001308)));
}
