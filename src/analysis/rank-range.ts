import { requireRisk } from "./check.ts";
import { tailOf } from "./friedman.ts";
import { type Ranks, type SumsChance, squaresOf } from "./rank-sums.ts";
import { studentizedRangeUpper } from "./studentized-range.ts";

/** The test of every pair of rank sums at once: how far the largest lies from the smallest if nothing differs. */
export type RangeTest = {
  exact: boolean;
  /** Chance that some two sums lie at least so far apart: the p of a pair, adjusted for all pairs. At most 1, never 0. */
  pValue: (difference: number) => number;
};

const rangeOf = (sums: readonly number[]): number => Math.max(...sums) - Math.min(...sums);

/**
 * Simultaneous comparison of all pairs of products by their rank sums.
 *
 * Takes    people: everybody's ranks, two products or more, not all of them shared; exact: `rankSumsExact` of the same
 *          people, null where that was too much
 * Returns  exact by counting out, else by the range of independent normals with the spread of these ranks, ties included
 * Source   the comparison of all treatments in S. Newell and J. D. MacFarlane 1987 (table seen); P. Nemenyi 1963 (from memory)
 */
export function rangeTest(people: readonly Ranks[], exact: readonly SumsChance[] | null): RangeTest {
  if (exact) return { exact: true, pValue: (difference) => tailOf(exact, rangeOf, Math.abs(difference)) };
  const products = people[0]?.length ?? 0;
  const scale = Math.sqrt(people.reduce((sum, ranks) => sum + squaresOf(ranks), 0) / (products - 1));
  return {
    exact: false,
    pValue: (difference) =>
      Math.max(Number.MIN_VALUE, studentizedRangeUpper(Math.abs(difference) / scale, products, Infinity)),
  };
}

/**
 * The least difference of two rank sums that reaches alpha.
 *
 * Takes    step: what such differences are multiples of, 1, or one half with shared places; most: the largest there can be
 * Returns  null where none does
 */
export function criticalDifference(test: RangeTest, alpha: number, step: number, most: number): number | null {
  requireRisk("alpha", alpha);
  // the first multiple of the step that reaches it: chances fall as differences rise
  let [low, high] = [0, Math.round(most / step)];
  if (!(test.pValue(high * step) <= alpha)) return null;
  while (high - low > 1) {
    const middle = Math.floor((low + high) / 2);
    if (test.pValue(middle * step) <= alpha) high = middle;
    else low = middle;
  }
  return high * step;
}
