import { requireCount, requireRisk, requireShare } from "./check.ts";
import { walkToCritical } from "./critical-search.ts";
import { deviance, meanOf, stirlingRemainder } from "./saddle-point.ts";

/**
 * How many of n independent answers are right when each is right with the same probability p: the exact binomial.
 *
 * Both tails are summed as tails, so that a small one keeps its digits; relative error below 1e-12 down to 1e-300 for
 * n up to 100 000. A tail that a double cannot hold comes back as 0; its logarithm is still right.
 */
type Tails = { lower: number; upper: number; logLower: number; logUpper: number };

/**
 * Natural logarithm of the probability of exactly `right` of n.
 *
 * Takes    right, n: whole counts, 0 <= right <= n <= 100 000; p: 0 to 1
 * Returns  at most 0; -Infinity where it cannot happen (p is 0 or 1)
 * Throws   Problem "analysis/not-a-count", "analysis/not-a-share"
 * Source   saddle-point form, C. Loader 2000, "Fast and accurate computation of binomial probabilities" (from memory)
 */
export function logPointProbability(right: number, n: number, p: number): number {
  check(right, n, p);
  return logPoint(right, n, p);
}

/** Probability of exactly `right` of n; see `logPointProbability`. Example: pointProbability(1, 2, 0.5) // 0.5 */
export function pointProbability(right: number, n: number, p: number): number {
  return Math.exp(logPointProbability(right, n, p));
}

/**
 * Probability that at least `right` of n are right: P(X >= right).
 *
 * Takes    right, n: whole counts, 0 <= right <= n <= 100 000; p: 0 to 1
 * Throws   Problem "analysis/not-a-count", "analysis/not-a-share"
 * Example  upperTail(13, 24, 1 / 3) // 0.028441128095468
 */
export function upperTail(right: number, n: number, p: number): number {
  check(right, n, p);
  return tailsAt(right, n, p).upper;
}

/**
 * Probability that at most `right` of n are right: P(X <= right). Takes and throws what `upperTail` does.
 * Example  lowerTail(12, 24, 1 / 3) // 0.971558871904532
 */
export function lowerTail(right: number, n: number, p: number): number {
  check(right, n, p);
  return tailsAt(right + 1, n, p).lower;
}

/** Natural logarithm of `upperTail`, good far below the smallest double. */
export function logUpperTail(right: number, n: number, p: number): number {
  check(right, n, p);
  return tailsAt(right, n, p).logUpper;
}

/** Natural logarithm of `lowerTail`, good far below the smallest double. */
export function logLowerTail(right: number, n: number, p: number): number {
  check(right, n, p);
  return tailsAt(right + 1, n, p).logLower;
}

/**
 * Least number right of n that a guessing panel reaches with probability alpha or less.
 *
 * Takes    n: 0 to 100 000; guessProbability: 0 to 1; alpha: between 0 and 1
 * Returns  the number; null when even all right would not do
 * Rule     P(X >= number) <= alpha, compared as it is: no tolerance is added
 * Example  criticalNumber(24, 1 / 3, 0.05) // 13
 */
export function criticalNumber(n: number, guessProbability: number, alpha: number): number | null {
  requireCount("judgments", n);
  requireShare("guessProbability", guessProbability);
  requireRisk("alpha", alpha);
  const reaches = (right: number) => tailsAt(right, n, guessProbability).upper <= alpha;
  const near = walkToCritical(n, guessProbability, alpha, (right) => logPoint(right, n, guessProbability), reaches);
  const found = near ?? firstWhere(n + 1, reaches);
  return found > n ? null : found;
}

/**
 * Most right of n that a panel with this share right stays at or under with probability beta or less.
 *
 * Takes    n: 0 to 100 000; rightShare: 0 to 1; beta: between 0 and 1
 * Returns  the number; null when even none right would come up more often
 * Rule     P(X <= number) <= beta, compared as it is: no tolerance is added
 * Example  mostWithin(24, 8 / 15, 0.05) // 8
 */
