import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { choiceStatistics } from "../../src/analysis/choice.ts";
import { stoppedChoice } from "../../src/analysis/stopped-choice.ts";
import { type LookCounts, stoppingPath } from "../../src/analysis/stopping.ts";
import { previewStopping } from "../../src/analysis/stopping-preview.ts";
import { type StoppingRule, stagesAt } from "../../src/analysis/stopping-rule.ts";
import { type Stage, sumOf, walk } from "../../src/analysis/stopping-walk.ts";
import { asFar, chanceOf, everySequence, type Outcome, type Rule } from "./every-sequence.ts";
import { relativeError } from "./reference.ts";
import { choose, plan, ruleOf, wald } from "./stopping-plans.ts";

describe("against every sequence of answers, one by one", () => {
  const cases: { name: string; rule: StoppingRule; looks: number[] }[] = [
    {
      name: "triangle, looks at 5 and 9 of 13",
      rule: ruleOf({ people: 13, alpha: 0.1, stopping: { rule: "looks", at: [5, 9] } }),
      looks: [5, 9, 13],
    },
    {
      name: "triangle, late looks at 6 and 11 of 13",
      rule: ruleOf({ people: 13, alpha: 0.1, stopping: { rule: "looks", at: [5, 9] } }),
      looks: [6, 11, 13],
    },
    {
      name: "duo-trio, Wald after every answer to 13",
      rule: wald({ method: "duo-trio", people: 13, alpha: 0.2, stopping: { rule: "sequential", beta: 0.25 } }),
      looks: Array.from({ length: 13 }, (_, at) => at + 1),
    },
    {
      name: "triangle, Wald at 4, 7, 12",
      rule: wald({ people: 12, alpha: 0.1, discriminatorShareSought: 0.6 }),
      looks: [4, 7, 12],
    },
  ];
  const seen = ({ judgments, correct }: Outcome, stages: readonly Stage[]): LookCounts[] =>
    stages
      .filter((stage) => stage.judgments <= judgments)
      .map((stage) => ({ judgments: stage.judgments, correct: stage.judgments === judgments ? correct : 0 }));

  test.each(cases)("$name: total risk, p of every outcome and the bounds that go with it", ({ rule, looks }) => {
    const stages = stagesAt(rule, looks, true);
    const asked: Rule = (judgments, correct) => {
      const stage = stages.find((one) => one.judgments === judgments);
      if (stage?.upper != null && correct >= stage.upper) return "yes";
      return stage?.lower != null && correct <= stage.lower ? "no" : "go-on";
    };
    const guessing = everySequence(looks, rule.guess, asked);
    const total = chanceOf(guessing, ({ said }) => said === "yes");
    expect(total).toBeGreaterThan(0);
    expect(relativeError(sumOf(walk(stages, rule.guess).yes), total)).toBeLessThan(1e-12);
    const sought = everySequence(looks, rule.sought, asked);
    expect(Math.abs(sumOf(walk(stages, rule.sought).no) - chanceOf(sought, ({ said }) => said === "no"))).toBeLessThan(
      1e-12,
    );
    const outcomes = new Map(guessing.map(([outcome]) => [JSON.stringify(outcome), outcome]));
    expect(outcomes.size).toBeGreaterThan(10);
    for (const outcome of outcomes.values()) {
      const { judgments, correct, said } = outcome;
      const statistics = stoppedChoice(
        choiceStatistics({
          method: rule.guess === 0.5 ? "duo-trio" : "triangle",
          goal: "difference",
          alpha: rule.alpha,
          correct,
          judgments,
          confidence: 0.9,
        }),
        { rule, looks: pathTo(outcome, stages), all: { judgments, correct } },
      );
      const p = chanceOf(guessing, (other) => asFar(other, outcome));
      expect(relativeError(statistics.pValue, p)).toBeLessThan(1e-11);
      expect(statistics.stopping?.looks.at(-1)?.said).toBe(said);
      // the bounds: at them the outcome, or one further on, has just the chance of the tail
      const { low, high } = statistics.correctShare;
      const up = chanceOf(everySequence(looks, low ?? 0, asked), (other) => asFar(other, outcome));
      const down = chanceOf(everySequence(looks, high ?? 1, asked), (other) => asFar(outcome, other));
      expect(Math.abs(up - (low === 0 ? 1 : 0.05))).toBeLessThan(1e-9);
      expect(Math.abs(down - (high === 1 ? 1 : 0.05))).toBeLessThan(1e-9);
    }
  });

  /** Looks that lead to an outcome without an earlier stop: each goes on until the last. */
  function pathTo(outcome: Outcome, stages: readonly Stage[]): LookCounts[] {
    return seen(outcome, stages).map(({ judgments, correct }) => {
      const stage = stages.find((one) => one.judgments === judgments);
      return judgments === outcome.judgments
        ? { judgments, correct }
        : { judgments, correct: (stage?.lower ?? -1) + 1 };
    });
  }
});

