import fc from "fast-check";
import { describe, expect, test } from "vitest";
import * as z from "zod/mini";
import { discriminatorShareAt, dPrimeOf } from "../../src/analysis/method.ts";
import { triangleDPrime, triangleRight, triangleWrong } from "../../src/analysis/thurstone.ts";
import { problemOf } from "../problem-of.ts";
import { fiftyDigits, highPrecision } from "./high-precision.ts";
import { reference, relativeError } from "./reference.ts";

const number = z.number();
const toShare = reference(
  "triangle-dprime-to-share",
  z.object({
    rows: z.array(z.tuple([number, number])).check(z.minLength(61)),
    monteCarlo: z.array(z.object({ dprime: number, N: number, simulated: number })).check(z.minLength(4)),
  }),
);
const toDPrime = reference(
  "triangle-share-to-dprime",
  z.object({ rows: z.array(z.tuple([number, number, number])).check(z.minLength(60)) }),
);

describe("triangle: d-prime and share of right answers", () => {
  test.each(toShare.rows)("d-prime %d gives %d right; computed outside with mpmath", (dPrime, right) => {
    expect(Math.abs(triangleRight(dPrime) - right)).toBeLessThan(1e-14);
  });
  test.each(toDPrime.rows)("%d right gives d-prime %d; computed outside with mpmath", (right, dPrime) => {
    expect(Math.abs((triangleDPrime(right) ?? Number.NaN) - dPrime)).toBeLessThan(1e-10);
  });
  test.each(highPrecision.triangle.rows)(
    "d-prime %d gives %d right and %d wrong; mpmath at 60 digits",
    (dPrime, right, wrong) => {
      expect(Math.abs(triangleRight(dPrime) - right)).toBeLessThan(1e-14);
      expect(relativeError(triangleWrong(dPrime), wrong)).toBeLessThan(1e-12);
    },
  );
  test.each(fiftyDigits.triangle)("d-prime %d gives %d right; mpmath at 50 digits", (dPrime, right) => {
    expect(Math.abs(triangleRight(dPrime) - right)).toBeLessThan(1e-14);
  });
  test.each(toShare.monteCarlo)(
    "d-prime $dprime: $simulated right in $N simulated trials of the decision rule",
    (run) => {
      const spread = Math.sqrt((run.simulated * (1 - run.simulated)) / run.N);
      expect(Math.abs(triangleRight(run.dprime) - run.simulated)).toBeLessThan(4 * spread);
    },
  );

  test("there and back within 1e-10 from 0.001 to 10", () => {
    fc.assert(
      fc.property(fc.double({ min: 0.001, max: 10, noNaN: true }), (dPrime) => {
        const right = triangleRight(dPrime);
        // far out a share of right answers holds fewer digits of d-prime than a double has
        const tolerance = Math.max(1e-10, 1e-15 / triangleWrong(dPrime));
        expect(Math.abs((triangleDPrime(right) ?? Number.NaN) - dPrime)).toBeLessThan(tolerance);
      }),
    );
  });
  test("right and wrong add up to 1, and right rises with d-prime", () => {
    fc.assert(
      fc.property(fc.double({ min: 0, max: 25, noNaN: true }), (dPrime) => {
        expect(Math.abs(triangleRight(dPrime) + triangleWrong(dPrime) - 1)).toBeLessThan(4e-15);
        expect(triangleRight(dPrime + 0.1)).toBeGreaterThanOrEqual(triangleRight(dPrime) - 1e-15);
      }),
    );
  });

  test("at or below guessing d-prime is 0, never negative; all right has no finite one", () => {
    expect([0, 0.2, 1 / 3].map(triangleDPrime)).toEqual([0, 0, 0]);
    expect(triangleDPrime(1)).toBe(null);
    expect(triangleRight(Number.POSITIVE_INFINITY)).toBe(1);
  });
  test("a hair above guessing still has an answer", () => {
    expect(triangleDPrime(1 / 3 + 2 ** -54)).toBeLessThan(1e-6);
    expect(triangleDPrime(1 - 2 ** -53)).toBeGreaterThan(19);
  });
  test.each([-0.1, 1.1, Number.NaN])("a share of %d is refused", (share) => {
    expect(problemOf(() => triangleDPrime(share)).code).toBe("analysis/not-a-share");
    expect(problemOf(() => dPrimeOf("triangle", share)).code).toBe("analysis/not-a-share");
  });
  test.each([-1, Number.NaN])("a d-prime of %d is refused", (dPrime) => {
    expect(problemOf(() => discriminatorShareAt("triangle", dPrime)).code).toBe("analysis/not-a-distance");
  });
});
