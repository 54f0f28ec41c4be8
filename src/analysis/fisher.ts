import { requireNumber } from "./check.ts";
import { betaTails, leastParameter, mostParameter } from "./incomplete-beta.ts";

/** Fisher's F distribution, for 0.1 to 1e7 degrees of freedom, whole or not. Both tails come from the incomplete beta. */

/**
 * Probability that F is at least this value.
 *
 * Takes    f: 0 or more, Infinity too; numeratorDf, denominatorDf: 0.1 to 1e7
 * Returns  relative error below 1e-12 down to 1e-10, 2e-12 down to 1e-300; 0 where a double cannot hold it
 * Throws   Problem "analysis/out-of-range"
 * Example  fisherUpper(3, 3, 29.7) // 0.0462401124255043
 */
export function fisherUpper(f: number, numeratorDf: number, denominatorDf: number): number {
  return tails(f, numeratorDf, denominatorDf).lower;
}

/** Probability that F is at most this value; see `fisherUpper`. Example: fisherLower(1, 4, 4) // 0.5 */
export function fisherLower(f: number, numeratorDf: number, denominatorDf: number): number {
  return tails(f, numeratorDf, denominatorDf).upper;
}

/** Tails of the share of the denominator: it is small where F is large. */
function tails(f: number, numeratorDf: number, denominatorDf: number): { lower: number; upper: number } {
  requireNumber("F", f, 0, Number.POSITIVE_INFINITY);
  requireNumber("numeratorDf", numeratorDf, 2 * leastParameter, mostParameter);
  requireNumber("denominatorDf", denominatorDf, 2 * leastParameter, mostParameter);
  const odds = (numeratorDf / denominatorDf) * f;
  const numeratorShare = odds === Number.POSITIVE_INFINITY ? 1 : odds / (1 + odds);
  return betaTails(denominatorDf / 2, numeratorDf / 2, 1 / (1 + odds), numeratorShare);
}
