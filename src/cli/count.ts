import { resultOfCounts } from "../analysis/analyse.ts";
import { resultOfPair } from "../analysis/analyse-pair.ts";
import { mostJudgments } from "../analysis/check.ts";
import { problem } from "../model/problem.ts";
import type { Result } from "../model/result.ts";
import { terminal } from "../words/en/terminal.ts";
import {
  type Computed,
  computedMethod,
  confidenceOf,
  goalOf,
  noPreferenceOf,
  refuseGiven,
  requireTwoSided,
} from "./method-options.ts";
import { alphaOf, type Given, readGiven, required, whole } from "./options.ts";
import { asJson, type Output, resultText } from "./output.ts";

export const countOptions = {
  method: "text",
  correct: "text",
  of: "text",
  first: "text",
  second: "text",
  none: "text",
  "none-rule": "text",
  goal: "text",
  limit: "text",
  beta: "text",
  sides: "text",
  alpha: "text",
  confidence: "text",
  json: "switch",
} as const;

/** `cloche count`: one outcome of a choice test from two counts, or of a preference from three. */
export function count(argv: readonly string[], output: Output, app: string): void {
  const given = readGiven("count", argv, countOptions, null);
  const computed = computedMethod(required(given, "method"));
  const result = counted(given, computed, app);
  output.print(given.has("json") ? asJson(result) : resultText(result));
}

function counted(given: Given, computed: Computed, app: string): Result {
  const { method, family } = computed;
  const { expected } = terminal;
  switch (family) {
    case "choice": {
      refuseGiven(given, ["first", "second", "none", "none-rule"], expected.notOfMethod(method));
      const goal = goalOf(given, computed);
      // the larger count first: it bounds the other
      const judgments = whole(given, "of", 1, mostJudgments);
      const correct = whole(given, "correct", 0, judgments);
      return resultOfCounts(
        { ...goal, method, alpha: alphaOf(given), confidence: confidenceOf(given), correct, judgments },
        app,
      );
    }
    case "pair": {
      refuseGiven(given, ["correct", "of"], expected.notOfMethod(method));
      requireTwoSided(given, computed);
      const first = whole(given, "first", 0, mostJudgments);
      const second = whole(given, "second", 0, mostJudgments - first);
      const none = given.text("none") === null ? 0 : whole(given, "none", 0, mostJudgments - first - second);
      const noPreference = noPreferenceOf(given, "none-rule", none);
      return resultOfPair(
        { products: terminal.unnamed, alpha: alphaOf(given), noPreference, first, second, none },
        app,
      );
    }
    case "kinds":
    case "scale":
      throw problem("cli/bad-option", { option: "--method", value: method, expected: expected.countable });
  }
}
