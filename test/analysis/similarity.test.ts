import { describe, expect, test } from "vitest";
import * as z from "zod/mini";
import { analyseChoice, resultOfCounts, resultOfRows } from "../../src/analysis/analyse.ts";
import { mostWithin } from "../../src/analysis/binomial.ts";
import { choiceStatistics } from "../../src/analysis/choice.ts";
import { describe as describeResult } from "../../src/analysis/describe.ts";
import { rightShareOf } from "../../src/analysis/method.ts";
import { similarityPower } from "../../src/analysis/similarity.ts";
import { triangleRight } from "../../src/analysis/thurstone.ts";
import { choiceStatistics as schema } from "../../src/model/result-choice.ts";
import { report } from "../../src/words/en/report.ts";
import { problemOf } from "../problem-of.ts";
import { reference, relativeError } from "./reference.ts";
import { recordOf } from "./scenario.ts";

const likeness = (correct: number, judgments: number, discriminatorShare = 0.3, beta = 0.05) =>
  choiceStatistics({
    method: "triangle",
    goal: "similarity",
    limit: { discriminatorShare, beta },
    alpha: 0.05,
    correct,
    judgments,
  });

const cell = z.nullable(z.tuple([z.nullable(z.number()), z.boolean()]));
const table = reference(
  "similarity-triangle-computed",
  z.object({
    rows: z.array(z.tuple([z.number(), z.string(), cell, cell, cell, cell, cell])).check(z.minLength(90)),
  }),
);

describe("most right answers that show fewer than the limit can tell", () => {
  test.each(table.rows)(
    "%d judgments at a risk of %s for limits of 10 to 50 %; exact fractions computed outside",
    (n, beta, ...cells) => {
      const found = [0.1, 0.2, 0.3, 0.4, 0.5].map((limit) =>
        mostWithin(n, rightShareOf("triangle", limit), Number(beta)),
      );
      expect(found).toEqual(cells.map((cell) => cell?.[0] ?? null));
    },
  );
  test("24 judgments, limit 30 %: 8 show it at 5 %, 9 do not", () => {
    expect([likeness(8, 24).outcome, likeness(9, 24).outcome]).toEqual(["within-limit", "not-within-limit"]);
    expect(likeness(8, 24).criticalNumber).toBe(8);
  });
  test("60 judgments, limit 30 %: P(X <= 25) = 0.0464 at 8/15 right (exact fraction), and 0.932 of panels that cannot tell show it", () => {
    const found = likeness(25, 60);
    expect(relativeError(found.pValue, 0.04637925700891498)).toBeLessThan(1e-12);
    expect(found).toMatchObject({ criticalNumber: 25, outcome: "within-limit", limit: { beta: 0.05 } });
    expect(found.chanceAtCritical).toBe(found.pValue);
    const limit = { discriminatorShare: 0.3, beta: 0.05 };
    expect(relativeError(similarityPower("triangle", 60, limit, 0), 0.9319848216411193)).toBeLessThan(1e-12);
  });
});

describe("the bound beside it: exact, one-sided at 1 - beta; mpmath at 30 digits", () => {
  test.each([
    [20, 60, 0.16969846669783886],
    [27, 60, 0.34598551905081704],
    [8, 24, 0.2821343422105106],
  ])("%d of %d: at most %d of people can tell", (correct, judgments, high) => {
    const found = likeness(correct, judgments);
    expect(found.discriminatorShare).toMatchObject({ low: null, kind: "upper", confidence: 0.95 });
    expect(relativeError(found.discriminatorShare.high ?? 0, high)).toBeLessThan(1e-11);
  });
  test("27 of 60: both ends at 90 %", () => {
    const { low, high, confidence, kind } = likeness(27, 60).discriminatorShareRange;
    expect(relativeError(low ?? 0, 0.00976380477086522)).toBeLessThan(1e-10);
    expect(high).toBe(likeness(27, 60).discriminatorShare.high);
    expect([confidence, kind]).toEqual([0.9, "two-sided"]);
  });
  test("the bound of d-prime gives that share of right answers", () => {
    const { dPrime, discriminatorShare } = likeness(20, 60);
    const right = rightShareOf("triangle", discriminatorShare.high ?? 0);
    expect(triangleRight(dPrime.high ?? 0)).toBeCloseTo(right, 12);
  });
});

