import { type Block, present, productSums } from "./block-fit.ts";
import { requireCount } from "./check.ts";

/** What reshuffling came to. */
export type Reshuffled = {
  /** How often the products were shuffled, and how often F was then at least the one observed. */
  times: number;
  atLeast: number;
  /** (atLeast + 1) / (times + 1): the order observed is one of the orders, so p is never 0. */
  pValue: number;
  /** Standard error of p from the number of shuffles alone. */
  error: number;
};

/** Values that are moved between two reports of progress. */
const valuesAtOnce = 100_000;
/** Sums of squares that differ by less than this share of what they are parts of are the same but for rounding. */
const rounding = 1e-11;

/**
 * Would the products look so different if nobody's marks had anything to do with them? Within each panelist the values are
 * dealt to the products anew, each order equally likely, and F of products with panelists as blocks is compared.
 *
 * Takes    blocks: of the test, each with two values or more; products: how many; times: shuffles, 1 to 100,000;
 *          below: a whole number from 0 to n - 1, each equally likely
 * Yields   how many shuffles are done, now and then
 * Returns  null where products cannot be told apart at all, or all values of every panelist are the same
 * Exact    F rises with the sum of squares of products, since those of panelists and of all values stay: that sum is compared
 * Source   E. J. G. Pitman 1938 and R. A. Fisher 1935, the form with shuffles: M. Dwass 1957; p: A. C. Davison and
 *          D. V. Hinkley 1997 (all from memory). Checked against full enumerations by R in test/reference
 */
export function* reshuffled(
  blocks: readonly Block[],
  products: number,
  times: number,
  below: (n: number) => number,
): Generator<number, Reshuffled | null> {
  requireCount("times", times, 1);
  const squares = productSums(blocks, products);
  if (!squares) return null;
  const given = blocks.map((block) => ({
    places: block.flatMap((value, product) => (value === null ? [] : [product])),
    values: present(block),
  }));
  const dealt = given.map(({ places, values }) => ({ places, values: [...values] }));
  const values = given.reduce((sum, own) => sum + own.values.length, 0);
  const needed = squares.of(given) - rounding * squares.all;
  const atOnce = Math.max(1, Math.floor(valuesAtOnce / values));
  let atLeast = 0;
  for (let done = 0; done < times; done++) {
    if (done > 0 && done % atOnce === 0) yield done;
    for (let at = 0; at < given.length; at++) deal(given[at]?.values ?? [], dealt[at]?.values ?? [], below);
    if (squares.of(dealt) >= needed) atLeast++;
  }
  const pValue = (atLeast + 1) / (times + 1);
  return { times, atLeast, pValue, error: Math.sqrt((pValue * (1 - pValue)) / times) };
}

/** Every order of the values equally likely, each by one series of draws (R. A. Fisher and F. Yates, from memory). */
function deal(values: readonly number[], into: number[], below: (n: number) => number): void {
  into[0] = values[0] ?? 0;
  for (let at = 1; at < values.length; at++) {
    const other = below(at + 1);
    into[at] = into[other] ?? 0;
    into[other] = values[at] ?? 0;
  }
}
