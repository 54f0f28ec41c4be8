import fc from "fast-check";
import { describe, expect, test } from "vitest";
import * as z from "zod/mini";
import { pairStatistics } from "../../src/analysis/pair.ts";
import type { PersonVotes } from "../../src/analysis/pair-people.ts";
import { pairStatistics as schema } from "../../src/model/result-pair.ts";
import { reference, relativeError } from "./reference.ts";

const two = z.tuple([z.number(), z.number()]);
const { rows } = reference(
  "pair-distance-by-r",
  z.object({
    rows: z
      .array(
        z.object({
          votes: two,
          dPrime: z.tuple([z.number(), z.number(), z.number()]),
          profile: two,
          standardError: z.number(),
          score: two,
        }),
      )
      .check(z.minLength(7)),
  }),
);
const given = {
  method: "paired-difference",
  products: ["current", "new"],
  alpha: 0.05,
  noPreference: "not-offered",
} as const;
const votes = (first: number, second: number) => pairStatistics({ ...given, confidence: 0.9, first, second, none: 0 });
const close = (got: number | null | undefined, truth: number, error: number) =>
  expect(Math.abs((got ?? Number.NaN) - truth)).toBeLessThan(error);

test.each(rows)("votes $votes: signed d-prime with bounds, profile, standard error and score, against R", (row) => {
  const found = votes(...row.votes);
  const [estimate, low, high] = row.dPrime;
  close(found.dPrime?.estimate, estimate, 1e-12);
  close(found.dPrime?.low, low, 1e-10);
  close(found.dPrime?.high, high, 1e-10);
  close(found.dPrimeProfile?.low, row.profile[0], 1e-8);
  close(found.dPrimeProfile?.high, row.profile[1], 1e-8);
  close(found.dPrimeStandardError, row.standardError, 1e-6);
  close(found.firstShareScore.low, row.score[0], 1e-12);
  close(found.firstShareScore.high, row.score[1], 1e-12);
});

describe("ends", () => {
  test("all for one side: no finite estimate, one finite bound, no standard error", () => {
    const found = votes(12, 0);
    expect(found.dPrime).toMatchObject({ estimate: null, high: null });
    expect(found.dPrime?.low ?? 0).toBeGreaterThan(0);
    expect(found.dPrimeStandardError).toBeNull();
    expect(votes(0, 12).dPrime).toMatchObject({ estimate: null, low: null });
  });
  test("nobody asked: nothing has a value", () => {
    expect(votes(0, 0).dPrime).toMatchObject({ estimate: null, low: null, high: null });
  });
  test("a preference has no distance", () => {
    const found = pairStatistics({ ...given, method: "paired-preference", first: 12, second: 3, none: 0 });
    expect([found.dPrime, found.dPrimeProfile, found.dPrimeStandardError]).toEqual([null, null, null]);
  });
});

const turned = (interval: { low: number | null; high: number | null } | null) => [
  interval?.high == null ? null : -interval.high,
  interval?.low == null ? null : -interval.low,
];
test("swapping the products turns the sign of every distance and leaves p, with repeats too", () => {
  const person = fc.record({
    first: fc.integer({ min: 0, max: 3 }),
    second: fc.integer({ min: 0, max: 3 }),
    none: fc.integer({ min: 0, max: 2 }),
  });
  fc.assert(
    fc.property(fc.array(person, { maxLength: 14 }), (people) => {
      const sum = (of: "first" | "second" | "none") => people.reduce((total, one) => total + one[of], 0);
      const named = (swap: boolean): PersonVotes[] =>
        people.map(({ first, second, none }, at) => ({
          panelist: `P${at}`,
          first: swap ? second : first,
          second: swap ? first : second,
          none,
        }));
      const [first, second, none] = [sum("first"), sum("second"), sum("none")];
      const common = { ...given, noPreference: "dropped" as const, none };
      const one = pairStatistics({ ...common, first, second, panelists: named(false) });
      const other = pairStatistics({ ...common, first: second, second: first, panelists: named(true) });
      expect(z.safeParse(schema, one).success).toBe(true);
      expect(other.pValue).toBe(one.pValue);
      expect(other.outcome).toBe(one.outcome);
      expect(other.secondShare).toEqual(one.firstShare);
      const [low, high] = turned(one.dPrime);
      for (const [got, truth] of [
        [other.dPrime?.low ?? null, low],
        [other.dPrime?.high ?? null, high],
      ]) {
        if (truth === null || truth === undefined) expect(got).toBeNull();
        else close(got, truth, 1e-9);
      }
      expect(one.guessingPanels.reduce((total, panels) => total + panels, 0)).toBe(100);
    }),
    { numRuns: 60 },
  );
});

test("the norm of a blank study: 20 of 40 said “neither” of the same thing twice, 5 of 40 here; R's fisher.test", () => {
  const blank = { title: "Twice the same", none: 20, of: 40, here: { none: 5, of: 40 } };
  const found = pairStatistics({
    ...given,
    method: "paired-preference",
    noPreference: "dropped",
    first: 20,
    second: 15,
    none: 5,
    blank,
  });
  // fisher.test(matrix(c(20, 20, 5, 35), 2), alternative = "greater")$p.value, R 4.2.2
  expect(relativeError(found.blankNorm?.pValue ?? 0, 0.000285883475757249)).toBeLessThan(1e-11);
  expect(found.blankNorm).toMatchObject({
    title: "Twice the same",
    share: { estimate: 0.5 },
    here: { estimate: 0.125 },
  });
});
