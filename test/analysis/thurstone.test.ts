import fc from "fast-check";
import { describe, expect, test } from "vitest";
import * as z from "zod/mini";
import { choiceMethod, discriminatorShareAt, dPrimeOf } from "../../src/analysis/method.ts";
import {
  dPrimeFrom,
  duoTrio,
  tetrad,
  threeAlternative,
  triangle,
  triangleDPrime,
  triangleRight,
  triangleWrong,
  twoAfcDPrime,
  twoAfcRight,
  twoAlternative,
} from "../../src/analysis/thurstone.ts";
import { problemOf } from "../problem-of.ts";
import { fiftyDigits, highPrecision } from "./high-precision.ts";
import { digits, reference, relativeError } from "./reference.ts";

const number = z.number();
/** In the order of the columns of the table. */
const functions = {
  "paired-difference": twoAlternative,
  "three-alternative": threeAlternative,
  triangle,
  "duo-trio": duoTrio,
  tetrad,
};
const all = Object.values(functions);
const method = z.enum(["paired-difference", "three-alternative", "triangle", "duo-trio", "tetrad"]);
const toShare = reference(
  "dprime-to-share",
  z.object({
    rows: z.array(z.tuple([number, number, number, number, number, number])).check(z.minLength(61)),
    monteCarlo: z
      .array(z.object({ dprime: number, N: number, simulated: z.array(number).check(z.length(5)) }))
      .check(z.minLength(4)),
  }),
);
const toDPrime = reference(
  "share-to-dprime",
  z.object({ rows: z.array(z.tuple([method, number, number, number])).check(z.minLength(296)) }),
);
const integrals = reference(
  "psychometric",
  z.object({ rows: z.array(z.tuple([method, number, digits, digits, z.nullable(digits)])).check(z.minLength(65)) }),
);

describe("d-prime and share of right answers, five methods", () => {
  test.each(toShare.rows)(
    "d-prime %d gives %d, %d, %d, %d, %d right (paired, three-alternative, triangle, duo-trio, tetrad); computed outside with mpmath",
    (dPrime, ...right) => {
      for (const [at, each] of all.entries()) {
        expect(Math.abs(each.right(dPrime) - (right[at] ?? 0))).toBeLessThan(2e-15);
      }
    },
  );
  test.each(toDPrime.rows)(
    "%s: %d right gives d-prime %d and B %d; computed outside with mpmath",
    (name, right, dPrime, b) => {
      expect(Math.abs((choiceMethod(name).dPrime(right) ?? Number.NaN) - dPrime)).toBeLessThan(1e-10);
      expect(relativeError((right * (1 - right)) / choiceMethod(name).slope(dPrime) ** 2, b)).toBeLessThan(1e-12);
    },
  );
  test.each(integrals.rows)(
    "%s at %d: %d right, %d wrong, slope %s; the integrals by mpmath at 40 digits (make.py)",
    (name, dPrime, right, wrong, slope) => {
      const found = functions[name];
      expect(Math.abs(found.right(dPrime) - right)).toBeLessThan(2e-15);
      expect(relativeError(found.wrong(dPrime), wrong)).toBeLessThan(1e-12);
      if (slope !== null) expect(relativeError(found.slope(dPrime), slope)).toBeLessThan(1e-12);
    },
  );
  test.each(toShare.monteCarlo)("d-prime $dprime: $simulated right in $N trials of each decision rule", (run) => {
    run.simulated.forEach((simulated, at) => {
      const spread = Math.sqrt((simulated * (1 - simulated)) / run.N);
      expect(Math.abs((all[at]?.right(run.dprime) ?? 0) - simulated)).toBeLessThan(4 * spread);
    });
  });

  test.each(Object.entries(functions))("%s: there and back within 1e-10 from 0.001 to 10", (_, each) => {
    fc.assert(
      fc.property(fc.double({ min: 0.001, max: 10, noNaN: true }), (dPrime) => {
        const right = each.right(dPrime);
        // far out a share of right answers holds fewer digits of d-prime than a double has
        const tolerance = Math.max(1e-10, 1e-15 / each.wrong(dPrime));
        expect(Math.abs((dPrimeFrom(each, right) ?? Number.NaN) - dPrime)).toBeLessThan(tolerance);
      }),
    );
  });
  test.each(Object.entries(functions))("%s: right and wrong add up to 1, and right rises with d-prime", (_, each) => {
    fc.assert(
      fc.property(fc.double({ min: 0, max: 25, noNaN: true }), (dPrime) => {
        expect(Math.abs(each.right(dPrime) + each.wrong(dPrime) - 1)).toBeLessThan(4e-15);
        expect(each.right(dPrime + 0.1)).toBeGreaterThanOrEqual(each.right(dPrime) - 1e-15);
        expect(each.wrong(dPrime + 0.1)).toBeLessThan(each.wrong(dPrime));
      }),
    );
  });
  test.each(Object.entries(functions))("%s: at and below guessing 0, all right none, far off 1", (_, each) => {
    expect([0, each.guess / 2, each.guess].map((right) => dPrimeFrom(each, right))).toEqual([0, 0, 0]);
    expect(dPrimeFrom(each, 1)).toBe(null);
    expect(Math.abs(each.right(0) - each.guess)).toBeLessThan(1e-15);
    expect(each.right(Number.POSITIVE_INFINITY)).toBe(1);
    expect(dPrimeFrom(each, each.guess + 2 ** -54)).toBeLessThan(1e-6);
    expect(dPrimeFrom(each, 1 - 2 ** -53)).toBeGreaterThan(11);
  });
  test("at guessing the slope is zero for triangle, duo-trio and tetrad, and not for the alternatives: B is pi for a pair", () => {
    expect([triangle, duoTrio, tetrad].map(({ slope }) => slope(0))).toEqual([0, 0, 0]);
    expect(relativeError(0.25 / twoAlternative.slope(0) ** 2, Math.PI)).toBeLessThan(1e-14);
    expect(threeAlternative.slope(0)).toBeGreaterThan(0);
  });
});

describe("signed distance of a pair", () => {
  test("the share that picks the first is the complement of the share for the opposite distance", () => {
    fc.assert(
      fc.property(fc.double({ min: -20, max: 20, noNaN: true }), (dPrime) => {
        expect(twoAfcRight(dPrime)).toBe(twoAlternative.wrong(-dPrime));
        const back = twoAfcDPrime(twoAfcRight(-Math.abs(dPrime))) ?? Number.NaN;
        expect(Math.abs(back + Math.abs(dPrime))).toBeLessThan(1e-10);
      }),
    );
  });
  test("none at 0 and at 1; 0 at one half; opposite for complements", () => {
    expect([0, 1].map(twoAfcDPrime)).toEqual([null, null]);
    expect(twoAfcDPrime(0.5)).toBeCloseTo(0, 15);
    expect(twoAfcDPrime(0.25)).toBeCloseTo(-(twoAfcDPrime(0.75) ?? 0), 14);
  });
});

describe("triangle: d-prime and share of right answers", () => {
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
  test.each([-0.1, 1.1, Number.NaN])("a share of %d is refused", (share) => {
    expect(problemOf(() => triangleDPrime(share)).code).toBe("analysis/not-a-share");
    expect(problemOf(() => dPrimeOf("triangle", share)).code).toBe("analysis/not-a-share");
  });
  test.each([-1, Number.NaN])("a d-prime of %d is refused", (dPrime) => {
    expect(problemOf(() => discriminatorShareAt("triangle", dPrime)).code).toBe("analysis/not-a-distance");
  });
});
