import { requireNumber } from "./check.ts";
import { meanOverSpread } from "./estimated-spread.ts";
import { normalDensity, normalUpper } from "./normal.ts";
import { root } from "./root.ts";
import { studentUpper } from "./student.ts";

/** Noncentral t: a normal value around `shift`, of unit spread, over an estimated spread. What power is computed from. */

/** What the tails were checked for. */
const [leastDf, mostDf, mostShift] = [0.5, 1e7, 1000];

/**
 * Probability that noncentral t is at least this value.
 *
 * Takes    t: any number, infinite ones too; df: 0.5 to 1e7, whole or not; shift: the noncentrality, -1000 to 1000
 * Returns  relative error below 1e-11 down to 1e-60; 0 where a double cannot hold it
 * Throws   Problem "analysis/out-of-range"
 * Source   mean of the normal tail over the density of the estimated spread (from memory); see `meanOverSpread`
 * Example  noncentralStudentUpper(2, 9, 2) // 0.521029074939351
 */
export function noncentralStudentUpper(t: number, df: number, shift: number): number {
  requireNumber("t", t, Number.NEGATIVE_INFINITY, Number.POSITIVE_INFINITY);
  requireNumber("degreesOfFreedom", df, leastDf, mostDf);
  requireNumber("noncentrality", shift, -mostShift, mostShift);
  if (shift === 0) return studentUpper(t, df);
  if (t === 0) return normalUpper(-shift);
  if (Math.abs(t) === Number.POSITIVE_INFINITY) return t > 0 ? 0 : 1;
  const peak = peakOf(t, df, shift);
  // the normal tail bends within 1 of where t S meets the shift, which in log S is 1 / (t S)
  const step = 0.5 / (Math.abs(t) * Math.exp(peak) + 6);
  return Math.min(
    1,
    meanOverSpread((s) => normalUpper(t * s - shift), df, peak, step),
  );
}

/** Probability that it is at most this value; see `noncentralStudentUpper`. Example: noncentralStudentLower(0, 9, 0) // 0.5 */
export function noncentralStudentLower(t: number, df: number, shift: number): number {
  return noncentralStudentUpper(-t, df, -shift);
}

/** Where, in log S, density times tail is largest: the slope of its logarithm changes sign once. */
function peakOf(t: number, df: number, shift: number): number {
  const slope = (u: number) => df * -Math.expm1(2 * u) - fallRate(t * Math.exp(u) - shift) * t * Math.exp(u);
  const found = root(slope, -750, 20, 1e-6);
  return found.bracketed ? found.at : 0;
}

/** Density over upper tail of the normal curve; far out by the first terms of its series. */
function fallRate(x: number): number {
  return x > 30 ? x + 1 / x : normalDensity(x) / normalUpper(x);
}
