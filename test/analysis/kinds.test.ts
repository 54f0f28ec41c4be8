import fc from "fast-check";
import { describe, expect, test } from "vitest";
import * as z from "zod/mini";
import { kindsStatistics } from "../../src/analysis/kinds.ts";
import { unbiasedShares } from "../../src/analysis/kinds-model.ts";
import { kindsPower, twoGroupsPower } from "../../src/analysis/kinds-power.ts";
import { kindsStatistics as schema } from "../../src/model/result-kinds.ts";
import { problemOf } from "../problem-of.ts";
import { reference, relativeError } from "./reference.ts";

type Method = "same-different" | "a-not-a";
type Four = readonly [number, number, number, number];
const kinds = (method: Method, [unlikeTold, unlike, likeTold, like]: Four, alpha = 0.05) =>
  kindsStatistics({
    method,
    alpha,
    unlike: { told: unlikeTold, of: unlike },
    like: { told: likeTold, of: like },
  });

const method = z.enum(["same-different", "a-not-a"]);
const four = z.tuple([z.number(), z.number(), z.number(), z.number()]);
const cell = z.nullable(z.number());
const byR = reference(
  "kinds-by-r",
  z.object({
    rows: z
      .array(
        z.object({
          method,
          counts: four,
          alpha: z.number(),
          p: z.number(),
          odds: z.tuple([cell, z.number()]),
          distance: z.tuple([cell, cell, cell, cell, cell, cell]),
        }),
      )
      .check(z.minLength(22)),
    powers: z
      .array(z.object({ method, people: z.number(), alpha: z.number(), dPrime: z.number(), power: z.number() }))
      .check(z.minLength(8)),
  }),
);
const within = reference(
  "within-people-by-r",
  z.object({
    rows: z
      .array(z.object({ people: z.array(four), p: z.number(), odds: z.tuple([z.number(), z.number()]) }))
      .check(z.minLength(4)),
  }),
);
const close = (got: number | null, truth: number, error: number) =>
  expect(Math.abs((got ?? Number.NaN) - truth)).toBeLessThan(error);

describe.each(byR.rows)("$method, told and all of unlike, of like: $counts; R", ({ method, counts, alpha, ...row }) => {
  const found = kinds(method, counts, alpha);
  test("the exact p-value, fisher.test one-sided", () => {
    // fisher.test sums densities: good to about 12 digits
    expect(relativeError(found.pValue, row.p)).toBeLessThan(1e-11);
  });
  test("conditional odds with their exact bound", () => {
    const [estimate, low] = row.odds;
    if (estimate === null) expect(found.oddsRatio.estimate).toBeNull();
    else close(found.oddsRatio.estimate, estimate, 1e-8);
    expect(relativeError(found.oddsRatio.low ?? -1, low)).toBeLessThan(1e-9);
  });
});

test.each(byR.rows.filter(({ distance }) => distance[0] !== null))(
  "$method $counts: d-prime, its bounds by profile likelihood, standard error, criterion; R",
  ({ method, counts, alpha, distance }) => {
    const found = kinds(method, counts, alpha);
    const [dPrime, lower, low, high, standardError, criterion] = distance.map((value) => value ?? Number.NaN);
    close(found.dPrime.estimate, dPrime ?? 0, 1e-8);
    close(found.dPrime.low, lower ?? 0, 1e-6);
    close(found.dPrimeProfile.low, low ?? 0, 1e-6);
    close(found.dPrimeProfile.high, high ?? 0, 1e-6);
    // optimHess differentiates numerically
    close(found.dPrimeStandardError, standardError ?? 0, 1e-5);
    close(found.criterion, criterion ?? 0, 1e-8);
  },
);

describe.each(byR.powers)("power of $method, $people people, alpha $alpha, d-prime $dPrime", (row) => {
  test("every pair of counts summed in R", () => {
    expect(relativeError(kindsPower(row.method, row.people, row.alpha, row.dPrime), row.power)).toBeLessThan(1e-10);
  });
});

test.each([
  ["a-not-a", 1, 0.691462461274013],
  ["a-not-a", 0, 0.5],
  ["same-different", 0, 0.5],
] as const)(
  "%s, %s apart: people without a lean are right with %s (normal probability below 1/2)",
  (name, dPrime, right) => {
    const { unlike, like } = unbiasedShares(name, dPrime);
    close(unlike, right, 1e-13);
    close(1 - like, right, 1e-13);
  },
);

