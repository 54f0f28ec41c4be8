import { resultOfRows } from "../analysis/analyse.ts";
import { resultOfChoices } from "../analysis/analyse-pair.ts";
import { resultOfScaleRows } from "../analysis/analyse-scale.ts";
import { familyOf } from "../analysis/method.ts";
import { readAnswers } from "../archive/answer-rows.ts";
import { readChoices } from "../archive/choice-rows.ts";
import { readScale } from "../archive/scale-rows.ts";
import type { Plannable } from "../model/method.ts";
import type { Goal, NoPreference } from "../model/plan.ts";
import { problem } from "../model/problem.ts";
import type { Result } from "../model/result.ts";
import { reader } from "../words/en/reader.ts";

/** What is asked of a file of answers. Shares from 0 to 1; what the method does not use is left alone. */
export type AskedOfFile = {
  method: Plannable;
  goal: Goal;
  alpha: number;
  limit: number;
  beta: number;
  noPreference: NoPreference;
};

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
  const { method, alpha, noPreference } = asked;
  switch (familyOf(method)) {
    case "kinds":
      throw problem("analysis/method-not-yet", { method });
    case "choice": {
      const { answers, extraColumns } = readAnswers(text, path);
      return {
        result: resultOfRows({ ...goalOf(asked), method, alpha }, answers, app),
        rows: answers.length,
        extraColumns,
      };
    }
    case "pair": {
      const { answers, products, extraColumns } = readChoices(text, path);
      // a product that nobody chose is not named in the file
      const [first, second] = reader.elsewhere.unnamed;
      const named: [string, string] = [products[0] ?? first, products[1] ?? second];
      const result = resultOfChoices({ products: named, alpha, noPreference }, answers, app);
      return { result, rows: answers.length, extraColumns };
    }
    case "scale": {
      const { answers, extraColumns } = readScale(text, path);
      return { result: resultOfScaleRows(alpha, answers, app), rows: answers.length, extraColumns };
    }
  }
}

const goalOf = ({ goal, limit, beta }: AskedOfFile) =>
  goal === "similarity" ? { goal, limit: { discriminatorShare: limit, beta } } : { goal };
