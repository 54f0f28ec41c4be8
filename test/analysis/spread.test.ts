import fc from "fast-check";
import { describe, expect, test } from "vitest";
import * as z from "zod/mini";
import { betaBinomialPoint } from "../../src/analysis/beta-binomial.ts";
import { meanBelow, spreadChiSquare, spreadFit } from "../../src/analysis/spread.ts";
import { problemOf } from "../problem-of.ts";
import { reference } from "./reference.ts";

const eight = z.tuple([z.number(), z.number(), z.number(), z.number(), z.number(), z.number(), z.number(), z.number()]);
const { rows } = reference(
  "spread-by-r",
  z.object({
    rows: z
      .array(
        z.object({
          right: z.array(z.number()),
          of: z.array(z.number()),
          choices: z.number(),
          plain: eight,
          corrected: eight,
          chiSquare: z.tuple([z.number(), z.number(), z.number()]),
        }),
      )
      .check(z.minLength(4)),
  }),
);
const peopleOf = (right: readonly number[], of: readonly number[] | number) =>
  right.map((own, at) => ({ right: own, of: typeof of === "number" ? of : (of[at] ?? 0) }));
/** The kitchen's invented duo-trio: 12 people, three trays each. */
const duoTrio = peopleOf([3, 3, 3, 3, 2, 2, 2, 1, 1, 1, 1, 0], 3);

describe.each(rows)("people with $right right of $of, against R (optim, optimize, uniroot)", (row) => {
  const people = peopleOf(row.right, row.of);
  test.each([
    ["plain", 0, row.plain],
    ["chance-corrected", 1 / row.choices, row.corrected],
  ] as const)("%s: mean and overdispersion with their intervals, p of no spread", (_what, guess, expected) => {
    const [mean, low, high, gamma, gammaLow, gammaHigh, p, pBelow] = expected;
    const found = spreadFit(people, guess, 0.95);
    // R's optim works on log odds and stops short of 1, where an estimate of 0.99995 stands for it
    const near = gamma > 0.999 ? 1e-3 : 1e-5;
    const nearBound = gamma > 0.999 ? 1e-5 : 1e-6;
    expect(Math.abs((found?.mean.estimate ?? -1) - mean)).toBeLessThan(near);
    expect(Math.abs((found?.overdispersion.estimate ?? -1) - gamma)).toBeLessThan(near);
    expect(Math.abs((found?.mean.low ?? -1) - low)).toBeLessThan(nearBound);
    expect(Math.abs((found?.mean.high ?? -1) - high)).toBeLessThan(nearBound);
    expect(Math.abs((found?.overdispersion.low ?? -1) - gammaLow)).toBeLessThan(nearBound);
    expect(Math.abs((found?.overdispersion.high ?? -1) - gammaHigh)).toBeLessThan(nearBound);
    expect(Math.abs((found?.pValue ?? -1) / p - 1)).toBeLessThan(gamma > 0.999 ? 1e-3 : 1e-6);
    const below = meanBelow(people, guess, 0.6, 0.05);
    expect(below.pValue).toBeCloseTo(mean < 0.6 ? pBelow : 1 - pBelow, gamma > 0.999 ? 4 : 7);
  });
  test("Pearson's chi-square", () => {
    const found = spreadChiSquare(people);
    expect([found?.chiSquare ?? -1, found?.df ?? -1]).toEqual([expect.closeTo(row.chiSquare[0], 11), row.chiSquare[1]]);
    expect(Math.abs((found?.pValue ?? -1) / row.chiSquare[2] - 1)).toBeLessThan(1e-11);
  });
});

test("the kitchen's invented duo-trio: chi-square 16.4 on 11, p = 0.13", () => {
  const found = spreadChiSquare(duoTrio);
  expect(found?.chiSquare).toBeCloseTo(16.4, 1);
  expect(found?.df).toBe(11);
  expect(found?.pValue).toBeCloseTo(0.13, 2);
});

