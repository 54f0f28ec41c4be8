import { describe, expect, test } from "vitest";
import { runsOf } from "../../src/design/method.ts";
import { orderPlan } from "../../src/design/order-plan.ts";
import { dealOrders } from "../../src/design/orders.ts";
import { seeded } from "../../src/design/random.ts";
import { emptyPlan } from "../../src/design/readiness.ts";
import { orderBalance } from "../../src/design/williams.ts";
import type { Plannable } from "../../src/model/method.ts";

const compared = (method: Plannable, count: number) => ({
  ...emptyPlan(),
  method,
  products: Array.from({ length: count }, (_, at) => ({ id: `product ${at}`, name: "", preparation: "" })),
});
const exactly = (count: number) => ({ least: count, most: count });

describe("whole blocks: each product in each place, and after each other one, equally often (what Williams squares are)", () => {
  test("3 products, 12 people: six orders twice, 4 times in each place, 4 times after each other one", () => {
    const plan = orderPlan(compared("line-scale", 3), 12);
    expect(plan).toMatchObject({ orders: 6, rounds: 2, left: 0 });
    for (const bounds of plan?.places.flat() ?? []) expect(bounds).toEqual(exactly(4));
    for (const bounds of plan?.follows.flat().filter((cell) => cell !== null) ?? []) expect(bounds).toEqual(exactly(4));
  });

  test("4 products, 12 people: four orders three times, 3 times in each place and after each other one", () => {
    const plan = orderPlan(compared("line-scale", 4), 12);
    expect(plan).toMatchObject({ orders: 4, rounds: 3, left: 0 });
    for (const bounds of plan?.places.flat() ?? []) expect(bounds).toEqual(exactly(3));
    for (const bounds of plan?.follows.flat().filter((cell) => cell !== null) ?? []) expect(bounds).toEqual(exactly(3));
  });

  test("a preference, 24 people: each product 12 times first", () => {
    expect(orderPlan(compared("paired-preference", 2), 24)?.places).toEqual([
      [exactly(12), exactly(12)],
      [exactly(12), exactly(12)],
    ]);
  });
});

describe("a part of a block is left to the lot", () => {
  test("3 products, 14 people: two of six orders once more, so a place has 4 to 6", () => {
    const plan = orderPlan(compared("line-scale", 3), 14);
    expect(plan).toMatchObject({ orders: 6, rounds: 2, left: 2 });
    // two orders of six have a product in a place: both may be drawn, or neither
    expect(plan?.places[0]?.[0]).toEqual({ least: 4, most: 6 });
  });

  test.each([
    [2, 7],
    [3, 11],
    [4, 13],
    [5, 27],
    [6, 17],
  ])(
    "%d products, %d people: no draw leaves the bounds, and draws reach both ends of a place's",
    (products, people) => {
      const plan = orderPlan(compared("line-scale", products), people);
      if (!plan) throw new Error("there is such a plan");
      const met = new Set<number>();
      for (let draw = 0; draw < 300; draw++) {
        const dealt = dealOrders(runsOf(compared("line-scale", products)), people, seeded(`draw ${draw}`, "test"));
        const { places, follows } = orderBalance(dealt, products);
        plan.places.forEach((row, product) => {
          row.forEach(({ least, most }, place) => {
            const count = places[product]?.[place] ?? -1;
            expect(count >= least && count <= most).toBe(true);
            if (product === 0 && place === 0) met.add(count);
          });
          plan.follows[product]?.forEach((bounds, before) => {
            const count = follows[product]?.[before] ?? -1;
            if (bounds) expect(count >= bounds.least && count <= bounds.most).toBe(true);
          });
        });
      }
      const ends = plan.places[0]?.[0];
      expect(met.has(ends?.least ?? -1) && met.has(ends?.most ?? -1)).toBe(true);
    },
  );
});

test("there is no plan of orders for a number of products that the method does not compare, or for nobody", () => {
  expect(orderPlan(compared("line-scale", 7), 12)).toBeNull();
  expect(orderPlan(compared("triangle", 3), 12)).toBeNull();
  expect(orderPlan(compared("line-scale", 3), 0)).toBeNull();
});

describe("incomplete blocks: the numbers of a balanced design (b k = t r, lambda (t - 1) = r (k - 1))", () => {
  const seven = { ...compared("line-scale", 7), perTray: 3 };

  test("7 products, 3 a tray, 14 people: two whole designs, each pair on 2 trays, each product 6 times, twice in each place", () => {
    const plan = orderPlan(seven, 14);
    expect(plan).toMatchObject({ orders: 7, rounds: 2, left: 0 });
    expect(plan?.places.flat()).toEqual(Array(21).fill(exactly(2)));
    for (const [product, row] of (plan?.meets ?? []).entries()) {
      for (const [other, meets] of row.entries()) expect(meets).toEqual(exactly(product === other ? 6 : 2));
    }
  });

  test.each([
    [8, 4, 20],
    [10, 5, 33],
    [12, 6, 24],
    [6, 3, 17],
  ])("%i products, %i a tray, %i people: what is dealt keeps to what the plan says", (products, perTray, people) => {
    const made = { ...compared("line-scale", products), perTray };
    const plan = orderPlan(made, people);
    for (let draw = 0; draw < 30; draw++) {
      const dealt = dealOrders(runsOf(made), people, seeded(`draw ${draw}`, "test"));
      const { places } = orderBalance(dealt, products);
      for (const [product, row] of (plan?.places ?? []).entries()) {
        for (const [place, { least, most }] of row.entries()) {
          expect(places[product]?.[place]).toBeGreaterThanOrEqual(least);
          expect(places[product]?.[place]).toBeLessThanOrEqual(most);
          // whole runs have each product in each place once
          expect(most - least).toBeLessThanOrEqual(1);
        }
        for (const [other, { least, most }] of (plan?.meets?.[product] ?? []).entries()) {
          const letters = "ABCDEFGHIJKL";
          const both = dealt.filter(
            (order) => order.includes(letters.charAt(product)) && order.includes(letters.charAt(other)),
          );
          expect(both.length).toBeGreaterThanOrEqual(least);
          expect(both.length).toBeLessThanOrEqual(most);
        }
      }
    }
  });

  test("no more than a sitting bears, and fewer than there are", () => {
    expect(orderPlan({ ...compared("line-scale", 3), perTray: 3 }, 12)).toBeNull();
    expect(orderPlan({ ...compared("line-scale", 13), perTray: 3 }, 12)).toBeNull();
    // other methods have trays of their own; the number stays in the plan and is not used
    expect(orderPlan({ ...compared("triangle", 2), perTray: 3 }, 12)?.meets).toBeNull();
  });
});
