import { analyse, resultOfRows } from "../analysis/analyse.ts";
import { readAnswers } from "../archive/answer-rows.ts";
import { readStudyFile, recordOfFile } from "../archive/study-file.ts";
import { problem } from "../model/problem.ts";
import type { Result } from "../model/result.ts";
import { terminal } from "../words/en/terminal.ts";
import { readText } from "./files.ts";
import { computedMethod, type Given, openShare, readGiven, required } from "./options.ts";
import { asJson, type Output, resultText } from "./output.ts";

export const resultOptions = { method: "text", alpha: "text", confidence: "text", json: "switch" } as const;

/** `cloche result FILE`: the result of answers in a CSV file, or of an exported study. */
export function result(argv: readonly string[], output: Output, app: string): void {
  const given = readGiven("result", argv, resultOptions, "FILE");
  const path = given.argument ?? "";
  const text = readText(path);
  // a CSV header cannot begin with a brace: no column is named so
  const found = /^\uFEFF?\s*\{/.test(text)
    ? resultOfStudy(given, text, path, output, app)
    : resultOfCsv(given, text, path, output, app);
  output.print(given.has("json") ? asJson(found) : resultText(found));
}

function resultOfCsv(given: Given, text: string, path: string, output: Output, app: string): Result {
  const method = computedMethod(required(given, "method"));
  const alpha = openShare(given, "alpha") ?? 0.05;
  const confidence = openShare(given, "confidence") ?? 0.95;
  const { answers, extraColumns } = readAnswers(text, path);
  if (extraColumns.length > 0) output.note(terminal.notices.extraColumns(extraColumns));
  return resultOfRows({ method, goal: "difference", alpha, confidence }, answers, app);
}

/** The plan of a study is locked: what it fixed cannot be asked for otherwise. */
function resultOfStudy(given: Given, text: string, path: string, output: Output, app: string): Result {
  const { record, held, brokenLinks } = recordOfFile(readStudyFile(text, path), path);
  const { method, alpha } = record.plan;
  refuseOther(given, "method", method, terminal.expected.methodOfStudy(method));
  refuseOther(given, "alpha", String(alpha), terminal.expected.lockedAlpha(alpha));
  refuseOther(given, "confidence", null, terminal.expected.leftOut);
  if (held > 0) output.note(terminal.notices.held(held));
  if (brokenLinks > 0) output.note(terminal.notices.brokenLinks(brokenLinks));
  return analyse(record, app);
}

function refuseOther(given: Given, option: string, locked: string | null, expected: string): void {
  const value = given.text(option);
  if (value === null || value === locked || (locked !== null && Number(value) === Number(locked))) return;
  throw problem("cli/bad-option", { option: `--${option}`, value, expected });
}
