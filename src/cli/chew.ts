import { chewRefusalOf } from "../analysis/chew-portion.ts";
import { type ChewPlan, chewResult } from "../analysis/chew-weigh.ts";
import { describeChew } from "../analysis/describe-chew.ts";
import { readChews } from "../archive/chew-rows.ts";
import { problem } from "../model/problem.ts";
import { chewRefusedText } from "../words/en/chew.ts";
import { terminal } from "../words/en/terminal.ts";
import { weighingTerminal } from "../words/en/terminal-weighing.ts";
import { answerOptions, balanceOf, mattersOf, weighingText } from "./ledger.ts";
import { confidenceOf, refuseGiven } from "./method-options.ts";
import { type Given, number } from "./options.ts";
import { asJson, type Output } from "./output.ts";

/** `cloche result FILE --method chew-and-weigh`: gains and differences, or one document, to be printed. */
export function resultOfChews(given: Given, text: string, path: string, output: Output, app: string): string {
  refuseGiven(given, [...answerOptions, "drawn"], terminal.expected.notOfMethod("chew-and-weigh"));
  const { rows, extraColumns } = readChews(text, path);
  if (extraColumns.length > 0) output.note(terminal.notices.extraColumns(extraColumns));
  const plan: ChewPlan = {
    control: controlOf(given, new Set(rows.map(({ product }) => product))),
    matters: mattersOf(given),
    plannedSeconds: secondsOf(given),
    balanceStep: balanceOf(given),
    confidence: confidenceOf(given),
  };
  for (const row of rows) {
    const refusal = chewRefusalOf(row, plan.balanceStep);
    if (refusal) {
      throw problem("csv/impossible-weighing", { path, line: row.line, because: chewRefusedText(refusal) });
    }
  }
  const found = chewResult(rows, plan, app);
  return given.has("json") ? asJson(found) : weighingText(describeChew(found));
}

/** The product that is an inert portion; it has to be in the file. */
function controlOf(given: Given, products: ReadonlySet<string>): string | null {
  const value = given.text("control");
  if (value === null || products.has(value)) return value;
  const expected = weighingTerminal.control([...products]);
  throw problem("cli/bad-option", { option: "--control", value, expected });
}

function secondsOf(given: Given): number | null {
  if (given.text("seconds") === null) return null;
  return number(given, "seconds", 15, (value) => value > 0 && value <= 600, weighingTerminal.seconds);
}
