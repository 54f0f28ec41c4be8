import fc from "fast-check";
import { describe, expect, test } from "vitest";
import * as z from "zod/mini";
import { pairStatistics } from "../../src/analysis/pair.ts";
import type { NoPreference } from "../../src/model/plan.ts";
import { pairStatistics as schema } from "../../src/model/result-pair.ts";
import { problemOf } from "../problem-of.ts";
import { relativeError } from "./reference.ts";
import { computed, published } from "./two-sided-tables.ts";

const given = { products: ["current", "new"], alpha: 0.05, noPreference: "dropped" } as const;
const preference = (first: number, second: number, none = 0, noPreference: NoPreference = "dropped", alpha = 0.05) =>
  pairStatistics({ ...given, alpha, noPreference, first, second, none });

describe("least votes for either product", () => {
  test.each(published.rows)(
    "%d votes: the smaller count may be %s, %s, %s, %s at 1, 2, 5 and 10 %; Triola Table A-7, seen",
    (n, ...cells) => {
      [0.01, 0.02, 0.05, 0.1].forEach((alpha, at) => {
        const fewest = cells[at] ?? null;
        const needed = preference(n, 0, 0, "dropped", alpha).criticalNumber;
        expect(needed === null ? null : n - needed).toBe(fewest);
        if (fewest !== null && n >= 6) {
          expect(preference(fewest, n - fewest, 0, "dropped", alpha).outcome).toBe("reached");
          expect(preference(fewest + 1, n - fewest - 1, 0, "dropped", alpha).outcome).toBe("not-reached");
        }
      });
    },
  );
  test.each(computed.rows)(
    "%d votes: %s, %s, %s, %s, %s at 20, 10, 5, 1 and 0.1 %; exact fractions computed outside",
    (n, ...needed) => {
      const found = [0.2, 0.1, 0.05, 0.01, 0.001].map((alpha) => preference(n, 0, 0, "dropped", alpha).criticalNumber);
      expect(found).toEqual(needed);
    },
  );
});

describe("the kitchen's invented preference: 19 for current, 31 for new, 10 for neither", () => {
  test("dropped: p = 0.119, 62 % for new (47 to 75)", () => {
    const found = preference(19, 31, 10);
    // twice the sum of C(50, k) over k >= 31, over 2^50 (exact fraction)
    expect(relativeError(found.pValue, 0.11892045255943628)).toBeLessThan(1e-13);
    expect(found).toMatchObject({ judgments: 50, people: 60, outcome: "not-reached", criticalNumber: 33 });
    expect(found.secondShare).toMatchObject({ estimate: 0.62, confidence: 0.95, kind: "two-sided" });
    expect(found.secondShare.low).toBeCloseTo(0.47, 2);
    expect(found.secondShare.high).toBeCloseTo(0.75, 2);
    expect(found.counts).toEqual({ first: 19, second: 31, none: 10 });
  });
  test("split: 24 to 36, p = 0.155", () => {
    const found = preference(19, 31, 10, "split");
    expect(found.tested).toEqual({ first: 24, second: 36 });
    expect(found.pValue).toBeCloseTo(0.155, 3);
  });
  test("an odd number to split leaves one out of the test, and none out of the counts", () => {
    const found = preference(19, 31, 11, "split");
    expect(found).toMatchObject({ tested: { first: 24, second: 36 }, judgments: 60, people: 61 });
    expect(found.counts.none).toBe(11);
  });
  test("three ways: tested among those who chose, with the three shares of everybody asked", () => {
    const found = preference(19, 31, 10, "three-way");
    expect(found.pValue).toBe(preference(19, 31, 10).pValue);
    const { first, second, none } = found.ofAll;
    expect([first.estimate, second.estimate, none.estimate]).toEqual([19 / 60, 31 / 60, 10 / 60]);
    expect((none.low ?? 1) < 10 / 60 && (none.high ?? 0) > 10 / 60).toBe(true);
  });
});

describe("what holds for any counts", () => {
  const votes = fc.integer({ min: 0, max: 400 });
  const alphas = fc.constantFrom(0.2, 0.1, 0.05, 0.01, 0.001);
  const rules = fc.constantFrom<NoPreference>("dropped", "split", "three-way");
  test("p, critical number, verdict and interval agree, the document fits its schema, and sides mirror", () => {
    fc.assert(
      fc.property(votes, votes, votes, alphas, rules, (first, second, none, alpha, rule) => {
        const found = preference(first, second, none, rule, alpha);
        expect(z.safeParse(schema, found).success).toBe(true);
        const { judgments, tested, criticalNumber: needed, pValue, firstShare, secondShare } = found;
        const reached = pValue <= alpha;
        expect(needed !== null && Math.max(tested.first, tested.second) >= needed).toBe(reached);
        expect(found.outcome).toBe(judgments < 6 ? "too-few" : reached ? "reached" : "not-reached");
        for (const { low, high } of [firstShare, secondShare]) {
          expect((low ?? 0) < 0.5 && (high ?? 1) > 0.5 && reached).toBe(false);
          expect(((low ?? 0) > 0.5 || (high ?? 1) < 0.5) && !reached).toBe(false);
        }
        expect(found.guessingPanels.reduce((sum, panels) => sum + panels, 0)).toBe(100);
        const mirrored = preference(second, first, none, rule, alpha);
        expect([mirrored.pValue, mirrored.secondShare]).toEqual([pValue, firstShare]);
      }),
      { numRuns: 80 },
    );
  });
});

describe("edges", () => {
  test("5 of 5 is too few for a verdict, 6 of 6 is not (p = 2/64)", () => {
    expect([preference(5, 0).outcome, preference(6, 0).outcome]).toEqual(["too-few", "reached"]);
    expect(preference(6, 0).pValue).toBe(2 / 64);
  });
  test("nobody asked; nobody with a preference", () => {
    expect(preference(0, 0)).toMatchObject({ outcome: "too-few", pValue: 1, people: 0, criticalNumber: null });
    const found = preference(0, 0, 12);
    expect(found).toMatchObject({ outcome: "too-few", people: 12, firstShare: { estimate: null } });
    expect(found.ofAll.none.estimate).toBe(1);
  });
  test("the power is that of the plan: 60 people, 65 to 35, in either direction", () => {
    const found = pairStatistics({ ...given, first: 1, second: 2, none: 0, sought: { share: 0.65, people: 60 } });
    // P(X >= 39) + P(X <= 21) of 60 at 0.65 (39 needed: 2 P(X >= 39) = 0.0273), summed in exact fractions outside
    expect(found.power).toMatchObject({ share: 0.65, people: 60 });
    expect(found.power?.power).toBeCloseTo(0.5590342871632595, 12);
  });
  test("“no preference” that was not offered is refused, with how many", () => {
    expect(problemOf(() => preference(3, 4, 2, "not-offered"))).toEqual({
      code: "analysis/none-not-offered",
      details: { none: 2 },
    });
    expect(preference(3, 4, 0, "not-offered").judgments).toBe(7);
  });
  test.each([-1, 1.5, Number.NaN])("%d votes are refused", (first) => {
    expect(problemOf(() => preference(first, 3)).code).toBe("analysis/not-a-count");
  });
  test("60 000 votes for each are more than a result holds", () => {
    expect(problemOf(() => preference(60_000, 60_000)).code).toBe("analysis/not-a-count");
  });
});