describe("what holds for any counts", () => {
  test.each([0.1, 0.3, 0.5])("limit %d: the upper bound lies under it if and only if p <= beta, n to 60", (limit) => {
    for (let judgments = 1; judgments <= 60; judgments++) {
      // none, all, and the counts about the last that is within; every count where there are few
      const last = likeness(0, judgments, limit).criticalNumber ?? -1;
      for (let correct = 0; correct <= judgments; correct++) {
        const turns = Math.abs(correct - last) <= 2 || correct === 0 || correct === judgments;
        if (judgments > 20 && !turns) continue;
        const found = likeness(correct, judgments, limit);
        const within = found.pValue <= 0.05;
        expect(found.criticalNumber !== null && correct <= found.criticalNumber).toBe(within);
        const { high, kind, low } = found.discriminatorShare;
        expect([kind, low]).toEqual(["upper", null]);
        expect((high ?? 1) <= limit + 1e-12).toBe(within);
        expect(found.discriminatorShareRange.high).toBe(high);
      }
    }
  });
  test("documents fit their schema, down to no answers and up to all right", () => {
    for (const [correct, judgments] of [
      [0, 0],
      [0, 60],
      [60, 60],
      [20, 60],
    ] as const) {
      expect(z.safeParse(schema, likeness(correct, judgments)).success).toBe(true);
    }
    expect(likeness(60, 60).dPrime).toMatchObject({ estimate: null, high: null });
  });
  test("100 panels at the limit: their dots at or under 25 are 5, as 4.64 % makes it", () => {
    const { guessingPanels } = likeness(25, 60);
    expect(guessingPanels.slice(0, 26).reduce((sum, dots) => sum + dots, 0)).toBe(5);
  });
});

describe("edges", () => {
  test("2 of 24 are far below guessing: a fault to look for, no likeness", () => {
    expect(likeness(2, 24)).toMatchObject({ outcome: "far-below-chance" });
  });
  test("5 answers are too few", () => {
    expect(likeness(0, 5).outcome).toBe("too-few");
  });
  test.each([0, 1, -0.1, Number.NaN])("a limit of %d is refused", (limit) => {
    expect(problemOf(() => likeness(8, 24, limit)).code).toBe("analysis/not-a-share");
  });
  test("people who answered several times: pooled counts alone are refused, their own counts are analyzed", () => {
    const given = {
      method: "triangle",
      goal: "similarity",
      limit: { discriminatorShare: 0.3, beta: 0.05 },
      alpha: 0.05,
    } as const;
    expect(problemOf(() => resultOfCounts({ ...given, correct: 8, judgments: 24, people: 12 }, "1")).code).toBe(
      "analysis/not-a-count",
    );
    const rows = Array.from({ length: 24 }, (_, at) => ({
      panelist: `P${at % 12}`,
      repeat: String(Math.floor(at / 12)),
      correct: at < 8,
    }));
    expect(resultOfRows(given, rows, "1")).toMatchObject({ people: 12, judgments: 24, criticalNumber: null });
  });
});

describe("in words", () => {
  const similarityStudy = (correct: number) =>
    recordOf(correct, 24, {}, { goal: "similarity", similarity: { limit: 0.3, dPrime: null, beta: 0.05 } });
  const words = (correct: number) => describeResult(analyseChoice(similarityStudy(correct), "1"), report);

  test("8 of 24: the confidence, the limit and that it was set beforehand", () => {
    const found = words(8);
    expect(found.verdict).toBe(
      "With 95\u00a0% confidence, fewer than 30\u00a0% of people like these can tell “current” and “new” apart; that was the limit set: 8 of 24 picked the odd sample, and 8 or fewer were asked for.",
    );
    expect(found.size).toMatch(/with 95\u00a0% confidence it is at most \d\d\u00a0%/);
    expect(found.meaning).toMatch(/^If 30\u00a0% of people could tell, 8 or fewer of 24 would be right/);
    expect(found.chance).toMatchObject({ needed: "at most: 8", neededBelow: null });
    expect(found.agreed).toContain("“Taste for juiciness next.”");
    expect(found.caveats.join(" ")).toContain("does not mean that nobody can tell");
  });
  test("9 of 24: not shown, the other agreed step, and no word that they are alike", () => {
    const found = words(9);
    expect(found.verdict).toMatch(/^More than 30\u00a0% of people like these may be able to tell/);
    expect(found.agreed).toContain("“Stay with the dry oven.”");
  });
  test("a seat with two answers counts once, with its planned tray, and that is told", () => {
    const record = similarityStudy(8);
    const judgments = record.judgments.map((one) => (one.tray === 24 ? { ...one, seat: 3 } : one));
    const found = analyseChoice({ ...record, judgments }, "1");
    expect(found).toMatchObject({ judgments: 23, people: 23, correct: 8 });
    expect(found.caveats).toContainEqual({ what: "person-once", trays: [24] });
  });
});
