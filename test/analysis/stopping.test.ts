import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { choiceStatistics } from "../../src/analysis/choice.ts";
import { decide, type LookCounts, stoppingPath } from "../../src/analysis/stopping.ts";
import { previewStopping } from "../../src/analysis/stopping-preview.ts";
import { type StoppingRule, stagesAt, stoppingRule, waldLines } from "../../src/analysis/stopping-rule.ts";
import { sumOf, walk } from "../../src/analysis/stopping-walk.ts";
import { problemOf } from "../problem-of.ts";
import published from "../reference/sequential-duo-trio/values.json" with { type: "json" };
import { relativeError } from "./reference.ts";
import { choose, plan, ruleOf, wald } from "./stopping-plans.ts";

/** The looks after each answer of a series of right (P) and wrong (N). */
const series = (answers: string): LookCounts[] =>
  [...answers].map((_, at) => ({
    judgments: at + 1,
    correct: [...answers.slice(0, at + 1)].filter((answer) => answer === "P").length,
  }));

describe("Wald's lines, ISO 16820", () => {
  const { alpha, beta } = published.parameters;
  // share right 0.7 by a method with one half by guessing: 0.4 of the people tell
  const rule = wald({ method: "duo-trio", alpha, stopping: { rule: "sequential", beta }, people: 200 });

  test.each(published.rows)(
    "duo-trio, patties %s: %s gives %s after %d (ISO 16820 Table A.1)",
    (_, answers, said, after) => {
      const looks = series(String(answers));
      const sayings = looks.map((_, at) => decide(rule, looks.slice(0, at + 1)));
      expect(sayings.slice(0, -1).every((saying) => saying === "go-on")).toBe(true);
      expect(sayings.at(-1)).toBe(said);
      expect(looks).toHaveLength(Number(after));
    },
  );

  test("after every answer they say what the likelihood ratio says against (1 - beta) / alpha and beta / (1 - alpha)", () => {
    const shares = fc.record({
      guess: fc.constantFrom(1 / 3, 1 / 2),
      more: fc.double({ min: 0.05, max: 0.9, noNaN: true }),
      alpha: fc.double({ min: 0.01, max: 0.3, noNaN: true }),
      beta: fc.double({ min: 0.01, max: 0.3, noNaN: true }),
    });
    fc.assert(
      fc.property(shares, ({ guess, more, alpha, beta }) => {
        const sought = guess + (1 - guess) * more;
        const lines: StoppingRule = {
          rule: "sequential",
          guess,
          sought,
          alpha,
          beta,
          planned: 40,
          lines: waldLines(guess, sought, alpha, beta),
        };
        const judgments = Array.from({ length: 40 }, (_, at) => at + 1);
        for (const { judgments: n, upper, lower } of stagesAt(lines, judgments, true)) {
          for (let right = 0; right <= n; right++) {
            const ratio = right * Math.log(sought / guess) + (n - right) * Math.log((1 - sought) / (1 - guess));
            const toYes = ratio - Math.log((1 - beta) / alpha);
            const toNo = ratio - Math.log(beta / (1 - alpha));
            if (Math.abs(toYes) > 1e-6) expect(upper !== null && right >= upper).toBe(toYes > 0);
            if (Math.abs(toNo) > 1e-6) expect(lower !== null && right <= lower).toBe(toNo < 0);
          }
        }
      }),
      { numRuns: 40 },
    );
  });

  test("what is sought must leave wrong answers: else there is no line", () => {
    expect(problemOf(() => wald({ discriminatorShareSought: 1 })).code).toBe("analysis/not-a-share");
  });
  test("what is sought as a d-prime: the share that goes with it (triangle, 1: 0.418047, mpmath)", () => {
    expect(wald({ dPrimeSought: 1 }).sought).toBeCloseTo(0.418046674714639, 12);
  });
});

