import { requireNumber } from "./check.ts";
import { normalDensity, normalUpper } from "./normal.ts";
import { root } from "./root.ts";
import { overDeviation } from "./spread-of-deviation.ts";

/** Several products, each compared with one and the same reference (C. W. Dunnett 1955, from memory). */

/**
 * How each comparison depends on the reference: comparisons i and j correlate as loadings[i] times loadings[j]. With as
 * many values of each product as of the reference every loading is the square root of a half.
 */
export type Loadings = readonly number[];

/** Loadings of a design where all products have as many values: correlation 1/2. */
export const evenLoadings = (comparisons: number): number[] => Array<number>(comparisons).fill(Math.SQRT1_2);

/**
 * Probability that the comparison that lies farthest out does so by at least d standard errors, either way, where no product
 * differs from the reference.
 *
 * Takes    d: 0 or more; loadings: one for each comparison, 0 to 0.999; df: 1 to 1e7 or Infinity
 * Returns  relative error about 1e-11
 * Throws   Problem "analysis/out-of-range"
 * Example  dunnettUpper(2.21, evenLoadings(1), 10) // 0.0515606766075897
 */
export function dunnettUpper(d: number, loadings: Loadings, df: number): number {
  return upper(d, loadings, df, (above, below) => above + below);
}

/** The same for the comparison that lies farthest out upward. */
export function dunnettUpperOneSided(d: number, loadings: Loadings, df: number): number {
  return upper(d, loadings, df, (above) => above);
}

/**
 * The d that the farthest comparison reaches, either way, with this probability.
 *
 * Takes    tail: 1e-10 to below 1
 * Throws   as `dunnettUpper`
 */
export const dunnettQuantile = (tail: number, loadings: Loadings, df: number): number =>
  quantile(tail, (d) => dunnettUpper(d, loadings, df));

function upper(d: number, loadings: Loadings, df: number, tails: (above: number, below: number) => number): number {
  requireNumber("d", d, 0, Number.POSITIVE_INFINITY);
  if (df !== Number.POSITIVE_INFINITY) requireNumber("degreesOfFreedom", df, 1, 1e7);
  for (const loading of loadings) requireNumber("loading", loading, 0, 0.999);
  if (d === Number.POSITIVE_INFINITY) return 0;
  const free = loadings.map((loading) => ({ loading, own: Math.sqrt(1 - loading * loading) }));
  // the sharper a comparison follows the reference, the finer the steps
  const step = 0.35 * Math.min(1, ...free.map(({ own }) => own * Math.SQRT2));
  const normal = (x: number): number => {
    let sum = 0;
    // far out it is the reference that went there: the heaviest part lies near z = loading times x
    const reach = 9 + x * Math.max(...loadings);
    for (let z = -reach; z <= reach; z += step) {
      let logNone = 0;
      for (const { loading, own } of free) {
        const above = normalUpper((x - loading * z) / own);
        const below = normalUpper((x + loading * z) / own);
        logNone += Math.log1p(-Math.min(1, tails(above, below)));
      }
      sum += normalDensity(z) * -Math.expm1(logNone);
    }
    return sum * step;
  };
  return Math.min(
    1,
    overDeviation((s) => normal(d * s), df, 0.085),
  );
}

function quantile(tail: number, upperAt: (d: number) => number): number {
  requireNumber("tail", tail, 1e-10, 1 - 1e-10);
  const falling = (log: number) => Math.log(tail / upperAt(Math.exp(log)));
  let [low, high] = [0, 1];
  while (falling(low) > 0 && low > -60) low -= 1;
  while (falling(high) < 0) high += 1;
  const found = root(falling, low, high, 1e-13);
  return Math.exp(found.bracketed ? found.at : low);
}
