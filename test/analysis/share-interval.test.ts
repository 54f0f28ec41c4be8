import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { lowerTail, upperTail } from "../../src/analysis/binomial.ts";
import { exactInterval, lowerLimit, upperLimit } from "../../src/analysis/share-interval.ts";
import { problemOf } from "../problem-of.ts";
import { fiftyDigits, highPrecision } from "./high-precision.ts";
import { relativeError } from "./reference.ts";

describe("exact limits of a share against values computed outside", () => {
  test.each(highPrecision.limits.rows)(
    "%d of %d at risk %d: %d and %d, mpmath at 60 digits",
    (correct, n, tail, low, high) => {
      expect(relativeError(lowerLimit(correct, n, tail), low)).toBeLessThan(1e-12);
      expect(relativeError(upperLimit(correct, n, tail), high)).toBeLessThan(1e-12);
    },
  );
  test.each(fiftyDigits.lowerLimit)(
    "lower limit, %d of %d at risk %d: %d, mpmath at 50 digits",
    (correct, n, tail, truth) => {
      expect(relativeError(lowerLimit(correct, n, tail), truth)).toBeLessThan(1e-12);
    },
  );
  test.each(fiftyDigits.upperLimit)(
    "upper limit, %d of %d at risk %d: %d, mpmath at 50 digits",
    (correct, n, tail, truth) => {
      expect(relativeError(upperLimit(correct, n, tail), truth)).toBeLessThan(1e-12);
    },
  );
});

describe("exact limits, shape", () => {
  const counts = fc
    .integer({ min: 1, max: 5000 })
    .chain((n) => fc.record({ n: fc.constant(n), correct: fc.integer({ min: 0, max: n }) }));
  const risk = fc.double({ min: 1e-9, max: 0.5, noNaN: true });

  test("at the limit the tail equals the risk, as far as a double can hold a share near 1", () => {
    fc.assert(
      fc.property(counts, risk, ({ n, correct }, tail) => {
        const tolerance = (share: number) => 1e-11 + (n * 2 ** -51) / (1 - share);
        const [low, high] = [lowerLimit(correct, n, tail), upperLimit(correct, n, tail)];
        if (correct > 0) expect(relativeError(upperTail(correct, n, low), tail)).toBeLessThan(tolerance(low));
        if (correct < n) expect(relativeError(lowerTail(correct, n, high), tail)).toBeLessThan(tolerance(high));
      }),
    );
  });

  test("counting wrong answers instead of right ones mirrors the limits", () => {
    fc.assert(
      fc.property(counts, risk, ({ n, correct }, tail) => {
        expect(upperLimit(correct, n, tail)).toBeCloseTo(1 - lowerLimit(n - correct, n, tail), 12);
      }),
    );
  });

  test("the interval holds the share seen, and widens with confidence", () => {
    fc.assert(
      fc.property(counts, ({ n, correct }) => {
        const [narrow, wide] = [exactInterval(correct, n, 0.8), exactInterval(correct, n, 0.99)];
        expect(narrow.low).toBeLessThanOrEqual(correct / n);
        expect(narrow.high).toBeGreaterThanOrEqual(correct / n);
        expect(wide.low).toBeLessThanOrEqual(narrow.low);
        expect(wide.high).toBeGreaterThanOrEqual(narrow.high);
      }),
    );
  });

  test("no answers leave everything open; none right starts at 0; all right ends at 1", () => {
    expect(exactInterval(0, 0, 0.95)).toEqual({ low: 0, high: 1 });
    expect(lowerLimit(0, 10, 0.05)).toBe(0);
    expect(upperLimit(10, 10, 0.05)).toBe(1);
  });

  test.each([0, 1, Number.NaN])("confidence %d is refused", (confidence) => {
    expect(problemOf(() => exactInterval(1, 2, confidence)).code).toBe("analysis/not-a-share");
  });
});
