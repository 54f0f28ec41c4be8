import { analyse } from "../analysis/analyse.ts";
import { resultOfRows } from "../analysis/analyse-choice.ts";
import { resultOfKindRows } from "../analysis/analyse-kinds.ts";
import { resultOfChoices } from "../analysis/analyse-pair.ts";
import { resultOfRankRows } from "../analysis/analyse-rank.ts";
import { resultOfScaleRows } from "../analysis/analyse-scale.ts";
import { familyOf } from "../analysis/method.ts";
import { readAnswers } from "../archive/answer-rows.ts";
import { readChoices } from "../archive/choice-rows.ts";
import { foundIn, headerOf, refuseNoHeader } from "../archive/header.ts";
import { readKinds } from "../archive/kind-rows.ts";
import { looksLikeLedger } from "../archive/ledger-rows.ts";
import { readRanks } from "../archive/rank-rows.ts";
import { readScale } from "../archive/scale-rows.ts";
import { readStudyFile, recordOfFile } from "../archive/study-file.ts";
import { asKinds, asPair } from "../model/method.ts";
import type { Plan } from "../model/plan.ts";
import { problem } from "../model/problem.ts";
import type { Result } from "../model/result.ts";
import { terminal } from "../words/en/terminal.ts";
import { weighingTerminal } from "../words/en/terminal-weighing.ts";
import { resultOfChews } from "./chew.ts";
import { readText } from "./files.ts";
import { resultOfLedger, weighingOptions } from "./ledger.ts";
import {
  type Computed,
  computedMethod,
  confidenceOf,
  goalOf,
  noPreferenceOf,
  oneSided,
  refuseGiven,
  requireDifference,
  requireTwoSided,
  ruleName,
} from "./method-options.ts";
import { alphaOf, type Given, readGiven } from "./options.ts";
import { asJson, type Output, resultText } from "./output.ts";

export const resultOptions = {
  method: "text",
  goal: "text",
  limit: "text",
  "dprime-limit": "text",
  beta: "text",
  none: "text",
  predicted: "text",
  sides: "text",
  alpha: "text",
  confidence: "text",
  ...weighingOptions,
  json: "switch",
} as const;

/** `cloche result FILE`: the result of answers or weighings in a CSV file, or of an exported study. */
export function result(argv: readonly string[], output: Output, app: string): void {
  const given = readGiven("result", argv, resultOptions, "FILE");
  const path = given.argument ?? "";
  const text = readText(path);
  if (given.text("method") === null && looksLikeLedger(text)) {
    output.print(resultOfLedger(given, text, path, output, app));
    return;
  }
  if (given.text("method") === "chew-and-weigh" && !isStudy(text)) {
    output.print(resultOfChews(given, text, path, output, app));
    return;
  }
  refuseGiven(given, Object.keys(weighingOptions), weighingTerminal.notOfAnswers);
  const found = isStudy(text)
    ? resultOfStudy(given, text, path, output, app)
    : resultOfCsv(given, text, path, output, app);
  output.print(given.has("json") ? asJson(found) : resultText(found));
}

