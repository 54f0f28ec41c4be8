import { analyse, resultOfRows } from "../analysis/analyse.ts";
import { resultOfChoices } from "../analysis/analyse-pair.ts";
import { resultOfScaleRows } from "../analysis/analyse-scale.ts";
import { readAnswers } from "../archive/answer-rows.ts";
import { readChoices } from "../archive/choice-rows.ts";
import { readScale } from "../archive/scale-rows.ts";
import { readStudyFile, recordOfFile } from "../archive/study-file.ts";
import { problem } from "../model/problem.ts";
import type { Result } from "../model/result.ts";
import { terminal } from "../words/en/terminal.ts";
import { readText } from "./files.ts";
import {
  type Computed,
  computedMethod,
  confidenceOf,
  goalOf,
  noPreferenceOf,
  refuseGiven,
  requireTwoSided,
  ruleName,
} from "./method-options.ts";
import { alphaOf, type Given, readGiven, required } from "./options.ts";
import { asJson, type Output, resultText } from "./output.ts";

export const resultOptions = {
  method: "text",
  goal: "text",
  limit: "text",
  beta: "text",
  none: "text",
  sides: "text",
  alpha: "text",
  confidence: "text",
  json: "switch",
} as const;

/** `cloche result FILE`: the result of answers in a CSV file, or of an exported study. */
export function result(argv: readonly string[], output: Output, app: string): void {
  const given = readGiven("result", argv, resultOptions, "FILE");
  const path = given.argument ?? "";
  const text = readText(path);
  // a CSV header cannot begin with a brace: no column is named so
  const found = /^\uFEFF?\s*\{/.test(text)
    ? resultOfStudy(given, text, path, output, app)
    : resultOfCsv(given, text, path, output, app);
  if (found.family === "choice" && found.people > 1 && found.people < found.judgments) {
    output.note(terminal.notices.spread);
  }
  output.print(given.has("json") ? asJson(found) : resultText(found));
}

function resultOfCsv(given: Given, text: string, path: string, output: Output, app: string): Result {
  const computed = computedMethod(required(given, "method"));
  const { found, extraColumns } = readers[computed.family](given, computed, text, path, app);
  if (extraColumns.length > 0) output.note(terminal.notices.extraColumns(extraColumns));
  return found;
}

type Reader = (
  given: Given,
  computed: Computed,
  text: string,
  path: string,
  app: string,
) => { found: Result; extraColumns: string[] };

const readers: Record<Result["family"], Reader> = {
  choice: (given, computed, text, path, app) => {
    refuseGiven(given, ["none"], terminal.expected.notOfMethod(computed.method));
    const goal = goalOf(given, computed);
    const [alpha, confidence] = [alphaOf(given), confidenceOf(given)];
    const { answers, extraColumns } = readAnswers(text, path);
    return { found: resultOfRows({ ...goal, method: computed.method, alpha, confidence }, answers, app), extraColumns };
  },
  pair: (given, computed, text, path, app) => {
    requireTwoSided(given, computed);
    const alpha = alphaOf(given);
    const { answers, products, extraColumns } = readChoices(text, path);
    const none = answers.filter(({ choice }) => choice === null).length;
    const noPreference = noPreferenceOf(given, "none", none);
    // a product that nobody chose is not named in the file
    const [first, second] = [products[0] ?? terminal.unnamed[0], products[1] ?? terminal.unnamed[1]];
    return { found: resultOfChoices({ products: [first, second], alpha, noPreference }, answers, app), extraColumns };
  },
  kinds: (_given, { method }) => {
    throw problem("analysis/method-not-yet", { method });
  },
  scale: (given, computed, text, path, app) => {
    requireTwoSided(given, computed);
    refuseGiven(given, ["none"], terminal.expected.notOfMethod(computed.method));
    const alpha = alphaOf(given);
    const { answers, extraColumns } = readScale(text, path);
    return { found: resultOfScaleRows(alpha, answers, app), extraColumns };
  },
};

/** The plan of a study is locked: what it fixed cannot be asked for otherwise. */
function resultOfStudy(given: Given, text: string, path: string, output: Output, app: string): Result {
  const { record, held, brokenLinks, missing } = recordOfFile(readStudyFile(text, path), path);
  const { method, alpha, goal, similarity, noPreference } = record.plan;
  const { expected } = terminal;
  const locked = (value: string | number) => expected.locked(String(value));
  const likeness = goal === "similarity" ? similarity : null;
  refuseOther(given, "method", method, expected.methodOfStudy(method));
  refuseOther(given, "goal", goal, locked(goal));
  refuseOther(
    given,
    "sides",
    method === "triangle" ? "one" : "two",
    expected.sides(method, method === "triangle" ? "one" : "two"),
  );
  refuseOther(given, "alpha", String(alpha), locked(alpha));
  refuseOther(given, "limit", likeness && String(likeness.limit), likeness ? locked(likeness.limit) : expected.leftOut);
  refuseOther(given, "beta", likeness && String(likeness.beta), likeness ? locked(likeness.beta) : expected.leftOut);
  const rule = method === "paired-preference" ? ruleName(noPreference) : null;
  refuseOther(given, "none", rule, rule ? locked(rule) : expected.leftOut);
  refuseOther(given, "confidence", null, expected.leftOut);
  if (held > 0) output.note(terminal.notices.held(held));
  if (brokenLinks > 0) output.note(terminal.notices.brokenLinks(brokenLinks));
  if (missing > 0) output.note(terminal.notices.missing(missing));
  if (!record.keyMatches) output.note(terminal.notices.keyMismatch);
  return analyse(record, app);
}

function refuseOther(given: Given, option: string, locked: string | null, expected: string): void {
  const value = given.text(option);
  if (value === null || value === locked || (locked !== null && Number(value) === Number(locked))) return;
  throw problem("cli/bad-option", { option: `--${option}`, value, expected });
}
