import type { Interval } from "../model/interval.ts";
import { logHypergeometricPoint, type Margins } from "./fisher-exact.ts";
import { root } from "./root.ts";

/**
 * How many of the unlike trays are told if nothing differs, given each stratum's margins: a sum of independent
 * hypergeometric counts. `logs[i]` is the log probability of `least + i` told; all counts from least to most can happen.
 */
export type Conditional = { least: number; logs: Float64Array };

/**
 * Takes    strata: one where everybody gave one answer, else one a person; `first` the unlike trays, `second` the like
 * Returns  sums of positive terms alone; relative error below 1e-12 for a hundred strata
 * Throws   Problem "analysis/not-a-count"
 */
export function conditionalCounts(strata: readonly Margins[]): Conditional {
  let least = 0;
  let sum: Conditional["logs"] | null = null;
  for (const margins of strata) {
    const { first, second, told } = margins;
    const from = Math.max(0, told - second);
    least += from;
    const own = Float64Array.from({ length: Math.min(first, told) - from + 1 }, (_, at) =>
      logHypergeometricPoint(from + at, margins),
    );
    // one count alone adds no spread, but itself
    if (sum === null) sum = own;
    else if (own.length > 1) sum = convolution(sum, own);
  }
  return { least, logs: sum ?? Float64Array.of(0) };
}

/** Of logs, taken out of them for the sums: a stratum is one person's few trays. */
function convolution(one: Float64Array, other: Float64Array): Float64Array {
  const sum = new Float64Array(one.length + other.length - 1);
  const [a, b] = [one.map(Math.exp), other.map(Math.exp)];
  a.forEach((first, at) => {
    b.forEach((second, by) => {
      sum[at + by] = (sum[at + by] ?? 0) + first * second;
    });
  });
  return sum.map(Math.log);
}

/** P(at least `told`), summed from the far end; 1 at the least there can be. */
export function conditionalUpper({ least, logs }: Conditional, told: number): number {
  if (told <= least) return 1;
  let tail = 0;
  for (let at = logs.length - 1; at >= told - least; at--) tail += Math.exp(logs[at] ?? 0);
  return Math.min(1, tail);
}

/** P(at most `told`), summed from the far end. */
export function conditionalLower({ least, logs }: Conditional, told: number): number {
  if (told >= least + logs.length - 1) return 1;
  let tail = 0;
  for (let at = 0; at <= told - least; at++) tail += Math.exp(logs[at] ?? 0);
  return Math.min(1, tail);
}

/**
 * Odds of "told" for unlike trays over those for like ones, the same in every stratum, given the margins.
 *
 * Takes    told: of the unlike trays; pValue: of the test, with which the bound is kept in step
 * Returns  the conditional maximum-likelihood estimate: 0 at the least told there can be, null at the most (no odds are
 *          too large) and where the margins leave one count alone; its exact lower bound at 1 - alpha, above 1 if and only
 *          if p <= alpha, and 0 at the least
 * Source   R. A. Fisher 1935, J. Cornfield 1956 (from memory)
 */
export function conditionalOdds(counts: Conditional, told: number, alpha: number, pValue: number): Interval {
  const at = told - counts.least;
  const most = counts.logs.length - 1;
  const lower = { high: null, confidence: 1 - alpha, kind: "lower" as const };
  if (most === 0) return { ...lower, estimate: null, low: 0 };
  if (at === 0) return { ...lower, estimate: 0, low: 0 };
  const bound = Math.exp(crossing((logOdds) => Math.log(tilted(counts.logs, logOdds, at).upper / alpha)));
  const low = pValue <= alpha ? Math.max(bound, 1 + Number.EPSILON) : Math.min(bound, 1);
  const estimate = at === most ? null : Math.exp(crossing((logOdds) => tilted(counts.logs, logOdds, at).mean - at));
  return { ...lower, estimate, low };
}

/** Where a rising function of the log odds crosses zero. */
function crossing(rising: (logOdds: number) => number): number {
  let [low, high] = [-1, 1];
  while (rising(low) > 0 && low > -700) low *= 2;
  while (rising(high) < 0 && high < 700) high *= 2;
  const found = root(rising, low, high, 1e-14);
  return found.bracketed ? found.at : 0;
}

/** The mean count, and how likely at least `from` (indexes), with the odds multiplied. */
function tilted(logs: Float64Array, logOdds: number, from: number): { mean: number; upper: number } {
  let most = Number.NEGATIVE_INFINITY;
  logs.forEach((log, at) => {
    most = Math.max(most, log + at * logOdds);
  });
  let [all, sum, tail] = [0, 0, 0];
  for (let at = logs.length - 1; at >= 0; at--) {
    const weight = Math.exp((logs[at] ?? 0) + at * logOdds - most);
    all += weight;
    sum += at * weight;
    if (at >= from) tail = all;
  }
  return { mean: sum / all, upper: Math.max(Number.MIN_VALUE, tail / all) };
}
