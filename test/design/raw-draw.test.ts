import { describe, expect, test } from "vitest";
import { seeded } from "../../src/design/random.ts";
import { drawRaw, piecesOf } from "../../src/design/raw-draw.ts";
import { openParts } from "../../src/design/readiness.ts";
import { makeTrays } from "../../src/design/trays.ts";
import type { Plan } from "../../src/model/plan.ts";
import type { DrawnRaw } from "../../src/model/raw.ts";
import { linePlan, readyPlan } from "./scenario.ts";

const whole: DrawnRaw = { drawn: "drawn", unit: "pieces", divided: false, perBatch: 2 };
const divided: DrawnRaw = { ...whole, divided: true };
const study = "b2c7f2ce-9b5f-4a39-8c0d-3d3a6a1d7e10";

/** Two products with two batches each in the first wave, one each in the second. */
const plan = (raw: Plan["raw"]): Plan => readyPlan({ raw });
const cooksOf = (of: Plan, seed: string) => drawRaw(of, seed)?.cooks ?? [];

describe("which raw pieces get which process", () => {
  test("nothing is drawn where the plan does not say so", () => {
    expect(drawRaw(plan({ drawn: "unknown" }), "5eed")).toBeNull();
    expect(drawRaw(plan({ drawn: "not-drawn" }), "5eed")).toBeNull();
  });

  test("whole pieces: every number once, so many in each batch, earlier numbers in the earlier wave", () => {
    for (let draw = 0; draw < 50; draw++) {
      const cooks = cooksOf(plan(whole), `draw ${draw}`);
      expect(cooks.map(({ pieces }) => pieces.length)).toEqual(Array(6).fill(2));
      const numbers = cooks.flatMap(({ pieces }) => pieces.map(({ piece }) => piece));
      expect(numbers.toSorted((a, b) => a - b)).toEqual([1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12]);
      for (const { wave, pieces } of cooks)
        for (const { piece, part } of pieces) expect([piece > 8, part]).toEqual([wave === 2, ""]);
    }
    expect(piecesOf(plan(whole), whole)).toBe(12);
  });

  test("divided pieces: each gives one part to each product, in one round of cooking, and the parts are all different", () => {
    for (let draw = 0; draw < 50; draw++) {
      const cooks = cooksOf(plan(divided), `draw ${draw}`);
      for (let piece = 1; piece <= 6; piece++) {
        const got = cooks.flatMap((cook) =>
          cook.pieces.filter((each) => each.piece === piece).map(({ part }) => ({ part, product: cook.product, cook })),
        );
        expect(new Set(got.map(({ product }) => product)).size).toBe(2);
        expect(got.map(({ part }) => part).toSorted()).toEqual(["a", "b"]);
        const [first, second] = got.map(({ cook }) => cooks.indexOf(cook)).toSorted((a, b) => a - b);
        expect((second ?? 0) - (first ?? 0)).toBe(1);
      }
    }
    expect(piecesOf(plan(divided), divided)).toBe(6);
  });

  test("cooking goes in rounds: after every two batches both processes were cooked equally often", () => {
    for (let draw = 0; draw < 50; draw++) {
      const products = cooksOf(plan(whole), `draw ${draw}`).map(({ product }) => product);
      for (let round = 0; round < 6; round += 2) expect(products[round]).not.toBe(products[round + 1]);
    }
  });

  test("every piece gets either process, every part either, and either is cooked first, half the time within five deviations", () => {
    const draws = 1000;
    // binomial: 1,000 draws at one half have a deviation of the square root of 250, 15.8
    const half = (count: number) => expect(Math.abs(count - draws / 2)).toBeLessThan(5 * Math.sqrt(draws / 4));
    const [first] = readyPlan().products;
    const got = Array<number>(13).fill(0);
    let leads = 0;
    let partA = 0;
    for (let draw = 0; draw < draws; draw++) {
      const cooks = cooksOf(plan(whole), `draw ${draw}`);
      if (cooks[0]?.product === first?.id) leads++;
      for (const { product, pieces } of cooks)
        if (product === first?.id) for (const { piece } of pieces) got[piece] = (got[piece] ?? 0) + 1;
      const halves = cooksOf(plan(divided), `draw ${draw}`);
      if (
        halves.some(
          (cook) => cook.product === first?.id && cook.pieces.some((each) => each.piece === 1 && each.part === "a"),
        )
      )
        partA++;
    }
    for (const count of got.slice(1)) half(count);
    half(leads);
    half(partA);
  });

  test("a batch that is served in two waves is cooked once, for the first", () => {
    const kept = plan(whole);
    const waves = kept.waves.map((wave) => ({ ...wave, batches: kept.waves[0]?.batches ?? {} }));
    const cooks = cooksOf({ ...kept, waves }, "5eed");
    expect(cooks.map(({ wave }) => wave)).toEqual([1, 1, 1, 1]);
  });

  test("pieces are not divided where the products have unequal batches: the plan says so", () => {
    const uneven = linePlan({ raw: divided });
    expect(openParts(uneven)).toEqual([{ part: "serving", what: "raw-uneven" }]);
    expect(openParts({ ...uneven, raw: whole })).toEqual([]);
  });

  test("trays and codes are the same, drawn or not", () => {
    const made = (raw: Plan["raw"]) => makeTrays(plan(raw), study, { seed: "5eed", codes: seeded("codes", "test") });
    expect(made(divided)).toEqual(made({ drawn: "unknown" }));
  });
});