describe("where there is nothing to estimate", () => {
  test("one person, nobody, or one answer each: null", () => {
    expect(spreadFit(peopleOf([3], 9), 0, 0.95)).toBeNull();
    expect(spreadFit([], 0, 0.95)).toBeNull();
    expect(spreadFit(peopleOf([1, 0, 1, 1], 1), 1 / 3, 0.95)).toBeNull();
    expect(spreadChiSquare(peopleOf([1, 0, 1, 1], 1))).toBeNull();
  });
  test("all right: the mean is 1 with a lower bound that counts people, and no spread has a value", () => {
    const found = spreadFit(peopleOf([4, 4, 4, 4, 4], 4), 1 / 3, 0.95);
    expect(found?.mean).toMatchObject({ estimate: 1, high: 1 });
    // all or nothing makes it likeliest at any mean m: (m + (1 - m) / 3^4)^5 = exp(-qchisq(0.95, 1) / 2)
    expect(found?.mean.low).toBeCloseTo((Math.exp(-3.841458820694124 / 10) - 1 / 81) / (80 / 81), 8);
    expect(found?.overdispersion).toMatchObject({ estimate: null, low: null, high: null, kind: "none" });
    expect(found?.pValue).toBe(1);
    expect(spreadChiSquare(peopleOf([4, 4, 4], 4))).toBeNull();
  });
  test("all right, without guessing: the lower bound is exp(-qchisq(0.95, 1) / 2 / people) = 0.681 for 5", () => {
    const found = spreadFit(peopleOf([4, 4, 4, 4, 4], 4), 0, 0.95);
    expect(found?.mean.low).toBeCloseTo(Math.exp(-3.841458820694124 / 10), 8);
  });
  test("all wrong: the mean is 0", () => {
    expect(spreadFit(peopleOf([0, 0, 0], 4), 0, 0.95)).toMatchObject({ mean: { estimate: 0, low: 0 }, pValue: 1 });
    expect(spreadFit(peopleOf([0, 0, 0], 4), 1 / 2, 0.95)).toMatchObject({ mean: { estimate: 0, low: 0 } });
  });
  test("54 people twice, 29 of 108 right in a triangle (totals seen, single answers invented): nobody can tell, no spread", () => {
    const people = peopleOf([...Array(5).fill(2), ...Array(19).fill(1), ...Array(30).fill(0)], 2);
    expect(people.reduce((sum, { right }) => sum + right, 0)).toBe(29);
    const found = spreadFit(people, 1 / 3, 0.95);
    expect(found).toMatchObject({ mean: { estimate: 0, low: 0 }, overdispersion: { estimate: null }, pValue: 1 });
  });
  test("people more alike than chance: the spread is 0 and p is 1", () => {
    const found = spreadFit(peopleOf([2, 2, 2, 2, 2, 2], 4), 0, 0.95);
    expect(found).toMatchObject({
      mean: { estimate: expect.closeTo(0.5, 7) },
      overdispersion: { estimate: 0, low: 0 },
    });
    expect(found?.pValue).toBe(1);
  });
});

test("for any counts: estimates lie in their intervals, numbers are finite, the bound agrees with the test", () => {
  const person = fc
    .integer({ min: 1, max: 5 })
    .chain((of) => fc.record({ of: fc.constant(of), right: fc.integer({ min: 0, max: of }) }));
  const guesses = fc.constantFrom(0, 1 / 3, 1 / 2);
  fc.assert(
    fc.property(fc.array(person, { minLength: 2, maxLength: 12 }), guesses, (people, guess) => {
      const found = spreadFit(people, guess, 0.9);
      if (found) {
        for (const { estimate, low, high } of [found.mean, found.overdispersion]) {
          if (estimate === null) continue;
          expect((low ?? 2) <= estimate + 1e-6 && estimate - 1e-6 <= (high ?? -1)).toBe(true);
        }
        expect(found.pValue > 0 && found.pValue <= 1).toBe(true);
      }
      const below = meanBelow(people, guess, 0.4, 0.05);
      expect(below.pValue > 0 && below.pValue <= 1).toBe(true);
      const high = below.discriminatorShare.high ?? 2;
      expect(below.pValue <= 0.05 ? high <= 0.4 : high >= 0.4).toBe(true);
    }),
    { numRuns: 25 },
  );
});

test("likeness: 12 people three times at the limit of 0.3 pass about as seldom as they may, all ways to answer counted out", () => {
  const ways: { counts: number[]; passes: boolean }[] = [];
  const fill = (counts: number[], left: number) => {
    if (counts.length < 3) for (let n = 0; n <= left; n++) fill([...counts, n], left - n);
    else {
      const all = [...counts, left];
      const people = all.flatMap((n, right) => Array.from({ length: n }, () => ({ right, of: 3 })));
      ways.push({ counts: all, passes: meanBelow(people, 1 / 3, 0.3, 0.05).pValue <= 0.05 });
    }
  };
  fill([], 12);
  expect(ways).toHaveLength(455);
  const factorial = (n: number): number => (n < 2 ? 1 : n * factorial(n - 1));
  for (const overdispersion of [0, 0.3, 1]) {
    const chance = (right: number) => betaBinomialPoint({ right, of: 3 }, { mean: 0.3, overdispersion, guess: 1 / 3 });
    const of = (counts: number[]) =>
      counts.reduce((product, n, right) => (product * chance(right) ** n) / factorial(n), factorial(12));
    expect(ways.reduce((sum, { counts }) => sum + of(counts), 0)).toBeCloseTo(1, 10);
    const risk = ways.filter(({ passes }) => passes).reduce((sum, { counts }) => sum + of(counts), 0);
    // the test is approximate: its risk of 0.05 may be exceeded by a tenth, not more
    expect(risk).toBeLessThan(0.055);
    expect(risk).toBeGreaterThan(0.03);
  }
});

test("a confidence of 1 is refused", () => {
  expect(problemOf(() => spreadFit(duoTrio, 0, 1)).code).toBe("analysis/not-a-share");
});
