import { expect, test } from "vitest";
import { analyseChoice } from "../../src/analysis/analyse-choice.ts";
import { decide } from "../../src/analysis/stopping.ts";
import { cycle, recordByHand } from "./method-records.ts";
import { wald } from "./stopping-plans.ts";

// Wald's line for 1/3 against 0.6 at alpha 0.05, beta 0.1: a yes needs a likelihood ratio of 0.9 / 0.05 = 18. Each right
// answer multiplies it by 0.6 / (1/3) = 1.8, each wrong one by 0.4 / (2/3) = 0.6. Seven right: 61.2; with three wrong
// 13.2, with two 22.0. So 7 of 10 goes on, and 7 of 9 would have been a yes.
const odd = { AAB: 3, ABA: 2, BAA: 1, BBA: 3, BAB: 2, ABB: 1 } as const;
const orders = cycle(Object.keys(odd) as (keyof typeof odd)[], 30);
const right = new Set([1, 2, 3, 4, 5, 6, 7, 12]);

test("a look that said go on decides nothing when one of its ballots is voided later", () => {
  const rule = wald();
  expect(decide(rule, [{ judgments: 10, correct: 7 }])).toBe("go-on");
  expect(decide(rule, [{ judgments: 9, correct: 7 }])).toBe("yes");

  const trays = orders.map((order, at) => ({
    order,
    // tray 10 was answered wrong, and voided after the look
    ...(at + 1 === 10 ? {} : { answers: [right.has(at + 1) ? odd[order] : (odd[order] % 3) + 1] }),
  }));
  const plan = { people: 30, discriminatorShareSought: 0.4, stopping: { rule: "sequential" as const, beta: 0.1 } };
  const record = recordByHand(plan, trays);
  const look = { event: "01900000-0000-7000-8000-000000000001", at: "2026-05-03T12:00:00.000Z" };
  const seen = { ...look, trays: [1, 2, 3, 4, 5, 6, 7, 8, 9], said: "go-on" as const };
  const result = analyseChoice({ ...record, looks: [seen] }, "1");
  expect(result).toMatchObject({ correct: 8, judgments: 29, outcome: "not-reached" });
  expect(result.stopping?.looks.map(({ judgments, said }) => [judgments, said])).toEqual([
    [9, "go-on"],
    [29, "no"],
  ]);
});
