import type { Interval } from "../model/interval.ts";
import type { SpreadFit } from "../model/outcome.ts";
import type { ChoiceStatistics } from "../model/result-choice.ts";
import { logLikelihoodOf, type PersonCounts } from "./beta-binomial.ts";
import { requireRisk, requireShare } from "./check.ts";
import { chiSquareUpper } from "./chi-square.ts";
import { highest } from "./maximum.ts";
import { normalLower, normalQuantile, normalUpper } from "./normal.ts";
import { root } from "./root.ts";

/** Log likelihoods nearer to each other than this are the same: what rounding leaves of them. */
const same = 1e-10;

/**
 * Beta-binomial of people's counts by maximum likelihood.
 *
 * Takes    people: with one answer or more each; guess: chance that somebody who cannot tell is right, 0 for the shares
 *          themselves; confidence: of both intervals, which are two-sided by profile likelihood (chi-square on 1 df)
 * Returns  null where it says nothing: fewer than two people, or nobody gave more than one answer. A mean of 0 or 1 leaves
 *          no spread to estimate: then `overdispersion` has no value. `pValue` is the likelihood-ratio test of no spread:
 *          the estimate cannot be below 0, so half of the chi-square tail on 1 df, and 1 where the estimate is 0. The
 *          intervals and p are approximations that rest on the number of people
 * Throws   Problem "analysis/not-a-share"
 */
export function spreadFit(people: readonly PersonCounts[], guess: number, confidence: number): SpreadFit | null {
  requireRisk("confidence", confidence);
  if (!severalAnswers(people)) return null;
  const fit = fitOf(people, guess);
  const reach = normalQuantile((1 + confidence) / 2) ** 2 / 2;
  const around = { confidence, kind: "two-sided" as const };
  const { mean, overdispersion } = fit;
  const ratio = 2 * (fit.value - fit.alike);
  return {
    mean: { estimate: mean, ...within(fit.ofMean, mean, fit.value, reach), ...around },
    overdispersion:
      mean === 0 || mean === 1
        ? { estimate: null, low: null, high: null, confidence, kind: "none" }
        : { estimate: overdispersion, ...within(fit.ofSpread, overdispersion, fit.value, reach), ...around },
    pValue: overdispersion === 0 ? 1 : Math.max(Number.MIN_VALUE, normalUpper(Math.sqrt(Math.max(0, ratio)))),
  };
}

/**
 * Is the mean share who can tell less than a limit, people being allowed to differ?
 *
 * Takes    limit: between 0 and 1, a share who can tell; guess as `spreadFit`; beta: risk of a yes at the limit
 * Returns  p from the signed root of the likelihood ratio at the limit, and the mean with its upper bound at 1 - beta: it
 *          lies under the limit if and only if p <= beta. Both approximate, resting on the number of people: counted out
 *          for triangles at a limit of 0.3, the risk meant to be 0.05 is 0.038 to 0.053 for 12 people three times and for
 *          20 and 30 people twice, whatever the overdispersion
 * Throws   Problem "analysis/not-a-share"
 */
export function meanBelow(
  people: readonly PersonCounts[],
  guess: number,
  limit: number,
  beta: number,
): { pValue: number; discriminatorShare: Interval } {
  requireRisk("beta", beta);
  requireRisk("limit", limit);
  const { mean, value, ofMean } = fitOf(people, guess);
  const fall = Math.sqrt(Math.max(0, 2 * (value - ofMean(limit))));
  const pValue = Math.max(Number.MIN_VALUE, mean < limit ? normalLower(-fall) : normalUpper(-fall));
  const { high } = within(ofMean, mean, value, normalQuantile(1 - beta) ** 2 / 2);
  // a risk above one half asks for no more than the estimate
  const bound = beta < 1 / 2 ? high : mean;
  return {
    pValue,
    discriminatorShare: {
      estimate: mean,
      low: null,
      high: pValue <= beta ? Math.min(bound, limit) : Math.max(bound, limit),
      confidence: 1 - beta,
      kind: "upper",
    },
  };
}

/** Did two people or more answer, and one of them more than once? */
export const severalAnswers = (people: readonly PersonCounts[]): boolean =>
  people.length > 1 && people.some(({ of }) => of > 1);

/**
 * Pearson's chi-square of people's counts against one share for all, on one degree of freedom less than people.
 *
 * Returns  null with fewer than two people, nobody with more than one answer, or all answers the same. The p-value is the
 *          chi-square approximation
 */
export function spreadChiSquare(people: readonly PersonCounts[]): ChoiceStatistics["spread"] {
  const right = people.reduce((sum, one) => sum + one.right, 0);
  const of = people.reduce((sum, one) => sum + one.of, 0);
  if (!severalAnswers(people) || right === 0 || right === of) return null;
  const share = right / of;
  const chiSquare = people.reduce(
    (sum, one) => sum + (one.right - one.of * share) ** 2 / (one.of * share * (1 - share)),
    0,
  );
  const df = people.length - 1;
  return { chiSquare, df, pValue: Math.max(Number.MIN_VALUE, chiSquareUpper(chiSquare, df)) };
}

type Fit = {
  mean: number;
  overdispersion: number;
  /** Log likelihood at the estimate, and the largest without spread. */
  value: number;
  alike: number;
  /** The largest log likelihood at a mean, and at an overdispersion. */
  ofMean: (mean: number) => number;
  ofSpread: (overdispersion: number) => number;
};

function fitOf(people: readonly PersonCounts[], guess: number): Fit {
  requireShare("guess", guess);
  const likelihood = logLikelihoodOf(people, guess);
  const meanAt = (spread: number) => highest((mean) => likelihood(mean, spread), 0, 1);
  const ofSpread = (spread: number) => meanAt(spread).value;
  const ofMean = (mean: number) => highest((spread) => likelihood(mean, spread), 0, 1).value;
  const best = highest(ofSpread, 0, 1);
  const none = meanAt(0);
  const spread = best.value - none.value <= same ? 0 : best.at;
  const { at, value } = spread === 0 ? none : meanAt(spread);
  const end = [0, 1].find((mean) => value - likelihood(mean, spread) <= same);
  return { mean: end ?? at, overdispersion: spread, value, alike: none.value, ofMean, ofSpread };
}

/** How far to both sides the log likelihood stays within `reach` of its largest; 0 and 1 where it does so to the end. */
function within(profile: (at: number) => number, best: number, value: number, reach: number) {
  const off = (at: number) => Math.max(-1e3, profile(at) - value + reach);
  const edge = (end: number) => {
    if (Math.abs(end - best) < 1e-12 || off(end) >= 0) return end;
    const found = root(off, Math.min(end, best), Math.max(end, best), 1e-10);
    return found.bracketed ? found.at : best;
  };
  return { low: edge(0), high: edge(1) };
}
