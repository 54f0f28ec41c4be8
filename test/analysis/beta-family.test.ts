import fc from "fast-check";
import jStat from "jstat";
import { describe, expect, test } from "vitest";
import { fisherLower, fisherUpper } from "../../src/analysis/fisher.ts";
import { betaTails } from "../../src/analysis/incomplete-beta.ts";
import { studentLower, studentQuantile, studentTwoSided, studentUpper } from "../../src/analysis/student.ts";
import { problemOf } from "../problem-of.ts";
import { allowed, betaFamily, fiftyDigitsBeta } from "./high-precision-beta.ts";
import { relativeError } from "./reference.ts";

/** Places where the error is more than allowed; a truth below 1e-300 (null) is not asked for. */
function off(places: { at: number[]; got: number; truth: number | null }[]): unknown[] {
  return places.flatMap(({ at, got, truth }) => {
    const error = truth === null ? 0 : relativeError(got, truth);
    return error <= allowed(truth ?? 1) ? [] : [{ at, got, truth, error }];
  });
}

describe("beta, t and F against values computed outside, 1e-12 down to 1e-10, 2e-12 down to 1e-300", () => {
  test("beta, 504 places, parameters 0.05 to 700, both tails; mpmath at 50 digits", () => {
    const { rows } = betaFamily.beta;
    expect(rows).toHaveLength(504);
    const places = rows.flatMap(([a, b, x, lower, upper]) => {
      const got = betaTails(a, b, x, 1 - x);
      return [
        { at: [a, b, x], got: got.lower, truth: lower },
        { at: [a, b, x], got: got.upper, truth: upper },
      ];
    });
    expect(off(places)).toEqual([]);
  });

  test("t, df 0.1 to 1e7, t to 1e8; mpmath at 50 digits", () => {
    const { rows } = betaFamily.t;
    const places = rows.flatMap(([t, df, upper]) => [
      { at: [t, df], got: studentUpper(t, df), truth: upper },
      { at: [t, df], got: studentLower(-t, df), truth: upper },
      { at: [t, df], got: studentTwoSided(t, df) / 2, truth: upper },
    ]);
    expect(off(places)).toEqual([]);
  });
  test.each(fiftyDigitsBeta.tUpper)("t %d, df %d: %d, an earlier mpmath computation", (t, df, truth) => {
    expect(relativeError(studentUpper(t, df), truth)).toBeLessThan(1e-12);
  });

  test.each(betaFamily.tQuantile.rows)("t with upper tail %d, df %d: %d, mpmath at 50 digits", (tail, df, truth) => {
    expect(relativeError(-studentQuantile(tail, df), truth)).toBeLessThan(1e-12);
  });
  test.each(fiftyDigitsBeta.tQuantile)("t quantile of %d, df %d: %d, an earlier computation", (share, df, truth) => {
    expect(relativeError(studentQuantile(share, df), truth)).toBeLessThan(1e-12);
  });

  test("F, fractional df too, both tails; mpmath at 50 digits", () => {
    const { rows } = betaFamily.f;
    const places = rows.flatMap(([f, d1, d2, lower, upper]) => [
      { at: [f, d1, d2], got: fisherLower(f, d1, d2), truth: lower },
      { at: [f, d1, d2], got: fisherUpper(f, d1, d2), truth: upper },
    ]);
    expect(off(places)).toEqual([]);
  });
  test.each(fiftyDigitsBeta.fUpper)("F %d on %d and %d: %d, an earlier computation", (f, d1, d2, truth) => {
    expect(relativeError(fisherUpper(f, d1, d2), truth)).toBeLessThan(1e-12);
  });
});

describe("beta, t and F in closed form", () => {
  test("one degree of freedom is Cauchy's: the tail past t is arctan(1/t) / pi, two are algebraic", () => {
    for (const t of [0.01, 0.3, 1, 4, 1e3, 1e100]) {
      expect(relativeError(studentUpper(t, 1), Math.atan2(1, t) / Math.PI)).toBeLessThan(1e-13);
      const root = Math.sqrt(2 + t * t);
      expect(relativeError(studentUpper(t, 2), 1 / (root * (root + t)))).toBeLessThan(1e-13);
    }
  });
  test("two numerator degrees of freedom: the F tail is (1 + 2 f / d)^(-d / 2)", () => {
    for (const d of [1, 7, 22, 300]) {
      for (const f of [0.2, 1, 5, 40]) {
        expect(relativeError(fisherUpper(f, 2, d), Math.exp((-d / 2) * Math.log1p((2 * f) / d)))).toBeLessThan(1e-12);
      }
    }
  });
  test("t squared is F with one numerator degree of freedom", () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0, max: 60, noNaN: true }),
        fc.double({ min: 0.5, max: 500, noNaN: true }),
        (t, df) => {
          expect(relativeError(studentTwoSided(t, df), fisherUpper(t * t, 1, df))).toBeLessThan(1e-11);
        },
      ),
    );
  });
});

