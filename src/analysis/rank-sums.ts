/** Ranks that one person gave, in the order of the products; shared places are midranks. */
export type Ranks = readonly number[];

/** A way the rank sums can fall, in no order of products, and how likely it is if nobody's ranks hang on the products. */
export type SumsChance = { sums: readonly number[]; chance: number };

/** Steps after which counting out takes too long for a page: about half a second. */
const usualBudget = 3e6;

/**
 * Exact distribution of the rank sums if every order of a person's ranks is as likely as any other.
 *
 * Takes    people: everybody's ranks of the same products, 2 to 8 of them; ties stay as they are; budget: steps to spend
 * Returns  every way that the sums can fall, sorted within; null where counting out would take more than the budget.
 *          Exact but for the rounding of sums of positive terms, relative 1e-13
 * Source   a person's orders are permuted apart from those of the others: M. Friedman 1937 (from memory). That sums may
 *          be kept sorted follows from the products being alike under this hypothesis
 */
export function rankSumsExact(people: readonly Ranks[], budget = usualBudget): SumsChance[] | null {
  const products = people[0]?.length ?? 0;
  // twice the midranks are whole; two places fewer of a key than products would lose which sums they are
  const base = 2 * products * people.length + 1;
  if (products < 2 || products > 8 || base ** (products - 1) > Number.MAX_SAFE_INTEGER) return null;
  let ways = new Map<number, SumsChance>([[0, { sums: new Array<number>(products).fill(0), chance: 1 }]]);
  let steps = 0;
  const orders = new Map<string, number[][]>();
  for (const ranks of people) {
    const doubled = ranks.map((rank) => 2 * rank).sort((a, b) => a - b);
    const name = doubled.join(" ");
    const known = orders.get(name) ?? distinctOrders(doubled);
    orders.set(name, known);
    steps += ways.size * known.length;
    if (steps > budget) return null;
    ways = withPerson(ways, known, base);
  }
  return [...ways.values()].map(({ sums, chance }) => ({ sums: sums.map((sum) => sum / 2), chance }));
}

function withPerson(
  ways: ReadonlyMap<number, SumsChance>,
  orders: readonly number[][],
  base: number,
): Map<number, SumsChance> {
  const next = new Map<number, { sums: readonly number[]; chance: number }>();
  // one list for all: this loop runs a million times
  const sorted: number[] = [];
  for (const { sums, chance } of ways.values()) {
    const share = chance / orders.length;
    for (const order of orders) {
      for (let at = 0; at < order.length; at++) insert(sorted, at, (sums[at] ?? 0) + (order[at] ?? 0));
      let key = 0;
      for (let at = 1; at < sorted.length; at++) key = key * base + (sorted[at] ?? 0);
      const found = next.get(key);
      if (found) found.chance += share;
      else next.set(key, { sums: [...sorted], chance: share });
    }
  }
  return next;
}

/** Puts a value in its place among the first `count` of a sorted list. */
function insert(sorted: number[], count: number, value: number): void {
  let at = count;
  for (; at > 0 && (sorted[at - 1] ?? 0) > value; at--) sorted[at] = sorted[at - 1] ?? 0;
  sorted[at] = value;
}

/** Every different order of sorted values, each as likely as the others. */
export function distinctOrders(values: readonly number[]): number[][] {
  if (values.length === 0) return [[]];
  return values.flatMap((first, at) =>
    values[at - 1] === first ? [] : distinctOrders(values.toSpliced(at, 1)).map((rest) => [first, ...rest]),
  );
}

/**
 * Midranks of values: equal ones share the mean of their places.
 * Example  midranks([7, 3, 3]) // [3, 1.5, 1.5]
 */
export const midranks = (values: readonly number[]): number[] =>
  values.map((value) => {
    const below = values.filter((other) => other < value).length;
    const same = values.filter((other) => other === value).length;
    return below + (same + 1) / 2;
  });

/** Everybody's ranks added up, product by product. */
export const sumsOf = (people: readonly Ranks[]): number[] =>
  (people[0] ?? []).map((_, product) => people.reduce((sum, ranks) => sum + (ranks[product] ?? 0), 0));

/** Squared distances of one person's ranks from their mean, added up. */
export function squaresOf(ranks: Ranks): number {
  const middle = (ranks.length + 1) / 2;
  return ranks.reduce((sum, rank) => sum + (rank - middle) ** 2, 0);
}
