import fc from "fast-check";
import { describe, expect, test } from "vitest";
import * as z from "zod/mini";
import { criticalNumber, lowerTail, upperTail } from "../../src/analysis/binomial.ts";
import {
  fisherExactUpper,
  hypergeometricCritical,
  hypergeometricLower,
  hypergeometricPoint,
  hypergeometricUpper,
} from "../../src/analysis/fisher-exact.ts";
import { fisherRegion, regionPower } from "../../src/analysis/fisher-region.ts";
import { kindsPower } from "../../src/analysis/kinds-power.ts";
import { problemOf } from "../problem-of.ts";
import { digits, reference, relativeError } from "./reference.ts";

const number = z.number();
const values = reference(
  "large-panels",
  z.object({
    tails: z.object({
      rows: z.array(z.tuple([number, number, number, z.nullable(digits), z.nullable(digits)])).check(z.minLength(100)),
    }),
    groups: z.object({ rows: z.array(z.tuple([number, number, number, number, digits])).check(z.minLength(50)) }),
  }),
);

describe("tails up to 100,000 judgments, to 1e-300; mpmath at 40 digits (make.py)", () => {
  test.each(values.tails.rows)("%d of %d at %d: at most %s, at least %s", (right, n, p, lower, upper) => {
    if (lower !== null) expect(relativeError(lowerTail(right, n, p), lower)).toBeLessThan(1e-12);
    if (upper !== null) expect(relativeError(upperTail(right, n, p), upper)).toBeLessThan(1e-12);
  });
  test("the table reaches 100,000 judgments at both guessing shares, and below 1e-280", () => {
    const large = values.tails.rows.filter(([, n]) => n === 100_000);
    expect(new Set(large.map(([, , p]) => p))).toEqual(new Set([1 / 2, 1 / 3]));
    expect(large.some(([, , , , upper]) => upper !== null && upper < 1e-280)).toBe(true);
  });
  test("tails are monotone in the count and in the share, and a critical number is the first that fits", () => {
    const cases = fc.record({
      n: fc.integer({ min: 1, max: 2_000 }),
      p: fc.constantFrom(1 / 2, 1 / 3),
      at: fc.double({ min: 0, max: 1, noNaN: true }),
      alpha: fc.constantFrom(0.2, 0.1, 0.05, 0.01, 0.001),
    });
    fc.assert(
      fc.property(cases, ({ n, p, at, alpha }) => {
        const right = Math.floor(at * (n - 1));
        expect(upperTail(right + 1, n, p)).toBeLessThanOrEqual(upperTail(right, n, p));
        expect(lowerTail(right + 1, n, p)).toBeGreaterThanOrEqual(lowerTail(right, n, p));
        expect(upperTail(right, n, p + 0.01)).toBeGreaterThanOrEqual(upperTail(right, n, p));
        const needed = criticalNumber(n, p, alpha);
        if (needed !== null) expect(upperTail(needed, n, p)).toBeLessThanOrEqual(alpha);
        if (needed !== null && needed > 0) expect(upperTail(needed - 1, n, p)).toBeGreaterThan(alpha);
        if (needed === null) expect(upperTail(n, n, p)).toBeGreaterThan(alpha);
      }),
    );
  });
});

describe("two groups, Fisher's exact test", () => {
  test.each(values.groups.rows)(
    "%d told of %d against %d, %d in all: %d; mpmath at 40 digits",
    (at, first, second, told, upper) => {
      expect(relativeError(hypergeometricUpper(at, { first, second, told }), upper)).toBeLessThan(2e-12);
    },
  );
  test("a fraction that is alpha reaches it: 3 of 3 against none of 3 is 1 in 20", () => {
    expect(fisherExactUpper(3, 3, 0, 3)).toBe(0.05);
    expect(hypergeometricCritical({ first: 3, second: 3, told: 3 }, 0.05)).toBe(3);
    expect(hypergeometricCritical({ first: 2, second: 2, told: 2 }, 0.05)).toBeNull();
  });
  test("tails and points agree, and swapping the groups turns one tail into the other", () => {
    const cases = fc.record({
      first: fc.integer({ min: 0, max: 70 }),
      second: fc.integer({ min: 0, max: 70 }),
      at: fc.double({ min: 0, max: 1, noNaN: true }),
      share: fc.double({ min: 0, max: 1, noNaN: true }),
    });
    fc.assert(
      fc.property(cases, ({ first, second, at, share }) => {
        const margins = { first, second, told: Math.round(share * (first + second)) };
        const told = Math.round(at * Math.min(first, margins.told));
        const [upper, lower] = [hypergeometricUpper(told, margins), hypergeometricLower(told, margins)];
        const point = hypergeometricPoint(told, margins);
        expect(Math.abs(upper + lower - point - 1)).toBeLessThan(1e-12);
        const other = margins.told - told;
        if (other < 0 || other > second) return;
        const swapped = { first: second, second: first, told: margins.told };
        expect(Math.abs(hypergeometricLower(other, swapped) - upper)).toBeLessThan(1e-12);
      }),
    );
  });
  test("the region is where the p-value reaches alpha, for all groups up to 14 and 3 risks", () => {
    for (const alpha of [0.05, 0.1, 0.25])
      for (let first = 0; first <= 14; first++)
        for (let second = 0; second <= 14; second++) {
          const region = fisherRegion(first, second, alpha);
          for (let other = 0; other <= second; other++)
            for (let told = 0; told <= first; told++)
              expect(told >= (region[other] ?? 0)).toBe(fisherExactUpper(told, first, other, second) <= alpha);
        }
  });
  test("no true share common to both groups is called different more often than alpha", () => {
    for (const people of [6, 11, 24, 60, 131])
      for (let share = 0; share <= 1; share += 0.05) {
        const first = Math.floor(people / 2);
        const region = fisherRegion(first, people - first, 0.05);
        expect(regionPower(region, first, { first: share, second: share })).toBeLessThanOrEqual(0.05);
      }
  });
  test("a margin that cannot be is refused", () => {
    expect(problemOf(() => hypergeometricUpper(3, { first: 2, second: 2, told: 2 })).code).toBe("analysis/not-a-count");
    expect(problemOf(() => kindsPower("a-not-a", 1.5, 0.05, 1)).code).toBe("analysis/not-a-count");
  });
});