describe("looks with an exact total", () => {
  /** Ways of exactly that many of n, as a whole number over 3 to the n. */
  const ways = (right: bigint, n: bigint): bigint => choose(n, right) * 2n ** (n - right);

  test("11 of 17 or 15 of 30: 0.0457, summed in whole numbers (idea: a blog of 2013 on sequential triangle tests)", () => {
    let yes = 0n;
    for (let first = 0n; first <= 17n; first++) {
      for (let more = 0n; more <= 13n; more++) {
        if (first >= 11n || first + more >= 15n) yes += ways(first, 17n) * ways(more, 13n);
      }
    }
    const total = Number(yes) / Number(3n ** 30n);
    expect(total).toBeCloseTo(0.0457, 4);
    const preview = previewStopping(plan());
    expect(preview?.looks).toEqual([
      { judgments: 17, upper: 11, lower: null },
      { judgments: 30, upper: 15, lower: null },
    ]);
    expect(relativeError(preview?.totalAlpha ?? 0, total)).toBeLessThan(1e-12);
    // the level of the look is the tail that the same blog prints for more than 10 of 17
    expect(preview?.level).toBeCloseTo(0.00800819, 8);
  });

  test("10 of 17 would be too much: with it the total is over 0.05", () => {
    const stages = [
      { judgments: 17, upper: 10, lower: null },
      { judgments: 30, upper: 15, lower: null },
    ];
    expect(sumOf(walk(stages, 1 / 3).yes)).toBeGreaterThan(0.05);
  });

  test("at the end without any look it is the plain test: 13 of 24 (ISO 4120's table)", () => {
    const path = stoppingPath(ruleOf({ people: 24, stopping: { rule: "looks", at: [12] } }), [], {
      judgments: 24,
      correct: 13,
    });
    expect(path.looks).toEqual([{ judgments: 24, correct: 13, upper: 13, lower: null, said: "yes" }]);
    expect(path.early).toBe(false);
  });

  const real = fc
    .record({
      method: fc.constantFrom("triangle" as const, "duo-trio" as const),
      alpha: fc.double({ min: 0.001, max: 0.3, noNaN: true }),
      people: fc.integer({ min: 6, max: 60 }),
    })
    .chain((given) => {
      const places = fc.uniqueArray(fc.integer({ min: 1, max: given.people - 1 }), { minLength: 1, maxLength: 5 });
      return fc.record({
        given: fc.constant(given),
        at: places,
        looked: fc.uniqueArray(fc.integer({ min: 1, max: given.people + 5 }), { minLength: 1, maxLength: 6 }),
      });
    });
  test("whatever the real numbers of answers were, the chance of a yes by guessing is never above alpha", () => {
    fc.assert(
      fc.property(real, ({ given, at, looked }) => {
        const rule = ruleOf({ ...given, stopping: { rule: "looks", at } });
        const judgments = [...looked].sort((a, b) => a - b);
        const total = sumOf(walk(stagesAt(rule, judgments, true), rule.guess).yes);
        expect(total).toBeLessThanOrEqual(given.alpha * (1 + 1e-12));
      }),
    );
  });
  test("as planned, the last look keeps the critical number it has alone", () => {
    fc.assert(
      fc.property(real, ({ given, at }) => {
        const looks = previewStopping(plan({ ...given, stopping: { rule: "looks", at } }))?.looks ?? [];
        const { people: judgments, method, alpha } = given;
        const alone = choiceStatistics({ method, goal: "difference", alpha, correct: 0, judgments }).criticalNumber;
        expect(looks.at(-1)?.upper ?? null).toBe(alone);
      }),
    );
  });

  test("looks out of range, and more people than can be counted out, are refused", () => {
    for (const at of [[0], [30], [31]]) {
      expect(problemOf(() => ruleOf({ stopping: { rule: "looks", at } })).code).toBe("analysis/not-a-count");
    }
    expect(problemOf(() => ruleOf({ people: 2001 })).code).toBe("analysis/not-a-count");
    expect(stoppingRule(plan({ stopping: { rule: "fixed" } }))).toBeNull();
  });
});

test("Wald's lines are first asked at six answers: a stop before that would leave a study without a verdict", () => {
  // a triangle in which half of the people are to tell, both risks 0.05: five right in a row pass the upper line,
  // since each multiplies the likelihood ratio by 2 and 2^5 > 19 = 0.95 / 0.05
  const preview = previewStopping(
    plan({ discriminatorShareSought: 0.5, stopping: { rule: "sequential", beta: 0.05 } }),
  );
  expect(preview?.looks.map(({ judgments }) => judgments).slice(0, 2)).toEqual([6, 7]);
});
