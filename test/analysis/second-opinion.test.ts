import jStat from "jstat";
import { expect, test } from "vitest";
import { pointProbability, upperTail } from "../../src/analysis/binomial.ts";
import { normalLower } from "../../src/analysis/normal.ts";
import { lowerLimit, upperLimit } from "../../src/analysis/share-interval.ts";
import { relativeError } from "./reference.ts";

// jstat stops its incomplete beta at a step of 3e-7; 2e-7 is the worst it was seen off by in these ranges
const loose = 2e-7;

test("upper tails, n to 100: jstat's incomplete beta agrees within 2e-7", () => {
  for (let n = 1; n <= 100; n++) {
    for (let right = 1; right <= n; right++) {
      const other = jStat.ibeta(1 / 3, right, n - right + 1);
      expect(relativeError(upperTail(right, n, 1 / 3), other)).toBeLessThan(loose);
    }
  }
});

test("point probabilities, n to 100: jstat agrees within 1e-13", () => {
  for (let n = 1; n <= 100; n++) {
    for (let right = 0; right <= n; right++) {
      expect(relativeError(pointProbability(right, n, 1 / 3), jStat.binomial.pdf(right, n, 1 / 3))).toBeLessThan(1e-13);
    }
  }
});

test("95 % limits, n to 60: jstat's beta quantile agrees within 2e-7", () => {
  for (let n = 2; n <= 60; n++) {
    for (let right = 1; right < n; right++) {
      const low = jStat.beta.inv(0.025, right, n - right + 1);
      const high = jStat.beta.inv(0.975, right + 1, n - right);
      expect(relativeError(lowerLimit(right, n, 0.025), low)).toBeLessThan(loose);
      expect(relativeError(upperLimit(right, n, 0.025), high)).toBeLessThan(loose);
    }
  }
});

test("normal tails from -4 to 4: jstat agrees within 1e-11", () => {
  for (let x = -4; x <= 4; x += 0.05)
    expect(relativeError(normalLower(x), jStat.normal.cdf(x, 0, 1))).toBeLessThan(1e-11);
});
