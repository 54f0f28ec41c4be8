import { describe, expect, test } from "vitest";
import * as z from "zod/mini";
import { incompleteBlocks } from "../../src/design/incomplete-blocks.ts";
import { reference } from "../analysis/reference.ts";

// Balance is counted here anew, by another rule than the one that built the designs.

const sizes = Array.from({ length: 10 }, (_, at) => at + 3).flatMap((products) =>
  [2, 3, 4, 5, 6].filter((perTray) => perTray < products).map((perTray) => ({ products, perTray })),
);
const count = <T>(items: readonly T[]): Map<string, number> => {
  const counts = new Map<string, number>();
  for (const item of items) counts.set(String(item), (counts.get(String(item)) ?? 0) + 1);
  return counts;
};
const pairsOf = (order: string): string[] =>
  [...order].flatMap((one) => [...order].filter((other) => one < other).map((other) => one + other));

describe.each(sizes)("$perTray of $products products", ({ products, perTray }) => {
  const { orders, meetings } = incompleteBlocks(products, perTray);
  const pairs = (products * (products - 1)) / 2;

  test("each pair of products meets on equally many trays, and no tray has a product twice", () => {
    const met = count(orders.flatMap(pairsOf));
    expect(met.size).toBe(pairs);
    expect(new Set(met.values())).toEqual(new Set([meetings]));
    for (const order of orders) expect(new Set(order).size).toBe(perTray);
  });

  test("in each run of as many trays as products, each product stands in each place once", () => {
    expect(orders.length % products).toBe(0);
    for (let run = 0; run < orders.length; run += products) {
      const places = count(orders.slice(run, run + products).flatMap((order) => [...order].map((x, at) => x + at)));
      expect(places.size).toBe(products * perTray);
    }
  });

  test("the numbers that every balanced design has: b k = t r and lambda (t - 1) = r (k - 1)", () => {
    const served = count(orders.flatMap((order) => [...order]));
    const [r] = [...served.values()];
    expect(new Set(served.values())).toEqual(new Set([r]));
    expect(orders.length * perTray).toBe(products * (r ?? 0));
    expect(meetings * (products - 1)).toBe((r ?? 0) * (perTray - 1));
  });

  test("over the whole design no product follows another much more often than a third one", () => {
    const follows = count(orders.flatMap((order) => [...order].slice(1).map((x, at) => order[at] + x)));
    const all = Array.from({ length: products * (products - 1) - follows.size }, () => 0).concat([...follows.values()]);
    // evenly spread it would be this many; by how much a design can keep to it depends on its size
    const even = (orders.length * (perTray - 1)) / (products * (products - 1));
    expect(Math.max(...all)).toBeLessThanOrEqual(Math.ceil(even) + 1);
    expect(Math.min(...all)).toBeGreaterThanOrEqual(Math.floor(even) - 1);
  });
});

// Parameters: Cochran and Cox 1957, index of plans of chapter 11, from memory; each row satisfies the two identities.
const { rows } = reference(
  "incomplete-block-parameters",
  z.object({ rows: z.array(z.tuple([z.number(), z.number(), z.number(), z.number(), z.number()])) }),
);

test.each(rows.filter(([t, k]) => t <= 12 && k <= 6))(
  "%i products, %i a tray: the published design fits into ours a whole number of times",
  (t, k, r, b, lambda) => {
    const { orders, meetings } = incompleteBlocks(t, k);
    expect(b * k).toBe(t * r);
    // ours repeats pairs as often as theirs, times as many trays as it has more; position asks for whole runs
    expect(meetings * b).toBe(lambda * orders.length);
    // and where theirs is made of whole runs it is not longer
    if (b % t === 0) expect(orders.length).toBeLessThanOrEqual(2 * b);
  },
);

test.each([
  [2, 2],
  [7, 7],
  [13, 4],
  [7, 1],
  [9, 7],
  [7.5, 3],
])("%d products and %d a tray are refused", (products, perTray) => {
  expect(() => incompleteBlocks(products, perTray)).toThrow(RangeError);
});
