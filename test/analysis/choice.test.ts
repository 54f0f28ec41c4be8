import fc from "fast-check";
import { describe, expect, test } from "vitest";
import * as z from "zod/mini";
import { criticalNumber, lowerTail } from "../../src/analysis/binomial.ts";
import { choiceStatistics } from "../../src/analysis/choice.ts";
import type { Method } from "../../src/model/method.ts";
import { choiceStatistics as schema } from "../../src/model/result-choice.ts";
import { problemOf } from "../problem-of.ts";
import { reference, relativeError } from "./reference.ts";

const triangle = (correct: number, judgments: number, alpha = 0.05) =>
  choiceStatistics({ method: "triangle", goal: "difference", alpha, correct, judgments });

const above = ({ low }: { low: number | null }): boolean => low !== null && low > 0;

const examples = reference(
  "triangle-worked-examples",
  z.object({
    rows: z.array(z.object({ name: z.string(), computed: z.record(z.string(), z.unknown()) })).check(z.minLength(3)),
  }),
).rows;
const computed = (name: string) => examples.find((example) => example.name.startsWith(name))?.computed ?? {};

describe("worked examples of the triangle", () => {
  test("25 of 50: p = 0.010826684448815991, 23 needed; Byer & Abrams 1953 as quoted from Hollander & Wolfe 2.2", () => {
    const example = computed("Byer & Abrams");
    const found = triangle(25, 50);
    expect(example.exactUpperTail).toBe(0.010826684448815991);
    expect(relativeError(found.pValue, 0.010826684448815991)).toBeLessThan(1e-13);
    expect(found.criticalNumber).toBe(example.minCorrect_0_05);
    expect(found.criticalNumber).toBe(23);
    expect(found.outcome).toBe("reached");
  });

  test("15 and 14 of 30: p = 0.0435 and 0.0898, so 15 are needed; blog of 2013-01-06, seen, its sentence corrected", () => {
    const example = computed("Quantile off by one");
    expect(triangle(15, 30).pValue).toBeCloseTo(Number(example.P_ge_15), 14);
    expect(triangle(14, 30).pValue).toBeCloseTo(Number(example.P_ge_14), 14);
    expect([triangle(15, 30).outcome, triangle(14, 30).outcome]).toEqual(["reached", "not-reached"]);
  });

  test("29 of 108, below chance: p = 0.939, share who can tell and d-prime are 0; replicated pancake triangles, seen", () => {
    const found = triangle(29, 108);
    expect(found.pValue).toBeCloseTo(Number(computed("Replicated triangle").exactUpperTail), 13);
    expect(found.discriminatorShare).toMatchObject({ estimate: 0, low: 0 });
    expect(found.dPrime).toMatchObject({ estimate: 0, low: 0 });
    expect(found.outcome).toBe("not-reached"); // its lower tail is 0.0906
  });

  test("14 of 24, the kitchen's first study: needs 13, p 0.0103, pd 0.375, d-prime 1.89; mpmath at 30 digits", () => {
    const found = triangle(14, 24);
    expect(found).toMatchObject({ criticalNumber: 13, expectedByGuessing: 8, outcome: "reached", sides: "one" });
    expect(relativeError(found.pValue, 0.010340673816870677)).toBeLessThan(1e-13);
    expect(found.chanceAtCritical).toBeCloseTo(0.0284411280954681, 14);
    expect(found.discriminatorShare.estimate).toBeCloseTo(0.375, 15);
    expect(found.dPrime.estimate).toBeCloseTo(1.8912350567275045, 10);
    // one-sided at 95 %, to go with the test
    expect(found.discriminatorShare).toMatchObject({ high: null, kind: "lower", confidence: 0.95 });
    expect(found.discriminatorShare.low).toBeCloseTo(0.095177602257867, 12);
    expect(found.dPrime.low).toBeCloseTo(0.856290837043003, 10);
    // two-sided 95 %: pd 0.05 to 0.67
    const share = (right: number) => (right - 1 / 3) * 1.5;
    expect(share(found.correctShare.low ?? 0)).toBeCloseTo(0.049645968484544, 12);
    expect(share(found.correctShare.high ?? 0)).toBeCloseTo(0.668354641979982, 12);
  });

  test("9 of 9: p = 1/19683", () => {
    expect(relativeError(triangle(9, 9).pValue, 1 / 19683)).toBeLessThan(1e-14);
  });
});

/** Counts where a verdict could turn: none, all, and two to either side of where each tail of guessing reaches alpha. */
function nearEitherRegion(judgments: number, alpha: number): number[] {
  const above = criticalNumber(judgments, 1 / 3, alpha) ?? judgments + 1;
  let below = 0;
  while (lowerTail(below, judgments, 1 / 3) <= alpha) below++;
  const near = [above, below].flatMap((edge) => [-2, -1, 0, 1].map((step) => edge + step));
  return [...new Set([0, judgments, ...near])].filter((count) => count >= 0 && count <= judgments);
}

