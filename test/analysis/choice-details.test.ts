import { describe, expect, test } from "vitest";
import { lowerTail } from "../../src/analysis/binomial.ts";
import { type ChoiceCounts, choiceStatistics } from "../../src/analysis/choice.ts";
import { choiceMethod } from "../../src/analysis/method.ts";
import { choiceStatistics as schema } from "../../src/model/result-choice.ts";
import { problemOf } from "../problem-of.ts";
import { relativeError } from "./reference.ts";

type Case = Pick<ChoiceCounts, "method" | "correct" | "judgments"> & Partial<ChoiceCounts>;
const difference = (counts: Case) => choiceStatistics({ alpha: 0.05, ...counts, goal: "difference" });

describe("the demo's choice tests (exact binomial and usual integrals, computed outside, as many digits as printed)", () => {
  test.each([
    ["triangle", 14, 24, 13, 0.0103, 0.375, 1.89],
    ["tetrad", 10, 18, 10, 0.0433, 0.33, 1.21],
    ["paired-difference", 18, 24, 17, 0.0113, 0.5, 0.95],
    ["three-alternative", 13, 24, 13, 0.0284, 0.3125, 0.69],
  ] as const)(
    "%s, %d of %d: needs %d; p %d, pd %d, d-prime %d",
    (method, correct, judgments, needed, p, pd, dPrime) => {
      const found = difference({ method, correct, judgments });
      expect(found).toMatchObject({ criticalNumber: needed, outcome: "reached" });
      expect(Math.abs(found.pValue - p)).toBeLessThanOrEqual(0.00005);
      expect(Math.abs((found.discriminatorShare.estimate ?? 0) - pd)).toBeLessThanOrEqual(0.005);
      expect(Math.abs((found.dPrime.estimate ?? 0) - dPrime)).toBeLessThanOrEqual(0.005);
    },
  );
  test("duo-trio, 12 people three times: 22 of 36, needs 24, p 0.121; no bounds from pooled answers", () => {
    const found = difference({ method: "duo-trio", correct: 22, judgments: 36, people: 12 });
    expect(found).toMatchObject({ criticalNumber: 24, outcome: "not-reached", dPrimeStandardError: null });
    expect(Math.abs(found.pValue - 0.121)).toBeLessThanOrEqual(0.0005);
    for (const each of [found.correctShareScore, found.discriminatorShareScore, found.dPrimeProfile, found.dPrime]) {
      expect(each).toMatchObject({ low: null, high: null, kind: "none" });
    }
  });
});

describe("standard error and profile interval of d-prime", () => {
  // B from the table of the method at that share (test/reference/share-to-dprime, computed outside)
  test.each([
    ["paired-difference", 3, 4, 3.71353493822054],
    ["triangle", 6, 10, 6.17934983417586],
  ] as const)("%s, %d of %d: B over n, B of the table", (method, correct, judgments, b) => {
    const found = difference({ method, correct, judgments }).dPrimeStandardError ?? Number.NaN;
    expect(relativeError(found * found * judgments, b)).toBeLessThan(1e-12);
  });
  test.each(["triangle", "duo-trio", "tetrad"] as const)(
    "%s at guessing: the slope is zero, no standard error",
    (method) => {
      const { choices } = choiceMethod(method);
      const found = difference({ method, correct: 12, judgments: 12 * choices });
      expect(found.dPrimeStandardError).toBeNull();
      expect(found.dPrimeProfile).toMatchObject({ estimate: 0, low: 0 });
      expect(found.dPrimeProfile.high).toBeGreaterThan(0);
    },
  );
  test("paired difference at guessing: the slope is not zero, and B is pi", () => {
    const found = difference({ method: "paired-difference", correct: 18, judgments: 36 }).dPrimeStandardError;
    expect(relativeError((found ?? 0) ** 2 * 36, Math.PI)).toBeLessThan(1e-12);
  });
  test("below guessing: 0 from the lowest there is; likelihoods are held against that of 0", () => {
    const found = difference({ method: "paired-difference", correct: 9, judgments: 24 });
    expect(found.dPrimeProfile).toMatchObject({ estimate: 0, low: 0, kind: "two-sided" });
    expect(found.dPrimeStandardError).toBeNull();
    const share = choiceMethod("paired-difference").rightShare(found.dPrimeProfile.high ?? 0);
    const fall = 9 * Math.log(0.5 / share) + 15 * Math.log(0.5 / (1 - share));
    expect(Math.abs(2 * fall - 3.841458820694124)).toBeLessThan(1e-9); // R: qchisq(0.95, 1)
  });
  test("all right: no estimate, no upper end, a lower end where the likelihood has fallen by as much as allowed", () => {
    const { dPrimeProfile, dPrimeStandardError, dPrime } = difference({ method: "tetrad", correct: 12, judgments: 12 });
    expect(dPrimeProfile).toMatchObject({ estimate: null, high: null });
    expect([dPrimeStandardError, dPrime.estimate]).toEqual([null, null]);
    const share = choiceMethod("tetrad").rightShare(dPrimeProfile.low ?? 0);
    expect(Math.abs(-24 * Math.log(share) - 3.841458820694124)).toBeLessThan(1e-9);
  });
  test("no answers at all: nothing to estimate from, and every share is possible", () => {
    const found = difference({ method: "duo-trio", correct: 0, judgments: 0 });
    expect(found.correctShareScore).toMatchObject({ estimate: null, low: 0, high: 1 });
    expect(found.dPrimeProfile).toMatchObject({ estimate: null, low: 0, high: null });
    expect(schema.safeParse(found).success).toBe(true);
  });
  test("the confidence is the one asked for, and wider when it is higher", () => {
    const at = (confidence: number) => difference({ method: "triangle", correct: 14, judgments: 24, confidence });
    const [narrow, wide] = [at(0.8), at(0.99)];
    for (const name of ["correctShare", "correctShareScore", "discriminatorShareScore", "dPrimeProfile"] as const) {
      expect(narrow[name].confidence).toBe(0.8);
      expect(wide[name].low ?? 9).toBeLessThanOrEqual(narrow[name].low ?? 0);
      expect(wide[name].high ?? 0).toBeGreaterThan(narrow[name].high ?? 9);
    }
    // the bounds of the test go by its risk, not by the confidence
    expect(narrow.dPrime).toEqual(wide.dPrime);
  });
});

