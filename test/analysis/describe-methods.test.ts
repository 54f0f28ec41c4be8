import { describe, expect, test } from "vitest";
import { resultOfCounts } from "../../src/analysis/analyse.ts";
import { resultOfKinds } from "../../src/analysis/analyse-kinds.ts";
import { resultOfPair } from "../../src/analysis/analyse-pair.ts";
import { describe as describeResult } from "../../src/analysis/describe.ts";
import { outcomes } from "../../src/model/outcome.ts";
import type { ChoiceResult, Result } from "../../src/model/result.ts";
import { report } from "../../src/words/en/report.ts";
import { banned, clean } from "./texts.ts";

const words = (result: Result) => describeResult(result, report);
const juicier = { name: "Juiciness", comparative: "juicier", expected: "new" };
const choice = (method: ChoiceResult["method"], correct: number, judgments: number): ChoiceResult =>
  resultOfCounts({ method, goal: "difference", alpha: 0.05, correct, judgments }, "1");
const partTexts = (result: Result): string[] =>
  words(result).parts.flatMap(({ heading, sentences, table }) => [
    heading,
    ...sentences,
    table.caption,
    ...table.columns,
    ...table.rows.flat(),
  ]);

describe("a choice test says what was done by those who were right", () => {
  // needed and p of the kitchen's invented studies Q3 to Q5, computed outside (binomial tails)
  test.each([
    ["tetrad", 10, 18, /10 of 18 put the right two together, and the rule asks for 10\.$/, "0.0433"],
    ["paired-difference", 18, 24, /18 of 24 chose the expected product, and the rule asks for 17\.$/, "0.0113"],
    ["three-alternative", 13, 24, /13 of 24 chose the expected product, and the rule asks for 13\.$/, "0.0284"],
  ] as const)("%s, %i of %i", (method, correct, judgments, verdict, p) => {
    const found = words(choice(method, correct, judgments));
    expect(found.verdict).toMatch(verdict);
    expect(found.rows.find(({ id }) => id === "pValue")?.value).toBe(p);
  });

  test("duo-trio: found the one like the reference", () => {
    expect(words(choice("duo-trio", 22, 24)).verdict).toContain("22 of 24 found the one like the reference");
  });

  test("a directional choice names the property and the product; low counts name what may be at fault", () => {
    const asked = { ...choice("paired-difference", 18, 24), property: juicier };
    expect(words(asked).verdict).toContain("found “new” juicier than the other one: 18 of 24 chose it");
    expect(words({ ...choice("paired-difference", 12, 24), property: juicier }).verdict).toContain(
      "did not show that “new” is juicier",
    );
    const low = words({ ...choice("paired-difference", 3, 24), property: juicier }).verdict;
    expect(low).toContain("check labels, wording, and which product was expected to have more");
  });

  test("every method and outcome: no banned word, a percent sign never alone, every sentence ends", () => {
    for (const method of ["triangle", "duo-trio", "paired-difference", "three-alternative", "tetrad"] as const) {
      for (const outcome of outcomes.filter((one) => !one.endsWith("limit")))
        clean(words({ ...choice(method, 14, 24), outcome }));
      for (const correct of [4, 30]) {
        const limit = { discriminatorShare: 0.3, beta: 0.05 };
        clean(words(resultOfCounts({ method, goal: "similarity", limit, alpha: 0.05, correct, judgments: 60 }, "1")));
      }
    }
  });
});

