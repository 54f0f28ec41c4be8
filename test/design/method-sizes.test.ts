import { describe, expect, test, vi } from "vitest";
import { kindsPower } from "../../src/analysis/kinds-power.ts";
import { choiceMethod, discriminatorShareAt } from "../../src/analysis/method.ts";
import { findableBy, saw, sizeOf } from "../../src/design/panel-size.ts";
import { differenceTest, leadAt, likenessTest, seeksLikeness, sizeTest } from "../../src/design/size-test.ts";
import duoTrioSizes from "../reference/duo-trio-panel-sizes/values.json" with { type: "json" };
import twoSidedSizes from "../reference/two-sided-panel-sizes/values.json" with { type: "json" };
import { readyPlan } from "./scenario.ts";

// much computing: a busy machine needs longer than the default of five seconds
vi.setConfig({ testTimeout: 60_000, hookTimeout: 60_000 });

type Row = [sought: number, alpha: number, beta: number, recalled: number, firstN: number, stableN: number];
const alternatives = ["triangle", "duo-trio", "tetrad", "paired-difference", "three-alternative"] as const;

describe("sizes of 125 cells each: recalled tables from memory, columns recomputed in Python (make.py beside them)", () => {
  const sizes = (rows: Row[], testOf: (sought: number, alpha: number) => ReturnType<typeof differenceTest>) =>
    rows.map(([sought, alpha, beta]) => {
      const size = sizeOf(testOf(sought, alpha), 1 - beta);
      return [sought, alpha, beta, size?.people, size?.peopleStable];
    });
  const columns = (rows: Row[]) =>
    rows.map(([sought, alpha, beta, , first, stable]) => [sought, alpha, beta, first, stable]);
  test("duo-trio and one-sided pairs (ISO 10399 Table A.3, ISO 5495 Table A.4): first and stable n; 124 recalled cells agree", () => {
    const rows = duoTrioSizes.rows as Row[];
    expect(rows).toHaveLength(125);
    expect(sizes(rows, (share, alpha) => differenceTest("duo-trio", alpha, share))).toEqual(columns(rows));
    expect(rows.filter(([, , , recalled, first]) => recalled === first)).toHaveLength(124);
  });
  test("two-sided pairs (ISO 5495 Table A.5): first and stable n; 115 recalled cells agree", () => {
    const rows = twoSidedSizes.rows as Row[];
    expect(rows).toHaveLength(125);
    const testOf = (larger: number, alpha: number) => differenceTest("paired-preference", alpha, 2 * larger - 1);
    expect(sizes(rows, testOf)).toEqual(columns(rows));
    expect(rows.filter(([, , , recalled, first]) => recalled === first)).toHaveLength(115);
  });
});

describe("80 % power at alpha 0.05 (exact binomial and usual integrals, computed outside, to the person)", () => {
  test.each([
    [1.0, [220, 241, 65, 26, 22]],
    [1.5, [57, 65, 20, 13, 9]],
    [2.0, [23, 28, 9, 8, 5]],
  ])("d-prime %d: %j people in triangle, duo-trio, tetrad, paired one-sided, three-alternative", (dPrime, people) => {
    const found = alternatives.map((method) => {
      return sizeOf(differenceTest(method, 0.05, discriminatorShareAt(method, dPrime)), 0.8)?.peopleStable;
    });
    expect(found).toEqual(people);
  });
  test.each([
    [0.3, [42, 76]],
    [0.4, [25, 42]],
    [0.5, [16, 28]],
  ])("a share of %d: %j people where a guess is right once in three, in two", (share, people) => {
    for (const method of alternatives) {
      const size = sizeOf(differenceTest(method, 0.05, share), 0.8);
      expect(size?.peopleStable).toBe(people[choiceMethod(method).choices === 3 ? 0 : 1]);
    }
  });
  test.each([
    [8, [3.1, 3.2, 2.1, 1.8], [6, 7, 6, 7]],
    [10, [2.9, 3.5, 1.9, 2.0], [7, 9, 7, 9]],
    [12, [2.7, 2.9, 1.8, 1.6], [8, 10, 8, 10]],
    [24, [2.0, 2.1, 1.4, 1.0], [13, 17, 13, 17]],
    [36, [1.8, 1.8, 1.2, 0.8], [18, 24, 18, 24]],
  ])("%d people find d-prime %j with %j right (to the printed decimal)", (people, distances, needed) => {
    for (const [at, method] of alternatives.slice(0, 4).entries()) {
      const found = findableBy(differenceTest(method, 0.05, 0), people);
      expect(found?.criticalNumber).toBe(needed[at]);
      expect(Math.abs((found?.dPrime ?? Number.NaN) - (distances[at] ?? 0))).toBeLessThanOrEqual(0.0501);
    }
  });
});