test("the lady who tasted tea: 4 of 4 and 0 of 4 is 1 in 70, R. A. Fisher 1935, from memory", () => {
  const found = kinds("a-not-a", [4, 4, 0, 4]);
  expect(relativeError(found.pValue, 1 / 70)).toBeLessThan(1e-15);
  expect(found).toMatchObject({ criticalNumber: 4, outcome: "reached", dPrime: { estimate: null }, criterion: null });
  expect(kinds("a-not-a", [3, 4, 1, 4])).toMatchObject({ outcome: "not-reached", criticalNumber: 4 });
  expect(relativeError(kinds("a-not-a", [3, 4, 1, 4]).pValue, 17 / 70)).toBeLessThan(1e-15);
});

describe("several answers a person", () => {
  const personsOf = (people: readonly (readonly number[])[]) =>
    people.map(([unlikeTold = 0, unlike = 0, likeTold = 0, like = 0], at) => ({
      panelist: `seat ${at + 1}`,
      unlikeTold,
      unlike,
      likeTold,
      like,
    }));
  const total = (people: readonly (readonly number[])[], at: number) =>
    people.reduce((sum, one) => sum + (one[at] ?? 0), 0);
  const repeated = (people: readonly (readonly number[])[]) =>
    kindsStatistics({
      method: "same-different",
      alpha: 0.05,
      unlike: { told: total(people, 0), of: total(people, 1) },
      like: { told: total(people, 2), of: total(people, 3) },
      panelists: personsOf(people),
    });

  test.each(within.rows)(
    "$people held against each other within people; R's mantelhaen.test, exact",
    ({ people, p, odds }) => {
      const found = repeated(people);
      expect(relativeError(found.pValue, p)).toBeLessThan(1e-11);
      // R's own root finder stops after four digits
      expect(relativeError(found.oddsRatio.estimate ?? -1, odds[0])).toBeLessThan(1e-3);
      expect(relativeError(found.oddsRatio.low ?? -1, odds[1])).toBeLessThan(1e-3);
      expect(found).toMatchObject({ withinPeople: true, people: people.length, criticalNumber: null, power: null });
      expect(found.dPrime).toMatchObject({ low: null, kind: "none" });
      expect(z.safeParse(schema, found).success).toBe(true);
    },
  );
  test("people who always give one answer say nothing: told or not, they leave p as it is", () => {
    const people = [
      [2, 2, 0, 2],
      [1, 2, 1, 2],
      [2, 2, 1, 2],
      [1, 2, 0, 2],
      [0, 2, 0, 2],
      [2, 2, 0, 2],
    ];
    const same = (extra: number[]) => repeated([...people, extra]).pValue;
    expect(relativeError(same([2, 2, 2, 2]), same([0, 2, 0, 2]))).toBeLessThan(1e-14);
  });
  test("one person alone is tested as one", () => {
    const found = repeated([[5, 6, 1, 6]]);
    expect(found).toMatchObject({ people: 1, withinPeople: false });
    expect(found.pValue).toBe(kinds("same-different", [5, 6, 1, 6]).pValue);
  });
  test("one answer each, listed person by person, is the plain test", () => {
    const each = [...Array(7).fill([1, 1, 0, 0]), ...Array(3).fill([0, 1, 0, 0]), ...Array(9).fill([0, 0, 0, 1])];
    expect(repeated([...each, [0, 0, 1, 1]])).toEqual(kinds("same-different", [7, 10, 1, 10]));
  });
  test("three people are too few for a verdict", () => {
    expect(
      repeated([
        [4, 4, 0, 4],
        [4, 4, 0, 4],
        [4, 4, 0, 4],
      ]).outcome,
    ).toBe("too-few");
  });
});