describe("what the plan sought or limited as a d-prime", () => {
  test("the power is that of the share that goes with it", () => {
    const sought = { discriminatorShare: 0.9, dPrime: 2, people: 23 };
    const found = difference({ method: "triangle", correct: 14, judgments: 23, sought }).power;
    // 23 is the first size with 80 % at d-prime 2 (computed outside)
    expect(found).toMatchObject({ dPrime: 2, people: 23 });
    expect(found?.power).toBeGreaterThanOrEqual(0.8);
    expect(found?.power).toBeLessThan(0.87);
    // mpmath at 25 digits, rounded
    expect(found?.discriminatorShare).toBeCloseTo((0.604806932772189 - 1 / 3) * 1.5, 13);
  });
  test("answers planned count where people have several", () => {
    const sought = { discriminatorShare: 0.3, people: 12 };
    const several = difference({
      method: "triangle",
      correct: 9,
      judgments: 24,
      people: 12,
      sought: { ...sought, judgments: 24 },
    });
    // 24 judgments at pd 0.3: R 4.2.2 pbinom
    expect(several.power).toMatchObject({ people: 12 });
    expect(several.power?.power).toBeCloseTo(0.5504751324, 9);
  });
  const likeness = (limit: Extract<ChoiceCounts, { goal: "similarity" }>["limit"], people?: number) =>
    choiceStatistics({
      method: "three-alternative",
      goal: "similarity",
      alpha: 0.05,
      correct: 20,
      judgments: 60,
      limit,
      ...(people === undefined ? {} : { people }),
      sought: { discriminatorShare: 0.3, people: 60 },
    });
  test("a limit of d-prime 1 is held against 0.6337 right, whatever the share beside it says", () => {
    const found = likeness({ discriminatorShare: 0.01, dPrime: 1, beta: 0.05 });
    const share = 0.63370204577808; // mpmath at 25 digits, rounded
    expect(found.limit?.correctShare).toBeCloseTo(share, 14);
    expect(found.limit).toMatchObject({ dPrime: 1, fixedAs: "d-prime" });
    expect(relativeError(found.pValue, lowerTail(20, 60, share))).toBeLessThan(1e-11);
    expect(found.outcome).toBe("within-limit");
    expect(found.dPrime.high).toBeLessThan(1);
    expect(found.power?.dPrime).toBe(0);
  });
  test("a share is the limit where no d-prime is named; 0 and below are no limits", () => {
    expect(likeness({ discriminatorShare: 0.3, beta: 0.05 }).limit).toMatchObject({ fixedAs: "share" });
    expect(problemOf(() => likeness({ discriminatorShare: 0.3, dPrime: 0, beta: 0.05 })).code).toBe(
      "analysis/not-a-share",
    );
    expect(problemOf(() => likeness({ discriminatorShare: 0.3, dPrime: -1, beta: 0.05 })).code).toBe(
      "analysis/not-a-distance",
    );
  });
  test("several answers a person are refused for likeness, unless a model of their spread says p and bound", () => {
    const limit = { discriminatorShare: 0.3, beta: 0.05 };
    expect(problemOf(() => likeness(limit, 20)).code).toBe("analysis/not-a-count");
    const share = { estimate: 0.02, low: null, high: 0.2, confidence: 0.95, kind: "upper" as const };
    const found = likeness({ ...limit, bySpread: { pValue: 0.01, discriminatorShare: share } }, 20);
    expect(found).toMatchObject({ pValue: 0.01, criticalNumber: null, outcome: "within-limit", people: 20 });
    expect(found.discriminatorShare).toEqual(share);
    const right = choiceMethod("three-alternative").rightShare(found.dPrime.high ?? 0);
    expect(right).toBeCloseTo(1 / 3 + (2 / 3) * 0.2, 12);
  });
});
