import { expect, test } from "vitest";
import { criticalNumber } from "../../src/analysis/binomial.ts";
import { discriminatorShareAt } from "../../src/analysis/method.ts";
import { power } from "../../src/analysis/power.ts";
import { problemOf } from "../problem-of.ts";
import { highPrecision } from "./high-precision.ts";
import { relativeError } from "./reference.ts";

test.each(highPrecision.power.rows)(
  "%d people, alpha %d, pd %d: needs %s, power %d; mpmath at 60 digits, critical number by fractions",
  (people, alpha, share, needed, truth) => {
    expect(criticalNumber(people, 1 / 3, alpha)).toBe(needed);
    expect(relativeError(power("triangle", people, alpha, share), truth)).toBeLessThan(1e-12);
  },
);

test("pd 0.3, alpha 0.05: 24, 30, 36, 42 people give 0.55, 0.71, 0.72, 0.82; R 4.2.2 pbinom", () => {
  const found = [24, 30, 36, 42].map((people) => power("triangle", people, 0.05, 0.3).toFixed(2));
  expect(found).toEqual(["0.55", "0.71", "0.72", "0.82"]);
});

test.each([
  [1, 220],
  [1.5, 57],
  [2, 23],
])(
  "d-prime %d: %d people and the five sizes after reach 80 %, the size before does not; computed outside",
  (dPrime, people) => {
    const share = discriminatorShareAt("triangle", dPrime);
    const at = (size: number) => power("triangle", size, 0.05, share);
    for (let more = 0; more < 6; more++) expect(at(people + more)).toBeGreaterThanOrEqual(0.8);
    expect(at(people - 1)).toBeLessThan(0.8);
  },
);

test("nobody tells: the power is the risk really spent; everybody tells: it is 1", () => {
  expect(power("triangle", 24, 0.05, 0)).toBeCloseTo(0.0284411280954681, 14);
  expect(power("triangle", 24, 0.05, 1)).toBe(1);
});

test("a panel too small for any verdict finds nothing", () => {
  expect(power("triangle", 2, 0.05, 1)).toBe(0);
});

test("a method that is not computed yet, and one that nobody knows, are told apart", () => {
  expect(problemOf(() => power("ranking", 24, 0.05, 0.3)).code).toBe("analysis/method-not-yet");
  expect(problemOf(() => power("square", 24, 0.05, 0.3)).code).toBe("analysis/unknown-method");
});
