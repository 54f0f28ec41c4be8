import { resultOfCounts } from "../analysis/analyse.ts";
import { mostJudgments } from "../analysis/check.ts";
import { alphaOf, computedMethod, confidenceOf, readGiven, requireComputed, required, whole } from "./options.ts";
import { asJson, type Output, resultText } from "./output.ts";

export const countOptions = {
  method: "text",
  correct: "text",
  of: "text",
  goal: "text",
  sides: "text",
  alpha: "text",
  confidence: "text",
  json: "switch",
} as const;

/** `cloche count`: one outcome of a choice test, from two counts. */
export function count(argv: readonly string[], output: Output, app: string): void {
  const given = readGiven("count", argv, countOptions, null);
  const method = computedMethod(required(given, "method"));
  requireComputed(given, method);
  // the larger count first: it bounds the other
  const judgments = whole(given, "of", 1, mostJudgments);
  const correct = whole(given, "correct", 0, judgments);
  const alpha = alphaOf(given);
  const confidence = confidenceOf(given);
  const result = resultOfCounts({ method, goal: "difference", alpha, confidence, correct, judgments }, app);
  output.print(given.has("json") ? asJson(result) : resultText(result));
}