describe("what holds for any counts", () => {
  const counts = fc
    .tuple(fc.integer({ min: 0, max: 40 }), fc.integer({ min: 0, max: 40 }))
    .chain(([unlike, like]) =>
      fc.tuple(
        fc.integer({ min: 0, max: unlike }),
        fc.constant(unlike),
        fc.integer({ min: 0, max: like }),
        fc.constant(like),
      ),
    );
  const methods = fc.constantFrom<Method>("same-different", "a-not-a");
  const alphas = fc.constantFrom(0.2, 0.1, 0.05, 0.01);

  test("p, critical number, odds, distance and verdict agree; no number is infinite; the document fits its schema", () => {
    fc.assert(
      fc.property(methods, counts, alphas, (name, given, alpha) => {
        const found = kinds(name, given, alpha);
        expect(z.safeParse(schema, found).success).toBe(true);
        const reached = found.pValue <= alpha;
        expect(found.criticalNumber !== null && found.unlike.told >= found.criticalNumber).toBe(reached);
        expect((found.oddsRatio.low ?? 0) > 1).toBe(reached);
        expect((found.dPrime.low ?? 0) > 0).toBe(reached);
        expect(found.guessingPanels.reduce((sum, panels) => sum + panels, 0)).toBe(100);
        const numbers = JSON.stringify(found, (_key, value) =>
          typeof value === "number" && !Number.isFinite(value) ? "not finite" : value,
        );
        expect(numbers).not.toContain("not finite");
        const { estimate, low, high } = found.dPrimeProfile;
        if (estimate !== null && low !== null) expect(low).toBeLessThanOrEqual(estimate + 1e-6);
        if (estimate !== null && high !== null) expect(high).toBeGreaterThanOrEqual(estimate - 1e-6);
      }),
      { numRuns: 60 },
    );
  });
  test("one more unlike tray told, or one like tray less, never raises p nor lowers d-prime", () => {
    fc.assert(
      fc.property(methods, counts, (name, [told, unlike, likeTold, like]) => {
        const found = kinds(name, [told, unlike, likeTold, like]);
        const more: Four[] = [];
        if (told < unlike) more.push([told + 1, unlike, likeTold, like]);
        if (likeTold > 0) more.push([told, unlike, likeTold - 1, like]);
        for (const next of more.map((one) => kinds(name, one))) {
          expect(next.pValue).toBeLessThanOrEqual(found.pValue * (1 + 1e-12));
          if (unlike > 0 && like > 0) {
            const distance = (estimate: number | null) => estimate ?? Number.POSITIVE_INFINITY;
            expect(distance(next.dPrime.estimate)).toBeGreaterThanOrEqual(distance(found.dPrime.estimate) - 1e-7);
          }
        }
      }),
      { numRuns: 60 },
    );
  });
  test("no false alarm oftener than alpha, whatever share is told of both kinds: counted out", () => {
    for (const [first, second] of [
      [6, 6],
      [10, 9],
      [20, 20],
    ] as const) {
      for (const share of [0.05, 0.3, 0.5, 0.8]) {
        for (const alpha of [0.05, 0.2]) {
          expect(twoGroupsPower({ first, second }, { first: share, second: share }, alpha)).toBeLessThanOrEqual(alpha);
        }
      }
    }
  });
});

describe("edges", () => {
  test("nobody answered; one kind alone", () => {
    expect(kinds("a-not-a", [0, 0, 0, 0])).toMatchObject({
      pValue: 1,
      outcome: "too-few",
      dPrime: { estimate: null, low: 0 },
    });
    const found = kinds("a-not-a", [6, 8, 0, 0]);
    expect(found).toMatchObject({
      pValue: 1,
      outcome: "not-reached",
      criterion: null,
      oddsRatio: { estimate: null, low: 0 },
    });
    expect(found.dPrimeProfile).toMatchObject({ estimate: null, low: 0, high: null });
  });
  test("everything told, or nothing: no distance, and no line that is finite", () => {
    for (const all of [12, 0]) {
      const found = kinds("same-different", [all, 12, all, 12]);
      expect(found).toMatchObject({
        pValue: 1,
        dPrime: { estimate: 0, low: 0 },
        criterion: null,
        criticalNumber: null,
      });
    }
  });
  test("no like tray told: no finite distance is the likeliest, and its lower bound is a number", () => {
    const found = kinds("same-different", [9, 12, 0, 12]);
    expect(found).toMatchObject({ dPrime: { estimate: null }, criterion: null, dPrimeStandardError: null });
    expect(found.dPrimeProfile.high).toBeNull();
    expect(Number.isFinite(found.dPrime.low) && (found.dPrime.low ?? 0) > 0).toBe(true);
  });
  test("like trays told far oftener than unlike ones: labels or wording are in doubt", () => {
    expect(kinds("a-not-a", [2, 20, 14, 20])).toMatchObject({
      outcome: "far-below-chance",
      dPrime: { estimate: 0, low: 0 },
    });
  });
  test("5,000 trays of each, nearly all apart: p is small and not 0, the odds' bound is a number", () => {
    const found = kinds("a-not-a", [4_900, 5_000, 100, 5_000]);
    expect(found.pValue).toBeGreaterThan(0);
    expect(found.oddsRatio.low ?? 0).toBeGreaterThan(1000);
  });
  test("more told than served, an alpha of 0.6, are refused", () => {
    expect(problemOf(() => kinds("a-not-a", [5, 4, 0, 4])).code).toBe("analysis/not-a-count");
    expect(problemOf(() => kinds("a-not-a", [3, 4, 0, 4], 0.6)).code).toBe("analysis/risk-out-of-range");
  });
});
