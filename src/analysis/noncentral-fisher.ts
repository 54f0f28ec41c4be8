import { requireNumber } from "./check.ts";
import { betaTails, leastParameter, mostParameter } from "./incomplete-beta.ts";
import { deviance, stirlingRemainder } from "./saddle-point.ts";

/** Noncentral F: what the power of an F test is computed from. */

/** Largest noncentrality: what the tails were checked for. */
const mostNoncentrality = 1e5;

/**
 * Probability that noncentral F is at least this value.
 *
 * Takes    f: 0 or more, Infinity too; numeratorDf, denominatorDf: 0.1 to 1e6, whole or not; noncentrality: 0 to 1e5, the
 *          sum of squared standardized means (lambda; not divided by the degrees of freedom)
 * Returns  relative error below 1e-11 down to 1e-60; 0 where a double cannot hold it
 * Throws   Problem "analysis/out-of-range"
 * Source   Poisson mixture of incomplete betas from its mode outward, D. Benton and K. Krishnamoorthy 2003 (from memory)
 * Example  noncentralFisherUpper(4, 2, 57.3, 10) // 0.691326492785883
 */
export function noncentralFisherUpper(
  f: number,
  numeratorDf: number,
  denominatorDf: number,
  noncentrality: number,
): number {
  return mixture(f, numeratorDf, denominatorDf, noncentrality, "lower");
}

/** Probability that it is at most this value; see `noncentralFisherUpper`. */
export function noncentralFisherLower(
  f: number,
  numeratorDf: number,
  denominatorDf: number,
  noncentrality: number,
): number {
  return mixture(f, numeratorDf, denominatorDf, noncentrality, "upper");
}

/** The tail of the denominator's share: it is small where F is large, so its lower tail is the upper tail of F. */
function mixture(f: number, top: number, bottom: number, noncentrality: number, side: "lower" | "upper"): number {
  requireNumber("F", f, 0, Number.POSITIVE_INFINITY);
  requireNumber("numeratorDf", top, 2 * leastParameter, mostParameter / 10);
  requireNumber("denominatorDf", bottom, 2 * leastParameter, mostParameter / 10);
  requireNumber("noncentrality", noncentrality, 0, mostNoncentrality);
  const odds = (top / bottom) * f;
  const rest = 1 / (1 + odds);
  const share = odds === Number.POSITIVE_INFINITY ? 1 : odds / (1 + odds);
  const mean = noncentrality / 2;
  const term = (extra: number) => {
    const weight = poisson(extra, mean);
    return { weight, value: weight && weight * betaTails(bottom / 2, top / 2 + extra, rest, share)[side] };
  };
  return Math.min(1, outward(term, Math.floor(mean)));
}

/** Sum over whole numbers from 0 of terms with a single peak, from `start` both ways until they no longer count. */
function outward(term: (at: number) => { weight: number; value: number }, start: number): number {
  let sum = term(start).value;
  for (const step of [1, -1]) {
    let before = 0;
    for (let at = start + step; at >= 0; at += step) {
      const { weight, value } = term(at);
      sum += value;
      // in a far tail the peak of the products lies away from that of the weights: go on while terms rise
      if (!(weight > 0) || (value <= before && value <= sum * 1e-18)) break;
      before = value;
    }
  }
  return sum;
}

/** Probability of `count` where `mean` is expected, in Loader's saddle-point form. */
function poisson(count: number, mean: number): number {
  if (count === 0) return Math.exp(-mean);
  if (mean < 1e-290) return 0; // next to a mean that small nothing but 0 is expected
  const log = -stirlingRemainder(count) - deviance(count, { high: mean, low: 0 });
  return Math.exp(log) / Math.sqrt(2 * Math.PI * count);
}
