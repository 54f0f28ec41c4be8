import { describe, expect, test } from "vitest";
import * as z from "zod/mini";
import { criticalNumber, upperTail } from "../../src/analysis/binomial.ts";
import { fisherExactUpper } from "../../src/analysis/fisher-exact.ts";
import { choiceMethod } from "../../src/analysis/method.ts";
import { power } from "../../src/analysis/power.ts";
import {
  exactInterval,
  likelihoodInterval,
  lowerLimit,
  scoreInterval,
  upperLimit,
} from "../../src/analysis/share-interval.ts";
import { reference, relativeError } from "./reference.ts";

const number = z.number();
const part = <T>(row: z.ZodMiniType<T>, least: number) => z.object({ rows: z.array(row).check(z.minLength(least)) });
const ends = z.tuple([number, number, number, number, number]);
const byR = reference(
  "choice-by-r",
  z.object({
    tests: part(z.tuple([number, number, number, number, number, number, number, number, number]), 33),
    scores: part(ends, 33),
    profiles: part(ends, 27),
    distances: part(z.tuple([z.string(), number, number]), 20),
    powers: part(z.tuple([number, number, number, number, number, number]), 4),
    groups: part(ends, 6),
  }),
);

/** R's own beta quantiles and root finder are good to about this. */
const near = 1e-9;
const close = (got: number, truth: number) => expect(relativeError(got, truth)).toBeLessThan(near);

describe("sampled cases by R 4.2.2 (test/reference/choice-by-r/make.R)", () => {
  test.each(byR.tests.rows)(
    "binom.test: %d of %d against %d at level %d",
    (correct, n, p0, level, p, low, high, lower, upper) => {
      expect(relativeError(upperTail(correct, n, p0), p)).toBeLessThan(1e-12);
      const exact = exactInterval(correct, n, level);
      close(exact.low, low);
      close(exact.high, high);
      close(lowerLimit(correct, n, 1 - level), lower);
      close(upperLimit(correct, n, 1 - level), upper);
    },
  );
  test.each(byR.scores.rows)("prop.test without correction: %d of %d at level %d", (correct, n, level, low, high) => {
    const score = scoreInterval(correct, n, level);
    // R's end at 0 or 1 carries a rounding error; ours is the end itself
    expect(Math.abs(score.low - low)).toBeLessThan(1e-12);
    expect(Math.abs(score.high - high)).toBeLessThan(1e-12);
  });
  test.each(byR.profiles.rows)("likelihood by uniroot: %d of %d at level %d", (correct, n, level, low, high) => {
    const profile = likelihoodInterval(correct, n, level);
    close(profile.low, low);
    close(profile.high, high);
  });
  test.each(byR.distances.rows)("d-prime by uniroot, %s: %d right is %d", (method, right, dPrime) => {
    expect(Math.abs((choiceMethod(method).dPrime(right) ?? Number.NaN) - dPrime)).toBeLessThan(1e-9);
  });
  test.each(byR.powers.rows)("qbinom, pbinom: %d people, p0 %d, alpha %d, share %d: %d right", (...row) => {
    const [n, p0, alpha, share, needed, truth] = row;
    expect(criticalNumber(n, p0, alpha)).toBe(needed);
    close(power(p0 === 0.5 ? "duo-trio" : "triangle", n, alpha, share), truth);
  });
  test.each(byR.groups.rows)("fisher.test: %d of %d against %d of %d", (told, first, other, second, p) => {
    close(fisherExactUpper(told, first, other, second), p);
  });
});