describe("two-sided, likeness, kinds, repeats", () => {
  test("a two-sided pair that seeks d-prime 1 is a lead of 0.52, and what it finds has a distance", () => {
    // the normal probability of 1 / sqrt 2 is 0.76024993890652 (mpmath)
    expect(leadAt(1)).toBeCloseTo(2 * 0.76024993890652 - 1, 13);
    const two = sizeTest(readyPlan({ method: "paired-difference", sides: "two", dPrimeSought: 1 }));
    expect(two).toMatchObject({ unit: "lead", soughtAt: leadAt(1) });
    expect(two && findableBy(two, 60)?.dPrime).toBeCloseTo(0.7, 1);
  });
  test("a limit of likeness as a d-prime is that of the share that goes with it", () => {
    const plan = readyPlan({ goal: "similarity", similarity: { limit: 0.9, dPrime: 1.5, beta: 0.05 } });
    const same = likenessTest("triangle", discriminatorShareAt("triangle", 1.5), 0.05);
    for (const people of [24, 60, 120])
      expect(sizeTest(plan)?.criticalNumber(people)).toBe(same.criticalNumber(people));
  });
  test("likeness is sought where the shape allows it, and never of a two-sided pair", () => {
    const seeks = (method: Parameters<typeof seeksLikeness>[0]["method"], sides: "one" | "two" = "one") =>
      seeksLikeness({ method, sides, goal: "similarity" });
    expect([
      ...alternatives.map((method) => seeks(method)),
      seeks("paired-difference", "two"),
      seeks("a-not-a"),
    ]).toEqual([true, true, true, true, true, false, false]);
  });
  test.each(["a-not-a", "same-different"] as const)(
    "%s: first and stable n by trying every size, with each chance counted out",
    (method) => {
      for (const [dPrime, power] of [
        [1.5, 0.8],
        [2, 0.8],
        [2, 0.95],
        [3, 0.5],
      ] as const) {
        const size = sizeOf(differenceTest(method, 0.05, dPrime), power);
        const last = size ? size.people + 60 : 0;
        const reached = Array.from(
          { length: last + 1 },
          (_, people) => kindsPower(method, people, 0.05, dPrime) >= power,
        );
        expect(size?.people).toBe(reached.indexOf(true));
        expect(size?.peopleStable).toBe(reached.lastIndexOf(false) + 1);
      }
    },
  );
  test("trays a person count for the pooled difference test, and not for likeness or pairs", () => {
    const at = (plan: Parameters<typeof readyPlan>[0]) =>
      sizeTest(readyPlan({ ...plan, repeats: 2 }))?.criticalNumber(12);
    expect(at({})).toBe(13); // 24 judgments, FAO V7180E Appendix A
    expect(at({ goal: "similarity" })).toBe(3); // 12 judgments, R 4.2.2 qbinom
    expect(at({ method: "paired-preference" })).toBe(10); // 12 votes, Triola Table A-7: 2 may differ
  });
  test("sizes keep alpha and the power: every first n has both, every n before lacks the power", () => {
    for (const method of [...alternatives, "paired-preference", "a-not-a", "same-different"] as const) {
      const kind = method === "a-not-a" || method === "same-different";
      for (const alpha of [0.05, 0.1]) {
        const held = differenceTest(method, alpha, kind ? 2 : 0.5);
        const size = sizeOf(held, 0.9);
        if (size === null) throw new Error("there is a size");
        for (const { people, chanceAtCritical, power } of saw(held, 2, size.people)) {
          expect(chanceAtCritical).toBeLessThanOrEqual(alpha);
          expect(power >= 0.9).toBe(people === size.people);
        }
      }
    }
  });
});
