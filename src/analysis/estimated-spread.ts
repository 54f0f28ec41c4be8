import { stirlingRemainder } from "./saddle-point.ts";

/**
 * The spread that a study estimates, over the true one: S = sqrt(chi-square / df). What is divided by S (noncentral t, the
 * studentized range, Dunnett's largest t) has a tail that is the mean, over S, of the same tail with the spread known.
 */

/** Most steps to one side, far more than the widest case takes. */
const mostSteps = 1_000_000;

/**
 * Mean of a probability over S, by the trapezoid rule in u = log S. Both factors fall off fast to both sides there, so the
 * rule is exact to the last digits once its step is small beside both.
 *
 * Takes    known: the probability when S is this; times the density it must have a single peak. df: above 0, finite.
 *          peak: about where that product is largest, in u. step: what `known` asks for; the density may ask for less
 * Returns  terms of one sign are added, so small means keep their digits
 * Source   L. N. Trefethen and J. A. C. Weideman 2014 on the rule; M. D. Copenhaver and B. Holland 1988 on the double
 *          integral it serves (from memory)
 */
export function meanOverSpread(known: (s: number) => number, df: number, peak: number, step: number): number {
  const fine = Math.min(step, 0.085, 0.38 / Math.sqrt(df));
  const value = (u: number) => spreadDensity(u, df) * known(Math.exp(u));
  let sum = value(peak);
  for (const side of [fine, -fine]) {
    let before = 0;
    for (let count = 1; count <= mostSteps; count++) {
      const term = value(peak + count * side);
      sum += term;
      // the peak is known roughly: go on while terms still rise
      if (!(term > before || term > sum * 1e-18)) break;
      before = term;
    }
  }
  return sum * fine;
}

/** Density of u = log S: sqrt(df / pi) exp(-r - df (e^(2u) - 1 - 2u) / 2), r being Stirling's remainder of df / 2. */
function spreadDensity(u: number, df: number): number {
  return Math.sqrt(df / Math.PI) * Math.exp(-stirlingRemainder(df / 2) - (df * beyondLine(2 * u)) / 2);
}

/** e^x - 1 - x, never negative, as a series where the difference would cancel. */
function beyondLine(x: number): number {
  if (Math.abs(x) > 0.5) return Math.expm1(x) - x;
  let term = (x * x) / 2;
  let sum = term;
  for (let order = 3; Math.abs(term) > sum * 1e-17; order++) {
    term *= x / order;
    sum += term;
  }
  return sum;
}
