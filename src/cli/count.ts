import { resultOfCounts } from "../analysis/analyse-choice.ts";
import { resultOfKinds } from "../analysis/analyse-kinds.ts";
import { resultOfPair } from "../analysis/analyse-pair.ts";
import { mostJudgments } from "../analysis/check.ts";
import { asKinds, asPair } from "../model/method.ts";
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
  requireDifference,
  requireTwoSided,
} from "./method-options.ts";
import { alphaOf, type Given, readGiven, whole } from "./options.ts";
import { asJson, type Output, resultText } from "./output.ts";

export const countOptions = {
  method: "text",
  correct: "text",
  of: "text",
  first: "text",
  second: "text",
  none: "text",
  "none-rule": "text",
  "told-unlike": "text",
  unlike: "text",
  "told-like": "text",
  like: "text",
  people: "text",
  repeats: "text",
  goal: "text",
  limit: "text",
  "dprime-limit": "text",
  beta: "text",
  sides: "text",
  alpha: "text",
  confidence: "text",
  json: "switch",
} as const;

/** The counts that each family is asked with. */
const countsOf = {
  choice: ["correct", "of", "people", "repeats"],
  pair: ["first", "second", "none", "none-rule"],
  kinds: ["told-unlike", "unlike", "told-like", "like"],
} as const;

/** `cloche count`: one outcome of a choice test from its counts: two, three of a pair, or four of two kinds of trays. */
export function count(argv: readonly string[], output: Output, app: string): void {
  const given = readGiven("count", argv, countOptions, null);
  const result = counted(given, computedMethod(given), app);
  output.print(given.has("json") ? asJson(result) : resultText(result));
}

function counted(given: Given, computed: Computed, app: string): Result {
  const { method, family } = computed;
  const { expected } = terminal;
  if (family === "scale" || family === "rank" || family === "portions") {
    throw problem("cli/bad-option", { option: "--method", value: method, expected: expected.countable });
  }
  const named = method === "paired-difference" ? expected.sided(method, computed.sides) : method;
  for (const [other, options] of Object.entries(countsOf)) {
    if (other === family) continue;
    if (family !== "choice") refuseGiven(given, ["people", "repeats"], expected.peopleFromFile);
    refuseGiven(given, options, expected.notOfMethod(named));
  }
  switch (family) {
    case "choice":
      return ofChoice(given, computed, app);
    case "pair":
      return ofPair(given, computed, app);
    case "kinds":
      return ofKinds(given, computed, app);
  }
}

function ofChoice(given: Given, computed: Computed, app: string): Result {
  const goal = goalOf(given, computed);
  // the larger count first: it bounds the other
  const judgments = whole(given, "of", 1, mostJudgments);
  const correct = whole(given, "correct", 0, judgments);
  const people = peopleOf(given, judgments);
  if (goal.goal === "similarity" && people !== judgments) {
    const option = given.text("people") === null ? "repeats" : "people";
    refuseGiven(given, [option], terminal.expected.peopleFromFile);
  }
  const risks = { alpha: alphaOf(given), confidence: confidenceOf(given) };
  return resultOfCounts({ ...goal, ...risks, method: computed.method, correct, judgments, people }, app);
}

/** How many people gave the answers: as many as answers, unless it is said how many, or how often each answered. */
function peopleOf(given: Given, judgments: number): number {
  const { expected } = terminal;
  const repeats = given.text("repeats") === null ? null : whole(given, "repeats", 1, judgments);
  if (repeats !== null && judgments % repeats !== 0) {
    refuseGiven(given, ["repeats"], expected.divides(judgments));
  }
  const byRepeats = repeats === null ? null : judgments / repeats;
  if (given.text("people") === null) return byRepeats ?? judgments;
  const people = whole(given, "people", 1, judgments);
  if (byRepeats !== null && people !== byRepeats) refuseGiven(given, ["people"], expected.peopleTimes(byRepeats));
  return people;
}

function ofPair(given: Given, computed: Computed, app: string): Result {
  const method = asPair(computed.method);
  requireTwoSided(given, computed);
  if (method === "paired-difference") refuseGiven(given, ["none", "none-rule"], terminal.expected.notOfMethod(method));
  const first = whole(given, "first", 0, mostJudgments);
  const second = whole(given, "second", 0, mostJudgments - first);
  const none = given.text("none") === null ? 0 : whole(given, "none", 0, mostJudgments - first - second);
  const noPreference = noPreferenceOf(given, "none-rule", none);
  const risks = { alpha: alphaOf(given), confidence: confidenceOf(given) };
  return resultOfPair({ method, products: terminal.unnamed, ...risks, noPreference, first, second, none }, app);
}

function ofKinds(given: Given, computed: Computed, app: string): Result {
  requireDifference(given, computed);
  const unlike = whole(given, "unlike", 1, mostJudgments - 1);
  const like = whole(given, "like", 1, mostJudgments - unlike);
  const counts = {
    unlike: { told: whole(given, "told-unlike", 0, unlike), of: unlike },
    like: { told: whole(given, "told-like", 0, like), of: like },
  };
  const risks = { alpha: alphaOf(given), confidence: confidenceOf(given) };
  return resultOfKinds({ method: asKinds(computed.method), ...risks, ...counts }, app);
}
