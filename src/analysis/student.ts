import { requireNumber } from "./check.ts";
import { betaTails } from "./incomplete-beta.ts";
import { root } from "./root.ts";

/** Student's t distribution, for 0.1 to 1e7 degrees of freedom, whole or not. All tails come from the incomplete beta. */

/** Least and largest degrees of freedom: what the tails were checked for. */
const leastDf = 0.1;
const mostDf = 1e7;
/** Least and largest share a quantile is found for; the largest is the last double below 1. */
const leastTail = 1e-100;
const mostShare = 1 - Number.EPSILON / 2;

/**
 * Probability that t is at least this value.
 *
 * Takes    t: any number, infinite ones too; df: 0.1 to 1e7
 * Returns  relative error below 1e-12 down to 1e-10, 2e-12 down to 1e-300; 0 where a double cannot hold it, or t * t
 * Throws   Problem "analysis/out-of-range"
 * Example  studentUpper(3, 7.34) // 0.00942975443991866
 */
export function studentUpper(t: number, df: number): number {
  const { outside, inside } = sidesOf(t, df);
  // on the far side of 0 the tail is a half and the area from 0: nothing cancels
  return t < 0 ? 0.5 + inside / 2 : outside / 2;
}

/** Probability that t is at most this value; see `studentUpper`. Example: studentLower(-3, 7.34) // 0.00942975443991866 */
export function studentLower(t: number, df: number): number {
  return studentUpper(-t, df);
}

/** Probability that t is at least this far from 0, either way. Example: studentTwoSided(-1, 1) // 0.5 */
export function studentTwoSided(t: number, df: number): number {
  return sidesOf(t, df).outside;
}

/**
 * The t below which a share of the distribution lies.
 *
 * Takes    share: 1e-100 to the last double below 1. Where it is the complement of a risk, -studentQuantile(risk, df) is
 *          the same by symmetry and keeps the risk's digits. df: 1 to 1e7
 * Returns  relative error below 1e-12
 * Throws   Problem "analysis/out-of-range"
 * Example  studentQuantile(0.975, 7.34) // 2.34260007538569
 */
export function studentQuantile(share: number, df: number): number {
  requireNumber("share", share, leastTail, mostShare);
  requireNumber("degreesOfFreedom", df, 1, mostDf);
  if (share === 0.5) return 0;
  return share < 0.5 ? -upperQuantile(share, df) : upperQuantile(1 - share, df);
}

/** The positive t whose upper tail is this, below 1/2: root in u = log(t^2 / df), which holds any tail. */
function upperQuantile(tail: number, df: number): number {
  const sides = (u: number) => oddsSides(df, Math.exp(u));
  // near the middle the area between -t and t tells more than the tail does; 1 - 2 tail is exact there
  const rising =
    tail > 0.25
      ? (u: number) => Math.log(sides(u).inside / (1 - 2 * tail))
      : (u: number) => Math.log((2 * tail) / sides(u).outside);
  let [low, high] = [-1, 1];
  while (rising(low) > 0) low *= 2;
  while (rising(high) < 0) high *= 2;
  const found = root(rising, low, high);
  return Math.sqrt(df) * Math.exp((found.bracketed ? found.at : low) / 2);
}

/** P(|T| >= |t|) and P(|T| <= |t|). */
function sidesOf(t: number, df: number): { outside: number; inside: number } {
  requireNumber("t", t, Number.NEGATIVE_INFINITY, Number.POSITIVE_INFINITY);
  requireNumber("degreesOfFreedom", df, leastDf, mostDf);
  return oddsSides(df, (t * t) / df);
}

/** The same from t^2 / df. */
function oddsSides(df: number, odds: number): { outside: number; inside: number } {
  const x = 1 / (1 + odds);
  const y = odds === Number.POSITIVE_INFINITY ? 1 : odds / (1 + odds);
  const { lower, upper } = betaTails(df / 2, 0.5, x, y);
  return { outside: lower, inside: upper };
}