describe("beta, t and F, shape", () => {
  const df = fc.double({ min: 0.1, max: 1e6, noNaN: true });
  const statistic = fc.double({ min: 0, max: 1e4, noNaN: true });

  test("lower and upper tail add up to 1 within 4e-16", () => {
    fc.assert(
      fc.property(statistic, df, df, (value, d1, d2) => {
        expect(Math.abs(fisherLower(value, d1, d2) + fisherUpper(value, d1, d2) - 1)).toBeLessThanOrEqual(4e-16);
        expect(Math.abs(studentLower(value, d1) + studentUpper(value, d1) - 1)).toBeLessThanOrEqual(4e-16);
      }),
    );
  });
  test("the upper tails never rise", () => {
    fc.assert(
      fc.property(statistic, df, df, (value, d1, d2) => {
        const further = value * 1.01 + 1e-6;
        expect(fisherUpper(further, d1, d2)).toBeLessThanOrEqual(fisherUpper(value, d1, d2) * (1 + 1e-12));
        expect(studentUpper(further, d1)).toBeLessThanOrEqual(studentUpper(value, d1) * (1 + 1e-12));
      }),
    );
  });
  test("F turned over, with its degrees of freedom swapped, swaps the tails", () => {
    fc.assert(
      // powers of two turn over without rounding
      fc.property(
        fc.integer({ min: -12, max: 12 }),
        fc.integer({ min: 1, max: 90 }),
        fc.integer({ min: 1, max: 90 }),
        (power, d1, d2) => {
          expect(relativeError(fisherUpper(2 ** power, d1, d2), fisherLower(2 ** -power, d2, d1))).toBeLessThan(1e-12);
        },
      ),
    );
  });
  test("the quantile gives back the tail", () => {
    fc.assert(
      fc.property(
        fc.double({ min: -200, max: -0.7, noNaN: true }),
        fc.double({ min: 1, max: 1e5, noNaN: true }),
        (logTail, freedom) => {
          const tail = Math.exp(logTail);
          expect(relativeError(studentLower(studentQuantile(tail, freedom), freedom), tail)).toBeLessThan(1e-11);
        },
      ),
    );
  });
});

describe("beta, t and F, second opinion and edges", () => {
  test("jstat's incomplete beta agrees within 2e-7 where both tails are above a thousandth", () => {
    for (const a of [1, 2.5, 11, 40]) {
      for (const b of [0.5, 1, 3, 22]) {
        for (let x = 1 / 64; x < 1; x += 1 / 64) {
          const { lower, upper } = betaTails(a, b, x, 1 - x);
          if (Math.min(lower, upper) > 1e-3) expect(relativeError(lower, jStat.ibeta(x, a, b))).toBeLessThan(2e-7);
        }
      }
    }
  });
  test("at the ends of the range a tail is 0 and the other 1", () => {
    expect([betaTails(2, 3, 0, 1), betaTails(2, 3, 1, 0)]).toEqual([
      { lower: 0, upper: 1 },
      { lower: 1, upper: 0 },
    ]);
    expect([studentUpper(Number.POSITIVE_INFINITY, 5), studentLower(Number.POSITIVE_INFINITY, 5)]).toEqual([0, 1]);
    expect([fisherUpper(Number.POSITIVE_INFINITY, 2, 5), fisherUpper(0, 2, 5)]).toEqual([0, 1]);
    expect([studentUpper(0, 5), studentTwoSided(0, 5), studentQuantile(0.5, 5)]).toEqual([0.5, 1, 0]);
  });
  test.each([
    ["t", () => studentUpper(Number.NaN, 5)],
    ["degreesOfFreedom", () => studentUpper(1, 0)],
    ["degreesOfFreedom", () => studentTwoSided(1, Number.NaN)],
    ["degreesOfFreedom", () => studentQuantile(0.9, 0.5)],
    ["share", () => studentQuantile(1, 5)],
    ["share", () => studentQuantile(0, 5)],
    ["F", () => fisherUpper(-1, 2, 5)],
    ["numeratorDf", () => fisherLower(1, 0, 5)],
    ["denominatorDf", () => fisherUpper(1, 2, Number.POSITIVE_INFINITY)],
    ["a", () => betaTails(0, 1, 0.5, 0.5)],
    ["x", () => betaTails(1, 1, 1.5, -0.5)],
    ["x + y", () => betaTails(1, 1, 0.5, 0.4)],
  ])("a bad %s is refused and named", (name, call) => {
    expect(problemOf(call)).toMatchObject({ code: "analysis/out-of-range", details: { name } });
  });
});
