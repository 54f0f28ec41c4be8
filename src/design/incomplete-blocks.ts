import { letterOf } from "./williams.ts";

/**
 * Balanced incomplete blocks (ISO 29842 lists designs of this kind; its text was not seen): each person tastes some of
 * the products, and each pair of products meets on equally many trays. They are built from difference families (R. C.
 * Bose 1939, from memory): a few first trays, each moved on by one product again and again. Such a run of trays has each
 * product in each place exactly once, so that position is balanced long before all pairs are.
 */

/** The most products that can be dealt in incomplete blocks: as many as there are letters for. */
export const mostProducts = 12;

/** Larger searches than this are given up: there is a family for every size a plan can have well before it. */
const mostTries = 200_000;

export type IncompleteBlocks = {
  /** Order labels in the trade's letters, run after run; each run has as many trays as there are products. */
  orders: string[];
  /** On how many of these trays a pair of products meets. */
  meetings: number;
};

/**
 * The orders of a balanced design of incomplete blocks.
 *
 * Takes    products: 3 to 12; perTray: 2 to 6, fewer than products
 * Returns  the shortest design of whole runs that was found; the first runs are as even in pairs and in carry-over as any
 * Throws   RangeError outside of these numbers
 * Example  incompleteBlocks(7, 3).orders.length // 7, each pair meets once
 */
export function incompleteBlocks(products: number, perTray: number): IncompleteBlocks {
  const whole = Number.isInteger(products) && Number.isInteger(perTray);
  if (!whole || products < 3 || products > mostProducts || perTray < 2 || perTray > 6 || perTray >= products) {
    throw new RangeError(`no incomplete blocks of ${perTray} of ${products} products`);
  }
  const name = `${products} ${perTray}`;
  const found = known.get(name) ?? search(products, perTray);
  known.set(name, found);
  return found;
}

/** What was found once: a plan page asks again with every letter that is typed. */
const known = new Map<string, IncompleteBlocks>();

function search(products: number, perTray: number): IncompleteBlocks {
  const pairs = perTray * (perTray - 1);
  const least = (products - 1) / greatestDivisor(pairs, products - 1);
  const trays = firstTrays(products, perTray);
  for (let runs = least; ; runs += least) {
    const meetings = (runs * pairs) / (products - 1);
    const family = familyOf(trays, { runs, meetings, products });
    if (family) return { orders: inOrders(family, products), meetings };
  }
}

/** A first tray as products from 0, and how often each difference comes between two of them. */
type FirstTray = { products: number[]; differences: number[] };

/** One tray of each cycle: those that come from each other by moving on are one. */
function firstTrays(products: number, perTray: number): FirstTray[] {
  const byCycle = new Map<string, FirstTray>();
  for (const tray of subsets(products, perTray)) {
    const cycle = tray.map((from) => String(tray.map((product) => moved(product, -from, products)).sort(byNumber)));
    const name = cycle.sort()[0] ?? "";
    if (!byCycle.has(name)) byCycle.set(name, { products: tray, differences: differencesOf(tray, products) });
  }
  return [...byCycle.values()];
}

/** All choices of so many products with product 0 among them. */
function subsets(products: number, perTray: number): number[][] {
  let grown: number[][] = [[0]];
  while ((grown[0]?.length ?? perTray) < perTray) {
    grown = grown.flatMap((tray) =>
      Array.from({ length: products }, (_, product) => product)
        .filter((product) => product > (tray.at(-1) ?? 0))
        .map((product) => [...tray, product]),
    );
  }
  return grown;
}

function differencesOf(tray: readonly number[], products: number): number[] {
  const counts = Array<number>(products).fill(0);
  for (const one of tray) {
    for (const other of tray) if (one !== other) raise(counts, moved(one, -other, products));
  }
  return counts;
}

/**
 * So many first trays that every difference comes `meetings` times in all: depth first, the most even addition first, so
 * that what stands in front is as even as it can be.
 */
function familyOf(
  trays: readonly FirstTray[],
  { runs, meetings, products }: { runs: number; meetings: number; products: number },
): number[][] | null {
  let tries = 0;
  const further = (counts: readonly number[], family: number[][]): number[][] | null => {
    tries += 1;
    if (family.length === runs) return family;
    if (tries > mostTries) return null;
    const fitting = trays.flatMap((tray) => {
      const sums = counts.map((count, step) => count + (tray.differences[step] ?? 0));
      return sums.some((sum) => sum > meetings) ? [] : [{ tray, sums, unevenness: squares(sums) }];
    });
    fitting.sort((one, other) => one.unevenness - other.unevenness);
    for (const { tray, sums } of fitting) {
      const found = further(sums, [...family, tray.products]);
      if (found) return found;
    }
    return null;
  };
  return further(Array<number>(products).fill(0), []);
}

/** Each first tray in the order that spreads what follows what most evenly, then moved on through all products. */
function inOrders(family: readonly number[][], products: number): string[] {
  const follows = Array<number>(products).fill(0);
  return family.flatMap((tray) => {
    const sequence = mostEven(tray, follows, products);
    sequence.slice(1).forEach((product, at) => {
      raise(follows, moved(product, -(sequence[at] ?? 0), products));
    });
    return Array.from({ length: products }, (_, by) =>
      sequence.map((product) => letterOf(moved(product, by, products))).join(""),
    );
  });
}

function mostEven(tray: readonly number[], follows: readonly number[], products: number): number[] {
  let best: { sequence: number[]; unevenness: number } | null = null;
  for (const sequence of sequencesOf(tray)) {
    const sums = [...follows];
    sequence.slice(1).forEach((product, at) => {
      raise(sums, moved(product, -(sequence[at] ?? 0), products));
    });
    const unevenness = squares(sums);
    if (!best || unevenness < best.unevenness) best = { sequence, unevenness };
  }
  return best?.sequence ?? [...tray];
}

const sequencesOf = (items: readonly number[]): number[][] =>
  items.length === 0
    ? [[]]
    : items.flatMap((first) => sequencesOf(items.filter((item) => item !== first)).map((rest) => [first, ...rest]));

const moved = (product: number, by: number, products: number): number => (product + by + products) % products;
const byNumber = (one: number, other: number): number => one - other;
const squares = (counts: readonly number[]): number => counts.reduce((sum, count) => sum + count * count, 0);
const greatestDivisor = (one: number, other: number): number =>
  other === 0 ? one : greatestDivisor(other, one % other);

function raise(counts: number[], at: number): void {
  counts[at] = (counts[at] ?? 0) + 1;
}
