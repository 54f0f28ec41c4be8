import { analyse, resultOfRows } from "../analysis/analyse.ts";
import { readAnswers } from "../archive/answer-rows.ts";
import { readStudyFile, recordOfFile } from "../archive/study-file.ts";
import { problem } from "../model/problem.ts";
import type { Result } from "../model/result.ts";
import { terminal } from "../words/en/terminal.ts";
import { readText } from "./files.ts";
import { alphaOf, computedMethod, confidenceOf, type Given, readGiven, requireComputed, required } from "./options.ts";
import { asJson, type Output, resultText } from "./output.ts";

export const resultOptions = {
  method: "text",
  goal: "text",
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
  if (found.people > 1 && found.people < found.judgments) output.note(terminal.notices.spread);
  output.print(given.has("json") ? asJson(found) : resultText(found));
}

function resultOfCsv(given: Given, text: string, path: string, output: Output, app: string): Result {
  const method = computedMethod(required(given, "method"));
  requireComputed(given, method);
  const alpha = alphaOf(given);
  const confidence = confidenceOf(given);
  const { answers, extraColumns } = readAnswers(text, path);
  if (extraColumns.length > 0) output.note(terminal.notices.extraColumns(extraColumns));
  return resultOfRows({ method, goal: "difference", alpha, confidence }, answers, app);
}

/** The plan of a study is locked: what it fixed cannot be asked for otherwise. */
function resultOfStudy(given: Given, text: string, path: string, output: Output, app: string): Result {
  const { record, held, brokenLinks, missing } = recordOfFile(readStudyFile(text, path), path);
  const { method, alpha } = record.plan;
  refuseOther(given, "method", method, terminal.expected.methodOfStudy(method));
  requireComputed(given, method);
  refuseOther(given, "alpha", String(alpha), terminal.expected.lockedAlpha(alpha));
  refuseOther(given, "confidence", null, terminal.expected.leftOut);
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
