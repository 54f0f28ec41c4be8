import { requireNumber } from "./check.ts";
import { normalUpper } from "./normal.ts";
import { overDeviation } from "./spread-of-deviation.ts";
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
 * Source   mean of the normal tail over the density of the estimated spread (from memory); see `overDeviation`
 * Example  noncentralStudentUpper(2, 9, 2) // 0.521029074939351
 */
export function noncentralStudentUpper(t: number, df: number, shift: number): number {
  requireNumber("t", t, Number.NEGATIVE_INFINITY, Number.POSITIVE_INFINITY);
  requireNumber("degreesOfFreedom", df, leastDf, mostDf);
  requireNumber("noncentrality", shift, -mostShift, mostShift);
  if (shift === 0) return studentUpper(t, df);
  if (t === 0) return normalUpper(-shift);
  if (Math.abs(t) === Number.POSITIVE_INFINITY) return t > 0 ? 0 : 1;
  // the normal tail bends within 1 of where t S meets the shift, which in log S is 1 / (t S)
  const step = Math.min(0.085, 0.5 / (Math.abs(shift) + 6));
  return Math.min(
    1,
    overDeviation((s) => normalUpper(t * s - shift), df, step),
  );
}

/** Probability that it is at most this value; see `noncentralStudentUpper`. Example: noncentralStudentLower(0, 9, 0) // 0.5 */
export function noncentralStudentLower(t: number, df: number, shift: number): number {
  return noncentralStudentUpper(-t, df, -shift);
}