/** A CSV header cannot begin with a brace: no column is named so. */
const isStudy = (text: string): boolean => /^\uFEFF?\s*\{/.test(text);

function resultOfCsv(given: Given, text: string, path: string, output: Output, app: string): Result {
  if (given.text("method") === null) refuseUntold(text, path);
  const computed = computedMethod(given);
  if (computed.family !== "rank") refuseGiven(given, ["predicted"], terminal.expected.notOfMethod(computed.method));
  // weighed portions are read before anything else is asked of the file
  if (computed.family === "portions") throw problem("analysis/method-not-yet", { method: computed.method });
  const { found, extraColumns } = readers[computed.family](given, computed, text, path, app);
  if (extraColumns.length > 0) output.note(terminal.notices.extraColumns(extraColumns));
  return found;
}

/** A file that is no ledger, without a method: says what it begins with. Throws "csv/no-header", "csv/not-a-ledger". */
function refuseUntold(text: string, path: string): never {
  const columns = headerOf(text);
  refuseNoHeader(columns, path);
  const names = columns.map((column) => column.toLowerCase());
  const chewed = ["grams_in", "grams_out", "gain_percent", "rinse", "cup"].some((column) => names.includes(column));
  const method = chewed ? "chew-and-weigh" : "";
  throw problem("csv/not-a-ledger", { path, found: foundIn(columns), method });
}

type Reader = (
  given: Given,
  computed: Computed,
  text: string,
  path: string,
  app: string,
) => { found: Result; extraColumns: string[] };

const readers: Record<Exclude<Result["family"], "portions">, Reader> = {
  choice: (given, computed, text, path, app) => {
    refuseGiven(given, ["none"], terminal.expected.notOfMethod(computed.method));
    const goal = goalOf(given, computed);
    const [alpha, confidence] = [alphaOf(given), confidenceOf(given)];
    const { answers, extraColumns } = readAnswers(text, path);
    return { found: resultOfRows({ ...goal, method: computed.method, alpha, confidence }, answers, app), extraColumns };
  },
  pair: (given, computed, text, path, app) => {
    requireTwoSided(given, computed);
    const method = asPair(computed.method);
    if (method === "paired-difference") refuseGiven(given, ["none"], terminal.expected.notOfMethod(method));
    const [alpha, confidence] = [alphaOf(given), confidenceOf(given)];
    const { answers, products, extraColumns } = readChoices(text, path);
    const none = answers.filter(({ choice }) => choice === null).length;
    // a paired difference does not offer it: a file that holds one is refused by the analysis
    const noPreference = method === "paired-difference" ? "not-offered" : noPreferenceOf(given, "none", none);
    // a product that nobody chose is not named in the file
    const named: [string, string] = [products[0] ?? terminal.unnamed[0], products[1] ?? terminal.unnamed[1]];
    const asked = { method, products: named, alpha, confidence, noPreference } as const;
    return { found: resultOfChoices(asked, answers, app), extraColumns };
  },
  kinds: (given, computed, text, path, app) => {
    requireDifference(given, computed);
    refuseGiven(given, ["none"], terminal.expected.notOfMethod(computed.method));
    const [alpha, confidence] = [alphaOf(given), confidenceOf(given)];
    const method = asKinds(computed.method);
    const { answers, extraColumns } = readKinds(text, path, method);
    return { found: resultOfKindRows({ method, alpha, confidence }, answers, app), extraColumns };
  },
  scale: (given, computed, text, path, app) => {
    requireTwoSided(given, computed);
    refuseGiven(given, ["none"], terminal.expected.notOfMethod(computed.method));
    const alpha = alphaOf(given);
    const { answers, extraColumns } = readScale(text, path);
    return { found: resultOfScaleRows(alpha, answers, app), extraColumns };
  },
  rank: (given, computed, text, path, app) => {
    requireTwoSided(given, computed);
    refuseGiven(given, ["none"], terminal.expected.notOfMethod(computed.method));
    const [alpha, predicted] = [alphaOf(given), namesIn(given.text("predicted"))];
    const { answers, extraColumns } = readRanks(text, path);
    return { found: resultOfRankRows({ alpha, predicted }, answers, app), extraColumns };
  },
};

/** Names with commas between. */
const namesIn = (list: string | null): string[] => (list === null ? [] : list.split(",").map((name) => name.trim()));

function resultOfStudy(given: Given, text: string, path: string, output: Output, app: string): Result {
  const { record, held, brokenLinks, missing } = recordOfFile(readStudyFile(text, path), path);
  refuseUnlocked(given, record.plan);
  if (held > 0) output.note(terminal.notices.held(held));
  if (brokenLinks > 0) output.note(terminal.notices.brokenLinks(brokenLinks));
  if (missing > 0) output.note(terminal.notices.missing(missing));
  if (!record.keyMatches) output.note(terminal.notices.keyMismatch);
  return analyse(record, app);
}

/** The plan of a study is locked: what it fixed may be named as it is, and not otherwise. */
function refuseUnlocked(given: Given, plan: Plan): void {
  const { method, alpha, goal, similarity, noPreference } = plan;
  const { expected } = terminal;
  const family = familyOf(method, plan.sides);
  const sides = oneSided(family) ? "one" : "two";
  refuseOther(given, "method", method, expected.methodOfStudy(method));
  refuseOther(given, "goal", goal, expected.locked(goal));
  refuseOther(given, "sides", sides, expected.sides(method, sides));
  refuseOther(given, "alpha", String(alpha), expected.locked(String(alpha)));
  const likeness = goal === "similarity" ? similarity : null;
  const fixed: Record<string, number | string | null> = {
    limit: likeness && likeness.dPrime === null ? likeness.limit : null,
    "dprime-limit": likeness?.dPrime ?? null,
    beta: likeness?.beta ?? null,
    none: method === "paired-preference" ? ruleName(noPreference) : null,
    confidence: method === "paired-preference" || family === "scale" || family === "rank" ? null : plan.confidence,
    predicted: family === "rank" && plan.ranking.predicted.length > 0 ? predictedOf(plan) : null,
  };
  for (const [option, value] of Object.entries(fixed)) {
    const locked = value === null ? null : String(value);
    refuseOther(given, option, locked, locked === null ? expected.leftOut : expected.locked(locked));
  }
}

const predictedOf = ({ ranking, products }: Plan): string =>
  ranking.predicted.map((id) => products.find((product) => product.id === id)?.name ?? id).join(", ");

function refuseOther(given: Given, option: string, locked: string | null, expected: string): void {
  const value = given.text(option);
  if (value === null || value === locked || (locked !== null && Number(value) === Number(locked))) return;
  throw problem("cli/bad-option", { option: `--${option}`, value, expected });
}
