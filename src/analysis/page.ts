import { aboveZero } from "./check.ts";
import { normalUpper } from "./normal.ts";
import { distinctOrders, type Ranks, squaresOf, sumsOf } from "./rank-sums.ts";

export type Page = {
  /** Page's L: each rank sum times the product's place in the order that was expected, added up. */
  value: number;
  /** What L is on average if nothing differs, and the most it can be: everybody in the order expected. */
  expected: number;
  most: number;
  /** One-sided, in the direction expected. At most 1, never 0. */
  pValue: number;
  /** Counted out; false: by the normal approximation, without a correction for whole numbers. */
  exact: boolean;
};

/** Steps after which counting out gives way to the normal curve: about a tenth of a second. */
const usualBudget = 2e7;
/** Orders of more products than this are too many to go through. */
const mostProducts = 8;

/**
 * Do the ranks rise in the order that was expected?
 *
 * Takes    people: everybody's ranks, products in the order expected, least first; midranks where places are shared;
 *          budget: steps to spend on counting out
 * Returns  null where there is nothing to test: nobody, one product, or everybody gave all products one place
 * Exact    sums of positive chances, relative 1e-13
 * Source   E. B. Page 1963 (from memory); values in test/reference
 * Example  page([[1, 2, 3], [1, 2, 3]], 0)?.value // 28
 */
export function page(people: readonly Ranks[], budget = usualBudget): Page | null {
  const sums = sumsOf(people);
  const products = sums.length;
  if (products < 2 || people.every((ranks) => squaresOf(ranks) === 0)) return null;
  const value = sums.reduce((sum, own, at) => sum + (at + 1) * own, 0);
  const expected = (people.length * products * (products + 1) ** 2) / 4;
  const most = people.reduce((sum, ranks) => sum + lOf([...ranks].sort((a, b) => a - b)), 0);
  const counted = products > mostProducts ? null : countedTail(people, value, budget);
  return {
    value,
    expected,
    most,
    pValue: Math.min(1, aboveZero(counted ?? normalTail(people, value - expected))),
    exact: counted !== null,
  };
}

/** One person's part of L. */
const lOf = (ranks: Ranks): number => ranks.reduce((sum, rank, at) => sum + (at + 1) * rank, 0);

function normalTail(people: readonly Ranks[], above: number): number {
  const products = people[0]?.length ?? 0;
  const places = Array.from({ length: products }, (_, at) => at + 1);
  const spread = people.reduce((sum, ranks) => sum + squaresOf(ranks), 0);
  return normalUpper(above / Math.sqrt((squaresOf(places) * spread) / (products - 1)));
}

/** Chances of one person's L, twice its value from the least on, by index. */
type Chances = { least: number; chances: Float64Array };

function countedTail(people: readonly Ranks[], value: number, budget: number): number | null {
  const known = new Map<string, Chances>();
  let all: Chances = { least: 0, chances: Float64Array.of(1) };
  let steps = 0;
  for (const ranks of people) {
    const sorted = ranks.toSorted((a, b) => a - b);
    const name = sorted.join(" ");
    const own = known.get(name) ?? chancesOf(sorted);
    known.set(name, own);
    steps += all.chances.length * own.chances.length;
    if (steps > budget) return null;
    all = joined(all, own);
  }
  const from = Math.max(0, Math.round(2 * value) - all.least);
  let tail = 0;
  // the smallest first, so that they are not lost beside the larger ones
  for (let at = all.chances.length - 1; at >= from; at--) tail += all.chances[at] ?? 0;
  return tail;
}

function chancesOf(sorted: Ranks): Chances {
  const orders = distinctOrders(sorted).map((order) => Math.round(2 * lOf(order)));
  const least = Math.min(...orders);
  const chances = new Float64Array(Math.max(...orders) - least + 1);
  for (const doubled of orders) chances[doubled - least] = (chances[doubled - least] ?? 0) + 1 / orders.length;
  return { least, chances };
}

function joined(one: Chances, other: Chances): Chances {
  const chances = new Float64Array(one.chances.length + other.chances.length - 1);
  one.chances.forEach((first, at) => {
    if (first === 0) return;
    other.chances.forEach((second, by) => {
      chances[at + by] = (chances[at + by] ?? 0) + first * second;
    });
  });
  return { least: one.least + other.least, chances };
}
