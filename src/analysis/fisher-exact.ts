import { logPointProbability } from "./binomial.ts";
import { requireCount, requireRisk } from "./check.ts";

/**
 * Two groups of answers held against each other, exactly: given how many each group gave and how many were "told" in
 * all, the number told in the first group is hypergeometric if nothing differs. R. A. Fisher 1935 (from memory).
 */
export type Margins = {
  /** Answers of the first group, and of the second; together at most 100,000. */
  first: number;
  second: number;
  /** "Told" in both together. */
  told: number;
};

/**
 * How likely the first group has at least `firstTold` told, if nothing differs: the one-sided p-value.
 *
 * Takes    firstTold: whole, 0 to `first`; margins: whole counts
 * Returns  1 at and below the least the margins allow, 0 above the most; relative error below 1e-12 down to 1e-300. Up to
 *          50 answers a correctly rounded fraction, so that 1/20 is 0.05
 * Throws   Problem "analysis/not-a-count"
 * Example  hypergeometricUpper(3, { first: 4, second: 4, told: 4 }) // 17 / 70
 */
export function hypergeometricUpper(firstTold: number, margins: Margins): number {
  check(firstTold, margins);
  return tails(firstTold, margins).upper;
}

/** How likely the first group has at most `firstTold` told; see `hypergeometricUpper`. */
export function hypergeometricLower(firstTold: number, margins: Margins): number {
  check(firstTold, margins);
  return tails(firstTold + 1, margins).lower;
}

/** How likely the first group has exactly `firstTold` told, if nothing differs; 0 where the margins do not allow it. */
export function hypergeometricPoint(firstTold: number, margins: Margins): number {
  check(firstTold, margins);
  return Math.exp(logPoint(firstTold, margins));
}

/** Natural logarithm of it, good far below the smallest double; -Infinity where the margins do not allow the count. */
export function logHypergeometricPoint(firstTold: number, margins: Margins): number {
  check(firstTold, margins);
  return logPoint(firstTold, margins);
}

/**
 * Fisher's exact p-value, one-sided: are more told in the first group?
 *
 * Takes    told and all answers of the first group, then of the second
 * Returns  above 0: below the smallest double that double stands for it
 * Throws   Problem "analysis/not-a-count"
 * Example  fisherExactUpper(3, 4, 1, 4) // 17 / 70
 */
export function fisherExactUpper(firstTold: number, first: number, secondTold: number, second: number): number {
  requireCount("told", secondTold, 0, second);
  const margins = { first, second, told: firstTold + secondTold };
  return Math.max(Number.MIN_VALUE, hypergeometricUpper(firstTold, margins));
}

/**
 * Least told in the first group that reaches alpha with these margins; null when none would.
 *
 * Rule     P(at least so many) <= alpha, compared as it is
 * Throws   Problem "analysis/not-a-count", "analysis/not-a-share"
 * Example  hypergeometricCritical({ first: 4, second: 4, told: 4 }, 0.05) // 4
 */
export function hypergeometricCritical(margins: Margins, alpha: number): number | null {
  check(0, margins);
  requireRisk("alpha", alpha);
  let [low, high] = [least(margins), most(margins) + 1];
  while (low < high) {
    const middle = Math.floor((low + high) / 2);
    if (tails(middle, margins).upper <= alpha) high = middle;
    else low = middle + 1;
  }
  return low > most(margins) ? null : low;
}

const least = ({ second, told }: Margins): number => Math.max(0, told - second);
const most = ({ first, told }: Margins): number => Math.min(first, told);

function check(firstTold: number, { first, second, told }: Margins): void {
  requireCount("judgments", first);
  requireCount("judgments", first + second, first);
  requireCount("told", told, 0, first + second);
  requireCount("told", firstTold, 0, first);
}

/** Three binomial masses at a common share, so that no factorial is formed (C. Loader 2000, from memory). */
function logPoint(firstTold: number, margins: Margins): number {
  const { first, second, told } = margins;
  if (firstTold < least(margins) || firstTold > most(margins)) return Number.NEGATIVE_INFINITY;
  const all = first + second;
  if (told === 0 || told === all) return 0;
  const share = told / all;
  return (
    logPointProbability(firstTold, first, share) +
    logPointProbability(told - firstTold, second, share) -
    logPointProbability(told, all, share)
  );
}

/** P(at least) and P(below). Away from the mean the small one is summed; the other is one minus it. */
function tails(firstTold: number, margins: Margins): { upper: number; lower: number } {
  if (firstTold <= least(margins)) return { upper: 1, lower: 0 };
  if (firstTold > most(margins)) return { upper: 0, lower: 1 };
  const { first, second, told } = margins;
  if (first + second <= mostExact) return exactTails(firstTold, margins);
  const mean = (told * first) / (first + second);
  if (firstTold - 1 >= mean) return fromUpper(sum(firstTold, margins, 1));
  if (firstTold <= mean) return fromLower(sum(firstTold - 1, margins, -1));
  // the mean lies between the two counts: both sums are good, and the smaller one decides for both
  const [upper, lower] = [sum(firstTold, margins, 1), sum(firstTold - 1, margins, -1)];
  return upper <= lower ? fromUpper(upper) : fromLower(lower);
}

/** Up to here all ways to choose are whole numbers that a double holds exactly. */
const mostExact = 50;

/** Ways to tell so many in the first group, over all ways: whole numbers, divided once. */
function exactTails(firstTold: number, margins: Margins): { upper: number; lower: number } {
  const { first, second, told } = margins;
  let above = 0;
  for (let at = firstTold; at <= most(margins); at++) above += choose(first, at) * choose(second, told - at);
  const all = choose(first + second, told);
  return { upper: above / all, lower: (all - above) / all };
}

/** Binomial coefficient, exact below 2^53: each product is divided by a number that goes into it. */
function choose(n: number, k: number): number {
  let ways = 1;
  for (let step = 1; step <= Math.min(k, n - k); step++) ways = (ways * (n - step + 1)) / step;
  return ways;
}

const fromUpper = (upper: number) => ({ upper, lower: 1 - upper });
const fromLower = (lower: number) => ({ lower, upper: 1 - lower });

/** Point probabilities from `from` on away from the mean, each from the one before. */
function sum(from: number, margins: Margins, direction: 1 | -1): number {
  const { first, second, told } = margins;
  let term = 1;
  let total = 1;
  for (let at = from; term > total * 1e-18; at += direction) {
    const [x, y] = direction === 1 ? [at, told - at] : [told - at, at];
    const [n, m] = direction === 1 ? [first, second] : [second, first];
    // one more told in the group that grows, one less in the other
    term *= ((n - x) / (x + 1)) * (y / (m - y + 1));
    total += term;
  }
  return Math.exp(logPoint(from, margins)) * total;
}
