import { densityReach, nearDensity, nearQuantile, quantileReach } from "./jstat.ts";

const rootTwoPi = Math.sqrt(2 * Math.PI);

/** Height of the standard normal curve at x. Example: normalDensity(0) // 0.398942280401433 */
export function normalDensity(x: number): number {
  return Math.abs(x) <= densityReach ? nearDensity(x) : bell(x) / rootTwoPi;
}

/**
 * Probability that a standard normal value is at most x.
 *
 * Returns  relative error below 1e-13 down to 1e-300 (x about -37); 0 when a double cannot hold it
 * Source   series of G. Marsaglia 2004 near the middle, Laplace's continued fraction outside (from memory)
 * Example  normalLower(-1.959963984540054) // 0.025
 */
export function normalLower(x: number): number {
  return normalUpper(-x);
}

/** Probability that a standard normal value is at least x; see `normalLower`. Example: normalUpper(0) // 0.5 */
export function normalUpper(x: number): number {
  if (x < 0) return 1 - normalUpper(-x);
  if (x < 2.6) return 0.5 - series(x);
  if (x > 39) return 0; // below the smallest double, and Infinity - Infinity beyond it
  return bell(x) / rootTwoPi / continued(x);
}

/** Probability that a standard normal value lies between -x and x, x at least 0. Example: normalCentral(1) // 0.682689492137086 */
export function normalCentral(x: number): number {
  return x < 2.6 ? 2 * series(x) : 1 - 2 * normalUpper(x); // near 0 as a difference it would lose its digits
}

/**
 * The x below which a standard normal value falls with probability p, between 0 and 1.
 *
 * Returns  relative error below 1e-12 (next to p = 1/2: absolute error 1e-15)
 * Example  normalQuantile(1e-20) // -9.26234008979841
 */
export function normalQuantile(p: number): number {
  if (p >= quantileReach && p <= 1 - quantileReach) return nearQuantile(p);
  return p < 0.5 ? -upperQuantile(p) : upperQuantile(1 - p);
}

/** exp(-x^2 / 2), with x^2 split at a multiple of 1/16 (after W. J. Cody 1969) so that rounding it costs no digits. */
function bell(x: number): number {
  const coarse = Math.trunc(x * 16) / 16;
  return Math.exp((-coarse * coarse) / 2) * Math.exp((-(x - coarse) * (x + coarse)) / 2);
}

/** Area between 0 and x: density times x + x^3/3 + x^5/(3 5) + ... */
function series(x: number): number {
  let term = x;
  let sum = x;
  for (let odd = 3; term > sum * 1e-17; odd += 2) {
    term *= (x * x) / odd;
    sum += term;
  }
  return (bell(x) / rootTwoPi) * sum;
}

/** x + 1/(x + 2/(x + 3/(x + ...))) from the far end; the steps that settle it fall from 124 at x = 2.6 to 20 far out. */
function continued(x: number): number {
  let value = x;
  for (let step = Math.ceil(20 + 700 / (x * x)); step >= 1; step--) value = x + step / value;
  return value;
}

/** Upper-tail quantile for small tails: a rough start, then Halley steps on the log of the tail. */
function upperQuantile(tail: number): number {
  const logTail = Math.log(tail);
  let x = Math.sqrt(-2 * logTail);
  x -= Math.log(x * rootTwoPi) / x;
  for (let step = 0; step < 6; step++) {
    const inverse = normalUpper(x) / normalDensity(x); // Mills ratio
    const off = (Math.log(normalUpper(x)) - logTail) * inverse;
    // derivative of the log tail is -1/inverse, its second (x - 1/inverse)/inverse
    x += off / (1 + (off * (x - 1 / inverse)) / 2);
  }
  return x;
}
