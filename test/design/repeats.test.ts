import { describe, expect, test } from "vitest";
import { ordersOf } from "../../src/design/method.ts";
import { orderCounts } from "../../src/design/orders.ts";
import { seeded } from "../../src/design/random.ts";
import { openParts } from "../../src/design/readiness.ts";
import { makeTrays } from "../../src/design/trays.ts";
import type { Plan } from "../../src/model/plan.ts";
import { choicePlans, juicier, readyPlan, repeated } from "./scenario.ts";

const study = "aaaaaaaa-bbbb-4ccc-8ddd-eeeeeeeeeeee";
const made = (plan: Plan, seed = "5eed") => makeTrays(plan, study, { seed, codes: seeded("codes", "test") });
const everyPlan = choicePlans();

test.each(everyPlan)("a whole plan is ready: %s", (_name, plan) => {
  expect(openParts(plan)).toEqual([]);
});

/**
 * Orders as the standards and the trade have them: ISO 4120 (triangle) and AS 2542.2.4 = ISO 10399 (duo-trio), excerpts
 * seen; the others are common practice, no source.
 */
test.each([
  ["triangle", {}, "AAB ABA BAA BBA BAB ABB"],
  ["duo-trio", {}, "A:AB A:BA B:AB B:BA"],
  ["duo-trio", { reference: { kind: "constant", product: readyPlan().products[1]?.id ?? null } }, "B:AB B:BA"],
  ["paired-difference", {}, "AB BA"],
  ["paired-preference", {}, "AB BA"],
  ["three-alternative", { properties: [juicier] }, "BAA ABA AAB"],
  ["tetrad", {}, "AABB ABAB ABBA BAAB BABA BBAA"],
  ["same-different", {}, "AA BB AB BA"],
  ["a-not-a", { reference: { kind: "balanced", product: readyPlan().products[1]?.id ?? null } }, "B:A B:B"],
] as const)("orders of %s %j: %s", (method, changes, orders) => {
  const plan = readyPlan({ method, ...(changes as Partial<Plan>) });
  expect(ordersOf(plan).toSorted()).toEqual(orders.split(" ").toSorted());
});

describe.each(everyPlan)("trays of %s", (_name, plan) => {
  const { key, blind } = made(plan);
  test("each order equally often on the 24 planned trays", () => {
    const counts = orderCounts(key, plan, new Set(blind.filter(({ spare }) => !spare).map(({ tray }) => tray)));
    expect(new Set(counts.map(({ trays }) => trays))).toEqual(new Set([24 / counts.length]));
  });
  test("the key holds what the label says, and one batch of a product a tray, the reference cup too", () => {
    const letter = (product: string) => "AB"[plan.products.findIndex(({ id }) => id === product)] ?? "?";
    for (const { order, samples, reference } of key.trays) {
      const coded = samples.map(({ product }) => letter(product)).join("");
      expect(reference ? `${letter(reference.product)}:${coded}` : coded).toBe(order);
      const cups = [...samples, ...(reference ? [reference] : [])];
      const batches = new Set(cups.map(({ product, batch }) => `${product} ${batch}`));
      expect(batches.size).toBe(new Set(cups.map(({ product }) => product)).size);
    }
  });
  test("a seed gives the same key again, another seed another one", () => {
    expect(made(plan).key).toEqual(key);
    expect(made(plan, "07e4").key.trays).not.toEqual(key.trays);
  });
});

describe.each(["one-sitting", "sessions"] as const)("two trays a person, %s", (where) => {
  test.each(everyPlan)("%s: two orders and no code twice for anybody; balanced in all", (_name, from) => {
    const plan = repeated(from, where);
    expect(openParts(plan)).toEqual([]);
    const { key, blind, seats } = made(plan);
    expect(seats).toHaveLength(12);
    const planned = seats.flatMap(({ trays }) => trays);
    expect(planned.toSorted((a, b) => a - b)).toEqual(Array.from({ length: 24 }, (_, at) => at + 1));
    for (const { trays } of seats) {
      expect(new Set(trays.map((tray) => key.trays[tray - 1]?.order)).size).toBe(2);
      const codes = trays.flatMap((tray) => blind[tray - 1]?.codes ?? []);
      expect(new Set(codes).size).toBe(codes.length);
      const waves = trays.map((tray) => blind[tray - 1]?.wave);
      expect(new Set(waves).size).toBe(where === "sessions" ? 2 : 1);
    }
    const counts = orderCounts(key, plan, new Set(planned));
    expect(new Set(counts.map(({ trays }) => trays))).toEqual(new Set([24 / counts.length]));
  });
});

/** What is compared within a person needs both kinds from each of them. */
test.each(["same-different", "a-not-a"] as const)(
  "%s, two trays each: everybody has one of each kind, whatever the seed",
  (method) => {
    const [, from] = everyPlan.find(([, plan]) => plan.method === method) ?? [];
    if (!from) throw new Error("no such plan");
    const plan = repeated(from, "one-sitting");
    for (let seed = 0; seed < 40; seed++) {
      const { key, seats } = made(plan, seed.toString(16).padStart(4, "0"));
      const orderOf = new Map(key.trays.map(({ tray, order }) => [tray, order]));
      const unlike = (tray: number) => {
        const order = (orderOf.get(tray) ?? "").replace(":", "");
        return order[0] !== order[1];
      };
      for (const { trays } of seats) expect(trays.filter(unlike)).toHaveLength(1);
    }
  },
);