export function mostWithin(n: number, rightShare: number, beta: number): number | null {
  requireCount("judgments", n);
  requireShare("rightShare", rightShare);
  requireRisk("beta", beta);
  const over = firstWhere(n, (right) => tailsAt(right + 1, n, rightShare).lower > beta);
  return over === 0 ? null : over - 1;
}

/**
 * Binomial quantile: least number right whose lower tail reaches `share` (between 0 and 1).
 * Example  quantile(0.5, 24, 1 / 3) // 8
 */
export function quantile(share: number, n: number, p: number): number {
  requireRisk("share", share);
  check(0, n, p);
  return firstWhere(n, (right) => tailsAt(right + 1, n, p).lower >= share);
}

/** First whole number from 0 on for which the test holds, by bisection; it is taken to hold at `high`. */
function firstWhere(high: number, holds: (value: number) => boolean): number {
  let low = 0;
  let top = high;
  while (low < top) {
    const middle = Math.floor((low + top) / 2);
    if (holds(middle)) top = middle;
    else low = middle + 1;
  }
  return low;
}

function check(right: number, n: number, p: number): void {
  requireCount("judgments", n);
  requireCount("correct", right, 0, n);
  requireShare("probability", p);
}

function logPoint(right: number, n: number, p: number): number {
  if (right === 0) return n === 0 ? 0 : n * Math.log1p(-p);
  if (right === n) return n * Math.log(p);
  if (p === 0 || p === 1) return Number.NEGATIVE_INFINITY;
  const wrong = n - right;
  const mean = meanOf(n, p);
  return (
    stirlingRemainder(n) -
    stirlingRemainder(right) -
    stirlingRemainder(wrong) -
    deviance(right, mean.right) -
    deviance(wrong, mean.wrong) -
    0.5 * Math.log(2 * Math.PI * right * (wrong / n))
  );
}

/** P(X >= right) and P(X < right). Away from the mean the small one is summed; the other is one minus it. */
function tailsAt(right: number, n: number, p: number): Tails {
  if (right <= 0) return split(Number.NEGATIVE_INFINITY, 0);
  if (right > n) return split(0, Number.NEGATIVE_INFINITY);
  const mean = n * p;
  if (right - 1 >= mean) return fromUpper(logSum(right, n, p, 1));
  if (right <= mean) return fromLower(logSum(right - 1, n, p, -1));
  // the mean lies between the two counts: both sums are good, and the smaller one decides for both
  const [upper, lower] = [logSum(right, n, p, 1), logSum(right - 1, n, p, -1)];
  return upper <= lower ? fromUpper(upper) : fromLower(lower);
}

const split = (logLower: number, logUpper: number): Tails => ({
  lower: Math.exp(logLower),
  upper: Math.exp(logUpper),
  logLower,
  logUpper,
});

function fromUpper(logUpper: number): Tails {
  const upper = Math.exp(logUpper);
  return { upper, lower: 1 - upper, logUpper, logLower: Math.log1p(-upper) };
}

function fromLower(logLower: number): Tails {
  const lower = Math.exp(logLower);
  return { lower, upper: 1 - lower, logLower, logUpper: Math.log1p(-lower) };
}

/** Logarithm of the sum of point probabilities from `right` on, away from the mean (direction 1 or -1). */
function logSum(right: number, n: number, p: number, direction: 1 | -1): number {
  const odds = direction === 1 ? p / (1 - p) : (1 - p) / p;
  let [from, left] = direction === 1 ? [right, n - right] : [n - right, right];
  let term = 1;
  let sum = 1;
  while (left > 0 && term > sum * 1e-18) {
    term *= (left / (from + 1)) * odds;
    sum += term;
    from += 1;
    left -= 1;
  }
  return logPoint(right, n, p) + Math.log(sum);
}
