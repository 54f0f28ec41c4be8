import { expect, test } from "vitest";
import { type Because, type Judgment, judgeAll, judgePrediction } from "../../src/analysis/claim-rules.ts";
import { type Finding, type Found, noVerdict, typedFindingOf } from "../../src/analysis/finding.ts";
import type { Prediction } from "../../src/model/claim.ts";

/** The rules as they were agreed, case by case: by hand, not from the code. `reach`: low, high, what matters. */
type Case = [Prediction, Found, [number, number, number] | null, Judgment, Because];
const cases: Case[] = [
  ["higher", "higher", null, "allowed", "as-predicted"],
  ["higher", "lower", null, "contradicted", "opposite"],
  ["lower", "higher", null, "contradicted", "opposite"],
  ["lower", "lower", null, "allowed", "as-predicted"],
  ["differs", "higher", null, "allowed", "as-predicted"],
  ["differs", "differs", null, "allowed", "as-predicted"],
  ["higher", "differs", null, "allowed", "no-direction"],
  ["none", "higher", null, "contradicted", "difference-shown"],
  ["none", "lower", null, "contradicted", "difference-shown"],
  ["none", "differs", null, "contradicted", "difference-shown"],
  // shown, but nowhere near what matters: no prediction of "no difference" fails over it
  ["none", "higher", [0.5, 3, 5], "allowed", "small"],
  ["none", "higher", [0.5, 6, 5], "contradicted", "difference-shown"],
  // however small, it lies where it was predicted
  ["higher", "higher", [0.5, 3, 5], "allowed", "as-predicted"],
  // not shown is no evidence of the same, as long as what matters is possible
  ["higher", "not-shown", null, "allowed", "not-shown"],
  ["higher", "not-shown", [-2, 8, 5], "allowed", "not-shown"],
  ["higher", "not-shown", [-2, 5, 5], "allowed", "not-shown"],
  ["higher", "not-shown", [-2, 4, 5], "contradicted", "excluded"],
  ["higher", "not-shown", [-9, 4, 5], "contradicted", "excluded"],
  ["lower", "not-shown", [-2, 9, 5], "contradicted", "excluded"],
  ["lower", "not-shown", [-9, 4, 5], "allowed", "not-shown"],
  ["differs", "not-shown", [-2, 4, 5], "contradicted", "excluded"],
  ["differs", "not-shown", [-9, 4, 5], "allowed", "not-shown"],
  ["none", "not-shown", [-2, 4, 5], "allowed", "not-shown"],
  ["none", "not-shown", null, "allowed", "not-shown"],
  ["none", "alike", null, "allowed", "alike"],
  ["higher", "alike", null, "contradicted", "alike"],
  ["differs", "alike", null, "contradicted", "alike"],
  ["none", "likeness-not-shown", null, "allowed", "likeness-not-shown"],
  ["higher", "likeness-not-shown", null, "allowed", "likeness-not-shown"],
  ["higher", "no-verdict", [3, 4, 1], "not-tested", "no-verdict"],
  ["silent", "lower", null, "not-tested", "silent"],
];

test.each(cases)("predicted %s, found %s (%j): %s, since %s", (prediction, found, reach, judgment, because) => {
  const [low = 0, high = 0, matters = 0] = reach ?? [];
  const finding: Finding = {
    ...{ found, why: found === "no-verdict" ? "too-few" : null, numbers: null, limit: null },
    reach: reach === null ? null : { low, high, matters },
  };
  expect(judgePrediction(prediction, finding)).toEqual({ judgment, because });
});

test("without a result nothing is tested", () => {
  expect(judgePrediction("higher", null)).toEqual({ judgment: "not-tested", because: "no-result" });
  expect(noVerdict("withheld").found).toBe("no-verdict");
});

test.each([
  [["allowed", "not-tested", "contradicted", "allowed"], "contradicted"],
  [["allowed", "not-tested"], "allowed"],
  [["not-tested", "not-tested"], "not-tested"],
  [[], "not-tested"],
] as [Judgment[], Judgment][])("all together: %j is %s; nothing is counted or averaged", (judgments, all) => {
  expect(judgeAll(judgments)).toBe(all);
});

const typed = { difference: -6.5, low: -7.7, high: -5.2, unit: "points", matters: 4, source: "ledger" };
test.each([
  // the scenario's whole chain: 6.5 points less (5.2 to 7.7)
  [typed, "lower", null],
  [{ ...typed, high: 0.3 }, "not-shown", null],
  [{ ...typed, high: 0 }, "not-shown", null],
  [{ ...typed, low: 1, high: 2 }, "higher", null],
  [{ ...typed, low: null }, "no-verdict", "no-interval"],
  [{ ...typed, low: null, high: null }, "no-verdict", "no-interval"],
  [{ ...typed, low: 3, high: 2 }, "no-verdict", "no-interval"],
] as const)("typed by hand: %j is %s", (finding, found, why) => {
  expect(typedFindingOf(finding)).toMatchObject({ found, why, numbers: { what: "typed", finding } });
});

test("typed by hand: too small to matter counts as that, and only where it was named what matters", () => {
  const small = typedFindingOf({ ...typed, low: -3, high: -1 });
  expect(judgePrediction("none", small)).toEqual({ judgment: "allowed", because: "small" });
  const unnamed = typedFindingOf({ ...typed, low: -3, high: -1, matters: null });
  expect(judgePrediction("none", unnamed)).toEqual({ judgment: "contradicted", because: "difference-shown" });
});