describe("test and bound say one thing", () => {
  test.each([0.2, 0.1, 0.05, 0.01, 0.001])(
    "1 to 120 judgments, alpha %d: the bounds lie above chance if and only if p <= alpha",
    (alpha) => {
      for (let judgments = 1; judgments <= 120; judgments++) {
        const needed = criticalNumber(judgments, 1 / 3, alpha);
        const either = needed === null ? [judgments] : [needed - 1, needed];
        for (const correct of either) {
          const found = triangle(correct, judgments, alpha);
          const reached = found.pValue <= alpha;
          expect([above(found.discriminatorShare), above(found.dPrime)]).toEqual([reached, reached]);
          expect(reached).toBe(correct === needed);
        }
      }
    },
  );

  test.each([0.2, 0.1, 0.05, 0.01, 0.001])(
    "1 to 60 judgments, alpha %d: the range at 1 - 2 alpha leaves guessing out if and only if p <= alpha",
    (alpha) => {
      for (let judgments = 1; judgments <= 60; judgments++) {
        for (const correct of nearEitherRegion(judgments, alpha)) {
          const { discriminatorShareRange: range, pValue } = triangle(correct, judgments, alpha);
          expect(above(range)).toBe(pValue <= alpha);
          // the other side: no share above 0 fits when even the count's lower tail of guessing is alpha or less
          expect((range.high ?? 1) > 0).toBe(lowerTail(correct, judgments, 1 / 3) > alpha);
          expect(range.confidence).toBe(1 - 2 * alpha);
        }
      }
    },
  );

  test("any counts and risk: bound, critical number, p and outcome agree, and the document fits its schema", () => {
    const counts = fc
      .integer({ min: 0, max: 3000 })
      .chain((n) => fc.record({ n: fc.constant(n), correct: fc.integer({ min: 0, max: n }) }));
    fc.assert(
      fc.property(counts, fc.double({ min: 1e-4, max: 0.5, noNaN: true }), ({ n, correct }, alpha) => {
        const found = triangle(correct, n, alpha);
        expect(z.safeParse(schema, found).success).toBe(true);
        const reached = found.pValue <= alpha;
        expect(found.criticalNumber !== null && correct >= found.criticalNumber).toBe(reached);
        if (above(found.discriminatorShare)) expect(reached).toBe(true);
        if (found.pValue < alpha * (1 - 1e-9)) expect(found.discriminatorShare.low).toBeGreaterThan(0);
        expect(found.outcome === "reached").toBe(reached && n >= 6);
        expect(found.guessingPanels.reduce((a, b) => a + b, 0)).toBe(100);
        if (found.chanceAtCritical !== null) expect(found.chanceAtCritical).toBeLessThanOrEqual(alpha);
      }),
      { numRuns: 60 },
    );
  });

  test("more right answers never lower the estimates or bounds", () => {
    let before = triangle(0, 36);
    for (let correct = 1; correct <= 36; correct++) {
      const here = triangle(correct, 36);
      expect(here.pValue).toBeLessThan(before.pValue);
      expect(here.dPrime.low).toBeGreaterThanOrEqual(before.dPrime.low ?? 99);
      expect(here.discriminatorShare.estimate).toBeGreaterThanOrEqual(before.discriminatorShare.estimate ?? 1);
      before = here;
    }
  });
});

describe("people who answer more than once", () => {
  const repeated = (correct: number, judgments: number, people: number) =>
    choiceStatistics({ method: "triangle", goal: "difference", alpha: 0.05, correct, judgments, people });

  test("pooled answers keep p, the number needed and the estimates, and have no bound of any kind", () => {
    const [pooled, single] = [repeated(14, 24, 12), triangle(14, 24)];
    expect([pooled.pValue, pooled.criticalNumber, pooled.outcome]).toEqual([single.pValue, 13, "reached"]);
    for (const name of ["correctShare", "discriminatorShare", "discriminatorShareRange", "dPrime"] as const) {
      expect(pooled[name]).toMatchObject({ estimate: single[name].estimate, low: null, high: null, kind: "none" });
    }
    expect(z.safeParse(schema, pooled).success).toBe(true);
  });
  test("24 answers of 5 people are too few people for a verdict, of 6 they are not", () => {
    expect([repeated(14, 24, 5).outcome, repeated(14, 24, 6).outcome]).toEqual(["too-few", "reached"]);
  });
  test("9 of 9 by one person is a verdict about that person: p = 1/19683", () => {
    const found = repeated(9, 9, 1);
    expect(found.outcome).toBe("reached");
    expect(relativeError(found.pValue, 1 / 19683)).toBeLessThan(1e-14);
    expect(found.discriminatorShare).toMatchObject({ estimate: 1, low: null, kind: "none" });
  });
  test("one person with 5 answers has none", () => {
    expect(repeated(5, 5, 1).outcome).toBe("too-few");
  });
});

