import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { pointProbability } from "../../src/analysis/binomial.ts";
import { twoSidedCriticalNumber, twoSidedP, twoSidedPower } from "../../src/analysis/two-sided.ts";
import { problemOf } from "../problem-of.ts";
import { relativeError } from "./reference.ts";
import { computed, published } from "./two-sided-tables.ts";

describe("least count for either side, two-sided", () => {
  test.each(published.rows)(
    "%d votes: the smaller count may be %s, %s, %s, %s at 1, 2, 5 and 10 %; Triola Table A-7, seen",
    (n, ...cells) => {
      const needed = [0.01, 0.02, 0.05, 0.1].map((alpha) => twoSidedCriticalNumber(n, alpha));
      expect(needed.map((count) => (count === null ? null : n - count))).toEqual(cells.slice(0, 4));
    },
  );
  test.each(computed.rows)(
    "%d votes: %s, %s, %s, %s, %s at 20, 10, 5, 1 and 0.1 %; exact fractions computed outside",
    (n, ...needed) => {
      expect([0.2, 0.1, 0.05, 0.01, 0.001].map((alpha) => twoSidedCriticalNumber(n, alpha))).toEqual(needed);
    },
  );
  test("1 to 300 votes at seven risks, ties included, agree with tails summed in whole numbers", () => {
    const alphas = [0.5, 0.25, 0.125, 0.0625, 0.1, 0.05, 0.001];
    for (let n = 1; n <= 300; n++) {
      expect(alphas.map((alpha) => twoSidedCriticalNumber(n, alpha))).toEqual(
        alphas.map((alpha) => exactCritical(n, alpha)),
      );
    }
  });
  test("an alpha that is met exactly counts as reached: 5 of 5 at 1/16", () => {
    expect([twoSidedP(5, 0), twoSidedCriticalNumber(5, 1 / 16)]).toEqual([1 / 16, 5]);
  });
  test("no votes have no such number", () => {
    expect(twoSidedCriticalNumber(0, 0.05)).toBeNull();
  });
});

describe("two-sided p", () => {
  test("the invented preference of 60 diners: 31 to 19 gives 0.119, 36 to 24 after an equal split 0.155", () => {
    expect(twoSidedP(31, 19)).toBeCloseTo(0.119, 3);
    expect(twoSidedP(36, 24)).toBeCloseTo(0.155, 3);
  });
  test("every pair up to 120 votes is twice the exact fraction of the tail", () => {
    for (let n = 0; n <= 120; n++) {
      for (let first = 0; first <= n; first++) {
        const { ways, all } = exactTail(Math.max(first, n - first), n);
        const truth = 2n * ways >= all ? 1 : Number(2n * ways) / Number(all);
        // up to 50 votes to the last bit
        expect(relativeError(twoSidedP(first, n - first), truth)).toBeLessThanOrEqual(n <= 50 ? 0 : 1e-12);
      }
    }
  });
  const votes = fc.integer({ min: 0, max: 50_000 });
  test("the same whichever side comes first; 1 when even; never 0", () => {
    fc.assert(
      fc.property(votes, votes, (first, second) => {
        expect(twoSidedP(first, second)).toBe(twoSidedP(second, first));
        expect(twoSidedP(first, first)).toBe(1);
        expect(twoSidedP(first, second)).toBeGreaterThan(0);
        expect(twoSidedP(first, second)).toBeLessThanOrEqual(1);
      }),
    );
    expect(twoSidedP(2000, 0)).toBe(Number.MIN_VALUE);
  });
  test("a count reaches alpha exactly when it is the critical number or more", () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 3000 }), fc.double({ min: 1e-6, max: 0.5, noNaN: true }), (n, alpha) => {
        const needed = twoSidedCriticalNumber(n, alpha);
        if (needed === null) expect(twoSidedP(n, 0)).toBeGreaterThan(alpha);
        else {
          expect(twoSidedP(needed, n - needed)).toBeLessThanOrEqual(alpha);
          expect(twoSidedP(needed - 1, n - needed + 1)).toBeGreaterThan(alpha);
        }
      }),
    );
  });
  test.each([
    [-1, 3, "first"],
    [1.5, 3, "first"],
    [1, Number.NaN, "second"],
    [60_000, 60_000, "judgments"],
  ])("%d to %d is refused and %s is named", (first, second, name) => {
    expect(problemOf(() => twoSidedP(first, second))).toMatchObject({
      code: "analysis/not-a-count",
      details: { name },
    });
  });
  test.each([0, 0.6, Number.NaN])("alpha %d is refused", (alpha) => {
    expect(problemOf(() => twoSidedCriticalNumber(24, alpha)).code).toBe("analysis/risk-out-of-range");
  });
});

describe("chance to reach it", () => {
  test("is the sum of the point probabilities at and past both ends, n to 80", () => {
    for (let n = 1; n <= 80; n++) {
      for (const share of [0, 0.2, 0.5, 0.7, 1]) {
        const needed = twoSidedCriticalNumber(n, 0.05);
        let sum = 0;
        for (let k = 0; k <= n; k++)
          if (needed !== null && (k >= needed || n - k >= needed)) sum += pointProbability(k, n, share);
        expect(Math.abs(twoSidedPower(n, 0.05, share) - sum)).toBeLessThan(1e-13);
      }
    }
  });
  test("is what a coin spends of alpha when nobody prefers, and mirrors with the share", () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 500 }), fc.integer({ min: 0, max: 64 }), (n, part) => {
        expect(twoSidedPower(n, 0.05, 0.5)).toBeLessThanOrEqual(0.05);
        expect(twoSidedPower(n, 0.05, part / 64)).toBeCloseTo(twoSidedPower(n, 0.05, 1 - part / 64), 11);
      }),
    );
  });
  test("a share outside 0 to 1 is refused", () => {
    expect(problemOf(() => twoSidedPower(24, 0.05, 1.2)).code).toBe("analysis/not-a-share");
  });
});

/** Ways to get `larger` or more of n votes, and all ways. */
function exactTail(larger: number, n: number): { ways: bigint; all: bigint } {
  let exactly = 1n;
  let ways = 0n;
  for (let votes = n; votes >= larger; votes--) {
    ways += exactly;
    exactly = (exactly * BigInt(votes)) / BigInt(n - votes + 1);
  }
  return { ways, all: 2n ** BigInt(n) };
}

/** Least larger count with twice the tail at most alpha, in whole numbers: a double above 2^-10 is a whole count of 2^-63. */
function exactCritical(n: number, alpha: number): number | null {
  const scale = 2n ** 63n;
  const allowed = BigInt(alpha * 2 ** 63);
  for (let larger = Math.floor(n / 2) + 1; larger <= n; larger++) {
    const { ways, all } = exactTail(larger, n);
    if (2n * ways * scale <= allowed * all) return larger;
  }
  return null;
}
