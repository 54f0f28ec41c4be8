import fc from "fast-check";
import { describe, expect, test } from "vitest";
import * as z from "zod/mini";
import { betaBinomialPoint } from "../../src/analysis/beta-binomial.ts";
import { pointProbability } from "../../src/analysis/binomial.ts";
import { problemOf } from "../problem-of.ts";
import { reference, relativeError } from "./reference.ts";

const { rows } = reference(
  "beta-binomial-chance-corrected",
  z.object({
    rows: z.array(z.tuple([z.number(), z.number(), z.number(), z.number(), z.array(z.number())])).check(z.minLength(8)),
  }),
);

test.each(rows)(
  "%i answers, mean %s, overdispersion %s, one of %i by chance; formula seen, numbers by mpmath in two ways",
  (of, mean, overdispersion, choices, probabilities) => {
    expect(probabilities).toHaveLength(of + 1);
    probabilities.forEach((probability, right) => {
      const found = betaBinomialPoint({ right, of }, { mean, overdispersion, guess: 1 / choices });
      // as printed, to 15 places
      expect(Math.abs(found - probability)).toBeLessThan(2e-15);
    });
  },
);

describe("without guessing", () => {
  test("30 answers, a = 5.5, b = 11: P(10) and P(at least 15), mpmath", () => {
    // a + b = 16.5 = 1 / gamma - 1
    const spread = { mean: 5.5 / 16.5, overdispersion: 1 / 17.5, guess: 0 };
    expect(relativeError(betaBinomialPoint({ right: 10, of: 30 }, spread), 0.0901166019221111)).toBeLessThan(1e-13);
    let upper = 0;
    for (let right = 15; right <= 30; right++) upper += betaBinomialPoint({ right, of: 30 }, spread);
    expect(relativeError(upper, 0.149535785522457)).toBeLessThan(1e-13);
  });
});

describe("what holds for any parameters", () => {
  const share = fc.integer({ min: 0, max: 1000 }).map((parts) => parts / 1000);
  const guess = fc.constantFrom(0, 1 / 3, 1 / 2);
  const of = fc.integer({ min: 1, max: 40 });

  test("probabilities add up to 1, and the mean right is what it says", () => {
    fc.assert(
      fc.property(of, share, share, guess, (n, mean, overdispersion, chance) => {
        let [sum, expected] = [0, 0];
        for (let right = 0; right <= n; right++) {
          const point = betaBinomialPoint({ right, of: n }, { mean, overdispersion, guess: chance });
          sum += point;
          expected += right * point;
        }
        expect(Math.abs(sum - 1)).toBeLessThan(1e-12);
        expect(Math.abs(expected - n * (chance + (1 - chance) * mean))).toBeLessThan(1e-10);
      }),
    );
  });
  test("no spread is the binomial; all spread is all or nothing", () => {
    fc.assert(
      fc.property(of, share, guess, (n, mean, chance) => {
        for (let right = 0; right <= n; right++) {
          const plain = pointProbability(right, n, chance + (1 - chance) * mean);
          const none = betaBinomialPoint({ right, of: n }, { mean, overdispersion: 0, guess: chance });
          expect(Math.abs(none - plain)).toBeLessThan(1e-13);
          const all = betaBinomialPoint({ right, of: n }, { mean, overdispersion: 1, guess: chance });
          const tells = right === n ? mean : 0;
          expect(Math.abs(all - (tells + (1 - mean) * pointProbability(right, n, chance)))).toBeLessThan(1e-13);
        }
      }),
    );
  });
});

test("more right than asked, or a mean above 1, is refused", () => {
  const spread = { mean: 0.5, overdispersion: 0.5, guess: 0 };
  expect(problemOf(() => betaBinomialPoint({ right: 4, of: 3 }, spread)).code).toBe("analysis/not-a-count");
  expect(problemOf(() => betaBinomialPoint({ right: 1, of: 3 }, { ...spread, mean: 1.1 })).code).toBe(
    "analysis/not-a-share",
  );
});