describe("two kinds of trays", () => {
  const kinds = (method: "same-different" | "a-not-a", unlike: number, like: number) =>
    resultOfKinds({ method, alpha: 0.05, unlike: { told: unlike, of: 24 }, like: { told: like, of: 24 } }, "1");

  test("the verdict states both counts", () => {
    expect(words(kinds("same-different", 14, 6)).verdict).toContain(
      "two different products were called different 14 of 24 times, and one product twice 6 of 24 times",
    );
    expect(words(kinds("a-not-a", 14, 6)).verdict).toContain("samples of A 6 of 24 times");
  });

  test("any counts: no banned word, and the wrong way round names faults", () => {
    for (const method of ["same-different", "a-not-a"] as const) {
      for (const [unlike, like] of [
        [0, 0],
        [24, 0],
        [24, 24],
        [12, 12],
        [14, 6],
        [2, 20],
      ] as const) {
        const result = kinds(method, unlike, like);
        clean(words(result));
        for (const text of partTexts(result)) expect(text).not.toMatch(banned);
      }
    }
    expect(words(kinds("a-not-a", 2, 20)).verdict).toContain("Check labels, wording");
  });
});

test("a paired difference either way: found juicier, or not shown of either", () => {
  const given = {
    method: "paired-difference",
    products: ["current", "new"],
    alpha: 0.05,
    noPreference: "not-offered",
  } as const;
  const property = { ...juicier, expected: null };
  // 18 of 24 two-sided at 5 %: Triola Table A-7 (the smaller count may be 6)
  const reached = words(resultOfPair({ ...given, property, first: 6, second: 18, none: 0 }, "1"));
  expect(reached.verdict).toBe(
    "This panel found “new” juicier than “current”: 18 of 24 chose it, and the rule asks for 18 of 24.",
  );
  clean(reached);
  const missed = words(resultOfPair({ ...given, property, first: 11, second: 13, none: 0 }, "1"));
  expect(missed.verdict).toContain("did not show that either of “current” and “new” is juicier: 11 to 13");
  clean(missed);
});

describe("parts that only some studies have", () => {
  const fitOf = (mean: number, spread: number) => ({
    mean: { estimate: mean, low: mean / 2, high: 0.9, confidence: 0.95, kind: "two-sided" as const },
    overdispersion: { estimate: spread, low: 0, high: 0.5, confidence: 0.95, kind: "two-sided" as const },
    pValue: 0.13,
  });

  test("people, sessions, questions and looks are worded without a banned word, each with its table", () => {
    const base = choice("duo-trio", 22, 36);
    const question = {
      property: juicier,
      inFamily: true,
      judgments: 36,
      correct: 22,
      criticalNumber: 24,
      outcome: "not-reached" as const,
    };
    const result: ChoiceResult = {
      ...base,
      people: 12,
      panelists: [3, 3, 3, 3, 2, 2, 2, 1, 1, 1, 1, 0].map((correct, at) => ({
        panelist: `seat ${at + 1}`,
        correct,
        judgments: 3,
      })),
      betaBinomial: fitOf(0.61, 0.2),
      chanceCorrected: fitOf(0.22, 0.3),
      spread: { chiSquare: 16.4, df: 11, pValue: 0.13 },
      sessions: { rows: [{ session: "Monday", judgments: 18, correct: 12 }], pValue: 0.4, exact: true },
      questions: [
        { ...question, pValue: 0.12, pValueAdjusted: 0.24, share: base.correctShare },
        { ...question, inFamily: false, outcome: null, pValue: 0.12, pValueAdjusted: null, share: base.correctShare },
      ],
      stopping: {
        ...{ rule: "looks", early: true, planned: 72, after: 2, totalAlpha: 0.0457, beta: null, soughtShare: null },
        looks: [{ judgments: 36, correct: 22, upper: 24, lower: null, said: "go-on" }],
      },
    };
    const found = words(result);
    expect(found.parts.map(({ id }) => id)).toEqual(["people", "sessions", "questions", "stopping"]);
    for (const text of partTexts(result)) expect(text).not.toMatch(banned);
    // scenario Q2: chi-square 16.4 on 11, p = 0.13
    expect(found.parts[0]?.sentences.join(" ")).toContain("chi-square 16.4 on 11 degrees of freedom");
    expect(found.parts[2]?.table.rows[1]?.at(-1)).toBe("exploratory");
  });
});
