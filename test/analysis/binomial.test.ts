import fc from "fast-check";
import { describe, expect, test } from "vitest";
import {
  logLowerTail,
  logPointProbability,
  logUpperTail,
  lowerTail,
  pointProbability,
  quantile,
  upperTail,
} from "../../src/analysis/binomial.ts";
import { problemOf } from "../problem-of.ts";
import { fiftyDigits, highPrecision } from "./high-precision.ts";
import { relativeError } from "./reference.ts";

describe("binomial tails against values computed outside", () => {
  const places = highPrecision.tails.rows.map(([right, n, p, lower, upper]) => ({ right, n, p, lower, upper }));

  test("849 places, n 1 to 100 000, both tails within 1e-12 down to 1e-300; mpmath at 60 digits", () => {
    expect(places).toHaveLength(849);
    const off = places.flatMap(({ right, n, p, lower, upper }) => {
      const errors = [
        lower === null ? 0 : relativeError(lowerTail(right, n, p), lower),
        upper === null ? 0 : relativeError(upperTail(right, n, p), upper),
      ];
      return Math.max(...errors) > 1e-12 ? [{ right, n, p, errors }] : [];
    });
    expect(off).toEqual([]);
  });

  test.each(fiftyDigits.upperTail)("upper tail at %d of %d, p %d: %d, mpmath at 50 digits", (right, n, p, truth) => {
    expect(relativeError(upperTail(right, n, p), truth)).toBeLessThan(1e-12);
  });
  test.each(fiftyDigits.lowerTail)("lower tail at %d of %d, p %d: %d, mpmath at 50 digits", (right, n, p, truth) => {
    expect(relativeError(lowerTail(right, n, p), truth)).toBeLessThan(1e-12);
  });
  test.each(fiftyDigits.pointProbability)("%d of %d, p %d: %d, mpmath at 50 digits", (right, n, p, truth) => {
    expect(relativeError(pointProbability(right, n, p), truth)).toBeLessThan(1e-12);
  });

  test("13 or more of 24 by guessing is the exact fraction, summed in whole numbers", () => {
    let ways = 0n;
    for (let right = 13n; right <= 24n; right++) ways += choose(24n, right) * 2n ** (24n - right);
    // both counts fit a double exactly or round once
    expect(relativeError(upperTail(13, 24, 1 / 3), Number(ways) / Number(3n ** 24n))).toBeLessThan(1e-14);
  });

  test("tails too small for a double keep their logarithm: 2000 of 2000 by guessing is -2000 log 3", () => {
    expect(upperTail(2000, 2000, 1 / 3)).toBe(0);
    expect(relativeError(logUpperTail(2000, 2000, 1 / 3), -2000 * Math.log(3))).toBeLessThan(1e-14);
    expect(relativeError(logLowerTail(0, 2000, 1 / 3), 2000 * Math.log(2 / 3))).toBeLessThan(1e-13);
  });
});

describe("binomial shape", () => {
  const place = fc
    .record({ n: fc.integer({ min: 1, max: 100_000 }), p: fc.double({ min: 1e-6, max: 1 - 1e-6, noNaN: true }) })
    .chain(({ n, p }) => fc.record({ n: fc.constant(n), p: fc.constant(p), right: fc.integer({ min: 0, max: n }) }));

  test("P(X <= k) and P(X >= k + 1) add up to 1 within 4e-16", () => {
    fc.assert(
      fc.property(place, ({ right, n, p }) => {
        const upper = right === n ? 0 : upperTail(right + 1, n, p);
        expect(Math.abs(lowerTail(right, n, p) + upper - 1)).toBeLessThanOrEqual(4e-16);
      }),
    );
  });

  test("the upper tail never rises with the count and never falls with p", () => {
    fc.assert(
      fc.property(place, ({ right, n, p }) => {
        const here = upperTail(right, n, p);
        const slack = 1 + 1e-13;
        if (right < n) expect(upperTail(right + 1, n, p)).toBeLessThanOrEqual(here * slack);
        expect(upperTail(right, n, p + (1 - p) / 10)).toBeGreaterThanOrEqual(here / slack);
      }),
    );
  });

  test("counting wrong answers instead of right ones mirrors the tails, n to 300", () => {
    fc.assert(
      // p in 1024ths, so that 1 - p is exact
      fc.property(fc.integer({ min: 1, max: 300 }), fc.integer({ min: 1, max: 1023 }), fc.nat(), (n, part, pick) => {
        const [right, p] = [pick % (n + 1), part / 1024];
        expect(relativeError(upperTail(right, n, p), lowerTail(n - right, n, 1 - p))).toBeLessThan(2e-12);
      }),
    );
  });

  test("the point probabilities of 1 to 200 answers add up to 1", () => {
    for (let n = 1; n <= 200; n++) {
      const total = Array.from({ length: n + 1 }, (_, right) => pointProbability(right, n, 1 / 3)).reduce(
        (a, b) => a + b,
      );
      expect(Math.abs(total - 1)).toBeLessThan(1e-13);
    }
  });

  test("the quantile is the first count whose lower tail reaches the share", () => {
    fc.assert(
      fc.property(place, fc.double({ min: 0.001, max: 0.999, noNaN: true }), ({ n, p }, share) => {
        const right = quantile(share, n, p);
        expect(lowerTail(right, n, p)).toBeGreaterThanOrEqual(share);
        if (right > 0) expect(lowerTail(right - 1, n, p)).toBeLessThan(share);
      }),
    );
  });
});

describe("binomial edges", () => {
  test("no answers: nothing right is certain", () => {
    expect([upperTail(0, 0, 1 / 3), lowerTail(0, 0, 1 / 3), pointProbability(0, 0, 1 / 3)]).toEqual([1, 1, 1]);
  });
  test("p 0 and p 1 leave one possible count", () => {
    expect([upperTail(1, 5, 0), lowerTail(0, 5, 0), upperTail(5, 5, 1), lowerTail(4, 5, 1)]).toEqual([0, 1, 1, 0]);
    expect(pointProbability(2, 5, 1)).toBe(0);
    expect(logPointProbability(2, 5, 0)).toBe(Number.NEGATIVE_INFINITY);
  });
  test.each([
    [25, 24, "correct"],
    [-1, 24, "correct"],
    [2.5, 24, "correct"],
    [Number.NaN, 24, "correct"],
    [0, 100_001, "judgments"],
  ])("%d right of %d is refused and the field is named", (right, n, name) => {
    expect(problemOf(() => upperTail(right, n, 1 / 3))).toMatchObject({
      code: "analysis/not-a-count",
      details: { name },
    });
  });
  test.each([-0.1, 1.1, Number.NaN])("probability %d is refused", (p) => {
    expect(problemOf(() => lowerTail(1, 2, p)).code).toBe("analysis/not-a-share");
  });
});

function choose(n: bigint, k: bigint): bigint {
  let ways = 1n;
  for (let i = 1n; i <= k; i++) ways = (ways * (n - k + i)) / i;
  return ways;
}