describe("a choice test that could stop", () => {
  const statisticsAt = (rule: StoppingRule, looks: LookCounts[], all: LookCounts) => {
    const path = stoppingPath(rule, looks, all);
    const { judgments = 0, correct = 0 } = path.looks.at(-1) ?? {};
    return stoppedChoice(
      choiceStatistics({ method: "triangle", goal: "difference", alpha: rule.alpha, correct, judgments }),
      { rule, looks, all },
    );
  };

  test("11 of 17 stops: p is the tail of the look alone, 0.00801 (seen in the blog of 2013); later answers do not count", () => {
    const stopped = statisticsAt(ruleOf(), [{ judgments: 17, correct: 11 }], { judgments: 20, correct: 12 });
    expect(stopped.pValue).toBeCloseTo(0.00800819, 8);
    expect(stopped).toMatchObject({ outcome: "reached", criticalNumber: 11, judgments: 17, correct: 11 });
    expect(stopped.stopping).toMatchObject({ early: true, planned: 30, after: 3 });
    expect(stopped.stopping?.totalAlpha).toBeCloseTo(0.0457, 4);
    expect(stopped.discriminatorShare.low).toBeGreaterThan(0);
    expect(stopped.correctShareScore.kind).toBe("none");
  });

  test("14 of 30 after a look that went on is no yes, and no bound leaves guessing out", () => {
    const ended = statisticsAt(ruleOf(), [{ judgments: 17, correct: 10 }], { judgments: 30, correct: 14 });
    expect(ended).toMatchObject({ outcome: "not-reached", criticalNumber: 15 });
    expect(ended.discriminatorShare.low).toBe(0);
    expect(ended.stopping).toMatchObject({ early: false, after: 0 });
  });

  test("yes if and only if p is within the total risk and the lower bound leaves guessing out, for both rules", () => {
    const rules = fc.constantFrom(
      ruleOf(),
      ruleOf({ stopping: { rule: "looks", at: [10, 20] } }),
      wald(),
      wald({ alpha: 0.2 }),
    );
    const answers = fc.array(fc.boolean(), { minLength: 30, maxLength: 30 });
    const places = fc.uniqueArray(fc.integer({ min: 6, max: 29 }), { maxLength: 4 });
    fc.assert(
      fc.property(rules, answers, places, (rule, right, at) => {
        const countAt = (judgments: number) => ({
          judgments,
          correct: right.slice(0, judgments).filter(Boolean).length,
        });
        const got = statisticsAt(rule, [...at].sort((a, b) => a - b).map(countAt), countAt(30));
        const yes = got.outcome === "reached";
        expect(got.stopping?.looks.at(-1)?.said === "yes").toBe(yes);
        expect(got.pValue <= (got.stopping?.totalAlpha ?? 0) * (1 + 1e-12)).toBe(yes);
        expect((got.discriminatorShare.low ?? 0) > 0).toBe(yes);
        expect((got.dPrime.low ?? 0) > 0).toBe(yes);
      }),
      { numRuns: 60 },
    );
  });

  test("closed before anybody answered: no look, p 1, no verdict", () => {
    const empty = statisticsAt(ruleOf(), [], { judgments: 0, correct: 0 });
    expect(empty).toMatchObject({ outcome: "too-few", pValue: 1 });
    expect(empty.stopping?.looks).toEqual([]);
  });

  test("the planned looks cost little: 24 of 30 answers on the mean if 0.4 can tell, all but 30 by guessing", () => {
    const expected = previewStopping(plan())?.expected;
    // 17 if the look stops, else 30: the chances are exact tails of 11 of 17 at one third and at 0.6, by whole numbers
    let atSought = 0n;
    let atGuess = 0n;
    for (let right = 11n; right <= 17n; right++) {
      atGuess += ways3(right);
      atSought += choose(17n, right) * 6n ** right * 4n ** (17n - right);
    }
    const stopsAtGuess = Number(atGuess) / Number(3n ** 17n);
    const stopsAtSought = Number(atSought) / 10 ** 17;
    expect(expected?.guessing).toBeCloseTo(30 - 13 * stopsAtGuess, 10);
    expect(expected?.sought).toBeCloseTo(30 - 13 * stopsAtSought, 10);
  });
  const ways3 = (right: bigint): bigint => choose(17n, right) * 2n ** (17n - right);
});
