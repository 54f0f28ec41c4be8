import { aboveZero } from "./check.ts";
import { chiSquareUpper } from "./chi-square.ts";
import { type Ranks, type SumsChance, squaresOf, sumsOf } from "./rank-sums.ts";

export type Friedman = {
  /** Friedman's chi-square, corrected for ties, and its degrees of freedom. */
  chiSquare: number;
  df: number;
  /** At most 1, never 0. */
  pValue: number;
  /** Counted out over all orders of everybody's ranks; false: by the chi-square approximation. */
  exact: boolean;
  /** Kendall's coefficient of concordance: 0, no agreement between people, to 1, everybody has one and the same order. */
  concordance: number;
};

/**
 * Do products differ in rank?
 *
 * Takes    people: everybody's ranks of the same products, midranks where places are shared; exact: `rankSumsExact` of
 *          the same people, null where that was too much
 * Returns  null where there is nothing to test: nobody, one product, or everybody gave all products one place
 * Exact    with `exact`, the sum of the chances of all ways that lie at least as far apart
 * Source   M. Friedman 1937; ties as in W. J. Conover 1999 (both from memory); values in test/reference
 */
export function friedman(people: readonly Ranks[], exact: readonly SumsChance[] | null): Friedman | null {
  const sums = sumsOf(people);
  const [products, spread] = [sums.length, people.reduce((sum, ranks) => sum + squaresOf(ranks), 0)];
  if (products < 2 || spread === 0) return null;
  const apart = apartOf(sums);
  const chiSquare = ((products - 1) * apart) / spread;
  const df = products - 1;
  return {
    chiSquare,
    df,
    pValue: exact ? tailOf(exact, apartOf, apart) : aboveZero(chiSquareUpper(chiSquare, df)),
    exact: exact !== null,
    // no more than 1 but for rounding
    concordance: Math.min(1, chiSquare / (people.length * df)),
  };
}

/** Squared distances of the sums from their mean: whole numbers and quarters, so that equal ways compare as equal. */
function apartOf(sums: readonly number[]): number {
  const total = sums.reduce((sum, value) => sum + value, 0);
  const squares = sums.reduce((sum, value) => sum + value * value, 0);
  return (sums.length * squares - total * total) / sums.length;
}

/** Chance of a way whose measure is at least so large, the smallest chances first; never 0. */
export function tailOf(
  ways: readonly SumsChance[],
  measure: (sums: readonly number[]) => number,
  atLeast: number,
): number {
  const slack = 1e-9 * Math.max(1, Math.abs(atLeast));
  const chances = ways.filter(({ sums }) => measure(sums) >= atLeast - slack).map(({ chance }) => chance);
  const sum = chances.sort((a, b) => a - b).reduce((total, chance) => total + chance, 0);
  return Math.min(1, aboveZero(sum));
}
