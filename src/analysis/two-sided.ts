import { criticalNumber, lowerTail, upperTail } from "./binomial.ts";
import { requireAlpha, requireCount, requireShare } from "./check.ts";

/** The exact test of two counts against a coin, in both directions: doubled smaller tail. */

/** Up to here all ways to split the votes are whole numbers that a double holds exactly. */
const mostExact = 50;

/**
 * How likely a coin gives two counts at least as uneven as these, in either direction.
 *
 * Takes    first, second: whole counts, together at most 100 000
 * Returns  1 for no votes and for equal counts; never 0: below the smallest double that double stands for it. The same
 *          for (a, b) and (b, a); a correctly rounded fraction up to 50 votes, relative error below 1e-12 beyond
 * Throws   Problem "analysis/not-a-count"
 * Example  twoSidedP(18, 6) // 0.0226558446884155
 */
export function twoSidedP(first: number, second: number): number {
  requireCount("first", first);
  requireCount("second", second);
  requireCount("judgments", first + second);
  return doubled(Math.max(first, second), first + second);
}

/**
 * Least count of the larger side of n votes whose two-sided probability is alpha or less.
 *
 * Takes    n: 0 to 100 000; alpha: above 0, at most 0.5
 * Returns  the count, more than half of n; null when even all votes on one side would not do
 * Throws   Problem "analysis/not-a-count", "analysis/risk-out-of-range"
 * Example  twoSidedCriticalNumber(24, 0.05) // 18
 */
export function twoSidedCriticalNumber(n: number, alpha: number): number | null {
  requireCount("judgments", n);
  requireAlpha(alpha);
  if (n > mostExact) return criticalNumber(n, 0.5, alpha / 2); // halving alpha is exact
  for (let larger = Math.floor(n / 2) + 1; larger <= n; larger++) if (doubled(larger, n) <= alpha) return larger;
  return null;
}

/**
 * Chance that n people reach the critical number, on either side, when a share of them prefers the first.
 *
 * Takes    n, alpha: as `twoSidedCriticalNumber`; share: 0 to 1
 * Returns  0 where no count reaches alpha; the same for a share and its complement
 * Throws   as `twoSidedCriticalNumber`, and Problem "analysis/not-a-share"
 * Example  twoSidedPower(5, 0.1, 1) // 1
 */
export function twoSidedPower(n: number, alpha: number, share: number): number {
  requireShare("share", share);
  const needed = twoSidedCriticalNumber(n, alpha);
  return needed === null ? 0 : upperTail(needed, n, share) + lowerTail(n - needed, n, share);
}

/** 2 P(X >= larger), at most 1, for a coin. */
function doubled(larger: number, n: number): number {
  const tail = n <= mostExact ? exactUpper(larger, n) : upperTail(larger, n, 0.5);
  return Math.min(1, Math.max(Number.MIN_VALUE, 2 * tail));
}

/** Ways to get `larger` or more of n, over all 2^n: whole numbers below 2^53, divided once. */
function exactUpper(larger: number, n: number): number {
  let ways = 1; // of exactly `votes`, from all downwards
  let sum = 0;
  for (let votes = n; votes >= larger; votes--) {
    sum += ways;
    ways = (ways * votes) / (n - votes + 1);
  }
  return sum / 2 ** n;
}
