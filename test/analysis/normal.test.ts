import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { normalDensity, normalLower, normalQuantile, normalUpper } from "../../src/analysis/normal.ts";
import { fiftyDigits, highPrecision } from "./high-precision.ts";
import { relativeError } from "./reference.ts";

describe("standard normal against values computed outside", () => {
  test.each(highPrecision.normal.rows)("at %d: lower tail %d, density %d, mpmath at 60 digits", (x, lower, density) => {
    expect(relativeError(normalLower(x), lower)).toBeLessThan(1e-13);
    expect(relativeError(normalUpper(-x), lower)).toBeLessThan(1e-13);
    expect(relativeError(normalDensity(x), density)).toBeLessThan(1e-13);
  });
  test.each(fiftyDigits.normalLower)("lower tail at %d: %d, mpmath at 50 digits", (x, truth) => {
    expect(relativeError(normalLower(x), truth)).toBeLessThan(1e-13);
  });
  test.each(highPrecision.normalQuantile.rows)("quantile of %d: %d, mpmath at 60 digits", (p, x) => {
    expect(relativeError(normalQuantile(p), x)).toBeLessThan(1e-12);
  });
  test.each(fiftyDigits.normalQuantile)("quantile of %d: %d, mpmath at 50 digits", (p, x) => {
    expect(relativeError(normalQuantile(p), x)).toBeLessThan(1e-12);
  });
});

describe("standard normal, shape", () => {
  test("the tails add up to 1 within 4e-16, and rise and fall", () => {
    fc.assert(
      fc.property(fc.double({ min: -39, max: 39, noNaN: true }), (x) => {
        expect(Math.abs(normalLower(x) + normalUpper(x) - 1)).toBeLessThanOrEqual(4e-16);
        expect(normalUpper(x + 0.01)).toBeLessThanOrEqual(normalUpper(x));
      }),
    );
  });
  test("the quantile gives back the tail", () => {
    fc.assert(
      fc.property(fc.double({ min: -690, max: -0.7, noNaN: true }), (logTail) => {
        const tail = Math.exp(logTail);
        // a rounding of x costs x times as much in the tail
        expect(relativeError(normalLower(normalQuantile(tail)), tail)).toBeLessThan(1e-11);
      }),
    );
  });
  test("far out, and at infinity, a tail is 0 and the other 1", () => {
    for (const x of [40, 1e300, Number.POSITIVE_INFINITY]) expect([normalUpper(x), normalLower(x)]).toEqual([0, 1]);
  });
});