describe("edges of the choice statistics", () => {
  test("all right: no finite d-prime estimate, but a finite bound", () => {
    const found = triangle(24, 24);
    expect(found.dPrime.estimate).toBe(null);
    expect(found.dPrime.low).toBeGreaterThan(3);
    expect(Number.isFinite(found.dPrime.low)).toBe(true);
    expect(found.discriminatorShare.estimate).toBe(1);
    expect(found.correctShare.high).toBe(1);
  });

  test("nobody answered: no estimates, p = 1, too few", () => {
    const found = triangle(0, 0);
    expect(found).toMatchObject({ pValue: 1, outcome: "too-few", criticalNumber: null, chanceAtCritical: null });
    expect([found.correctShare.estimate, found.discriminatorShare.estimate, found.dPrime.estimate]).toEqual([
      null,
      null,
      null,
    ]);
    expect(found.guessingPanels).toEqual([100]);
  });

  test("5 of 5 is too few for a verdict, 6 of 6 is not", () => {
    expect([triangle(5, 5).outcome, triangle(6, 6).outcome]).toEqual(["too-few", "reached"]);
  });

  test("24 answers: 3 right are far below chance (lower tail 0.0199), 4 are not (0.0594)", () => {
    // tails as exact fractions: 24 choose k times 2^(24-k), over 3^24
    const lower = [0, 1, 2, 3, 4].map((k) => choose(24, k) * 2 ** (24 - k)).map((ways) => ways / 3 ** 24);
    const tail = (k: number) => lower.slice(0, k + 1).reduce((a, b) => a + b, 0);
    expect([3, 4].map((right) => tail(right) <= 0.025)).toEqual([true, false]);
    expect([3, 4].map((right) => triangle(right, 24).outcome)).toEqual(["far-below-chance", "not-reached"]);
  });

  test("a p below the smallest double is that double, never 0", () => {
    const { pValue } = triangle(2000, 2000);
    expect(pValue).toBeGreaterThan(0);
    expect(pValue).toBeLessThan(1e-300);
  });

  test("100 guessing panels of 24: three reach 13, as 2.84 % makes it; 17 stand at 8", () => {
    const { guessingPanels } = triangle(14, 24);
    expect(guessingPanels).toHaveLength(25);
    expect(guessingPanels.slice(13).reduce((a, b) => a + b)).toBe(3);
    // P(X <= 7) = 0.4238, P(X <= 8) = 0.5945 (exact fractions): dots at 0.425 to 0.585 fall on 8
    expect(guessingPanels[8]).toBe(17);
  });

  test("the power is that of the plan, not of the answers that came", () => {
    const found = choiceStatistics({
      method: "triangle",
      goal: "difference",
      alpha: 0.05,
      correct: 10,
      judgments: 20,
      sought: { discriminatorShare: 0.3, people: 24 },
    });
    expect(found.power).toMatchObject({ discriminatorShare: 0.3, people: 24 });
    expect(found.power?.power).toBeCloseTo(0.550475132488567, 12); // mpmath
  });

  test("100 000 judgments are computed", () => {
    expect(triangle(33_600, 100_000).pValue).toBeGreaterThan(0.03);
  });
});

describe("bad input to the choice statistics", () => {
  test("25 of 24 is refused with the bounds", () => {
    expect(problemOf(() => triangle(25, 24))).toEqual({
      code: "analysis/not-a-count",
      details: { name: "correct", value: "25", low: 0, high: 24 },
    });
  });
  test.each([-1, 1.5, Number.NaN, Number.POSITIVE_INFINITY, 100_001])("%d judgments are refused", (judgments) => {
    expect(problemOf(() => triangle(0, judgments))).toMatchObject({
      code: "analysis/not-a-count",
      details: { name: "judgments" },
    });
  });
  test.each([0, 0.500001, 0.95, 1, 5, Number.NaN])("alpha %d is refused with its bound", (alpha) => {
    expect(problemOf(() => triangle(1, 2, alpha))).toEqual({
      code: "analysis/risk-out-of-range",
      details: { name: "alpha", value: String(alpha), most: 0.5 },
    });
  });
  test("alpha 0.5 is the largest that is computed", () => {
    expect(triangle(1, 2, 0.5).criticalNumber).toBe(2); // P(X >= 1) of 2 is 5/9, P(X >= 2) is 1/9
  });
  test.each([0, 25, 1.5])("%d people for 24 answers are refused", (people) => {
    const counts = { method: "triangle", goal: "difference", alpha: 0.05, correct: 14, judgments: 24 } as const;
    expect(problemOf(() => choiceStatistics({ ...counts, people }))).toMatchObject({
      code: "analysis/not-a-count",
      details: { name: "people", low: 1, high: 24 },
    });
  });
  test.each([
    ["ranking", "analysis/method-not-yet"],
    ["square", "analysis/unknown-method"],
  ])("method %s: %s", (method, code) => {
    const counts = { goal: "difference", alpha: 0.05, correct: 1, judgments: 2 } as const;
    expect(problemOf(() => choiceStatistics({ ...counts, method: method as Method })).code).toBe(code);
  });
});

function choose(n: number, k: number): number {
  let ways = 1;
  for (let i = 1; i <= k; i++) ways = (ways * (n - k + i)) / i;
  return ways;
}
