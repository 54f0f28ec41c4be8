import { resultOfRows } from "../analysis/analyse.ts";
import { resultOfKindRows } from "../analysis/analyse-kinds.ts";
import { resultOfChoices } from "../analysis/analyse-pair.ts";
import { resultOfPortionRows } from "../analysis/analyse-portions.ts";
import { resultOfRankRows } from "../analysis/analyse-rank.ts";
import { resultOfScaleRows } from "../analysis/analyse-scale.ts";
import { chewRefusalOf } from "../analysis/chew-portion.ts";
import { familyOf } from "../analysis/method.ts";
import { readAnswers } from "../archive/answer-rows.ts";
import { readChews } from "../archive/chew-rows.ts";
import { readChoices } from "../archive/choice-rows.ts";
import { readKinds } from "../archive/kind-rows.ts";
import { readRanks } from "../archive/rank-rows.ts";
import { readScale } from "../archive/scale-rows.ts";
import { asKinds, asPair } from "../model/method.ts";
import { problem } from "../model/problem.ts";
import type { Result } from "../model/result.ts";
import { chewRefusedText } from "../words/en/chew.ts";
import { reader } from "../words/en/reader.ts";
import type { AskedOfFile } from "./job.ts";

export type FoundInFile = {
  result: Result;
  /** Lines with an answer. */
  rows: number;
  extraColumns: string[];
};

/**
 * The result of answers in a CSV text, by the functions behind `cloche result`.
 *
 * Takes    path: names the file in errors
 * Throws   Problems "csv/…" with line and column, and what the analysis of the method throws
 */
export function resultOfFile(text: string, path: string, asked: AskedOfFile, app: string): FoundInFile {
  const { method, alpha, confidence, sides } = asked;
  switch (familyOf(method, sides)) {
    case "kinds":
      return kindsOfFile(text, path, asked, app);
    case "choice": {
      const { answers, extraColumns } = readAnswers(text, path);
      return {
        result: resultOfRows({ ...goalOf(asked), method, alpha, confidence }, answers, app),
        rows: answers.length,
        extraColumns,
      };
    }
    case "pair":
      return pairOfFile(text, path, asked, app);
    case "scale": {
      const { answers, extraColumns } = readScale(text, path);
      return { result: resultOfScaleRows(alpha, answers, app), rows: answers.length, extraColumns };
    }
    case "rank": {
      const { answers, extraColumns } = readRanks(text, path);
      return { result: resultOfRankRows({ alpha, predicted: [] }, answers, app), rows: answers.length, extraColumns };
    }
    case "portions":
      return portionsOfFile(text, path, asked, app);
  }
}

/** Chewed portions: readings that cannot be are named by their line, as in the terminal. */
function portionsOfFile(text: string, path: string, { alpha, chewed }: AskedOfFile, app: string): FoundInFile {
  const { rows, extraColumns } = readChews(text, path);
  const products = [...new Set(rows.map(({ product }) => product))];
  const { control: named, matters, seconds, balanceStep } = chewed;
  if (named !== "" && !products.includes(named)) {
    throw problem("csv/unknown-product", { path, product: named, known: products.join(", ") });
  }
  for (const row of rows) {
    const refusal = chewRefusalOf(row, balanceStep);
    if (refusal) {
      throw problem("csv/impossible-weighing", { path, line: row.line, because: chewRefusedText(refusal) });
    }
  }
  const plan = { alpha, control: named === "" ? null : named, matters, plannedSeconds: seconds, balanceStep };
  return { result: resultOfPortionRows(plan, rows, app), rows: rows.length, extraColumns };
}

function pairOfFile(text: string, path: string, asked: AskedOfFile, app: string): FoundInFile {
  const { alpha, confidence } = asked;
  const method = asPair(asked.method);
  const { answers, products, extraColumns } = readChoices(text, path);
  // a product that nobody chose is not named in the file
  const [first, second] = reader.elsewhere.unnamed;
  const named: [string, string] = [products[0] ?? first, products[1] ?? second];
  const noPreference = method === "paired-difference" ? "not-offered" : asked.noPreference;
  const given = { method, products: named, alpha, confidence, noPreference } as const;
  return { result: resultOfChoices(given, answers, app), rows: answers.length, extraColumns };
}

function kindsOfFile(text: string, path: string, asked: AskedOfFile, app: string): FoundInFile {
  const { alpha, confidence } = asked;
  const method = asKinds(asked.method);
  const { answers, extraColumns } = readKinds(text, path, method);
  return { result: resultOfKindRows({ method, alpha, confidence }, answers, app), rows: answers.length, extraColumns };
}

const goalOf = ({ goal, limit, limitDistance, beta }: AskedOfFile) =>
  goal === "similarity"
    ? { goal, limit: { discriminatorShare: limitDistance === null ? limit : 0, dPrime: limitDistance, beta } }
    : { goal };
