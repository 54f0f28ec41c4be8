import { requireCount, requireNumber } from "./check.ts";
import { normalDensity, normalUpper } from "./normal.ts";
import { root } from "./root.ts";
import { overDeviation } from "./spread-of-deviation.ts";

/** Ends of the integral over the least of the values: beyond them nothing is left of a double. */
const [lowEnd, highEnd] = [-13, 8.6];
/** Products or groups that the ranges were checked for. */
const mostGroups = 100;
const leastDf = 1;
/** From here on the deviation is as good as known: the tail differs by less than one part in 1e6 of itself. */
const mostDf = 1e7;

/**
 * Probability that the range of so many means, over the standard error of one, is at least q where all true means are
 * equal.
 *
 * Takes    q: 0 or more; groups: 2 to 100; df: 1 to 1e7, whole or not, or Infinity
 * Returns  relative error about 1e-12; also with few degrees of freedom, where routines with fixed nodes are wrong in
 *          the second digit
 * Throws   Problem "analysis/out-of-range", "analysis/not-a-count"
 * Source   double integral of M. D. Copenhaver and B. Holland 1988 (from memory), kept as an upper tail throughout
 * Example  studentizedRangeUpper(4, 3, 10) // 0.0433493497599825
 */
export function studentizedRangeUpper(q: number, groups: number, df: number): number {
  requireNumber("q", q, 0, Number.POSITIVE_INFINITY);
  requireCount("groups", groups, 2, mostGroups);
  if (df !== Number.POSITIVE_INFINITY) requireNumber("degreesOfFreedom", df, leastDf, mostDf);
  if (q === 0) return 1;
  if (q === Number.POSITIVE_INFINITY) return 0;
  const upper = rangeUpper(groups);
  return Math.min(
    1,
    overDeviation((s) => upper(q * s), df, 0.085),
  );
}

/**
 * The q that the studentized range reaches with this probability.
 *
 * Takes    tail: the upper one, 1e-10 to below 1; groups, df: as `studentizedRangeUpper`
 * Returns  relative error about 1e-12
 * Throws   as `studentizedRangeUpper`
 * Example  studentizedRangeQuantile(0.05, 3, 10) // 3.8767767500132
 */
export function studentizedRangeQuantile(tail: number, groups: number, df: number): number {
  requireNumber("tail", tail, 1e-10, 1 - 1e-10);
  const falling = (log: number) => Math.log(tail / studentizedRangeUpper(Math.exp(log), groups, df));
  let [low, high] = [0, 1];
  while (falling(low) > 0) low -= 1;
  while (falling(high) < 0) high += 1;
  const found = root(falling, low, high, 1e-13);
  return Math.exp(found.bracketed ? found.at : low);
}

/**
 * Upper tail of the range of so many standard normal values: one of them is the least, at z; the others lie above it, and
 * not all within w. With a and d the tails beyond z and z + w that is a^m - (a - d)^m = d times a sum of products, in which
 * nothing cancels.
 */
function rangeUpper(groups: number): (w: number) => number {
  const others = groups - 1;
  const step = 0.7 / Math.sqrt(groups);
  const nodes: { z: number; weight: number; above: number }[] = [];
  for (let z = lowEnd; z <= highEnd; z += step) {
    nodes.push({ z, weight: groups * step * normalDensity(z), above: normalUpper(z) });
  }
  return (w) => {
    let sum = 0;
    for (const { z, weight, above } of nodes) {
      const beyond = normalUpper(z + w);
      const within = above - beyond;
      let products = 0;
      for (let i = 0; i < others; i++) products = products * within + above ** i;
      sum += weight * beyond * products;
    }
    return sum;
  };
}
