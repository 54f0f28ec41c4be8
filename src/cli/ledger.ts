import { describeLedger, type WeighingText } from "../analysis/describe-ledger.ts";
import { ledgerResult } from "../analysis/ledger.ts";
import { refusalsOf } from "../analysis/ledger-check.ts";
import { readLedger } from "../archive/ledger-rows.ts";
import { readingPattern } from "../model/grams.ts";
import { type Drawing, drawings } from "../model/ledger.ts";
import { problem } from "../model/problem.ts";
import { terminal } from "../words/en/terminal.ts";
import { weighingTerminal } from "../words/en/terminal-weighing.ts";
import { refusedText } from "../words/en/weighing-refused.ts";
import { confidenceOf, refuseGiven } from "./method-options.ts";
import { type Given, number } from "./options.ts";
import { asJson, type Output, section, tableText } from "./output.ts";

/** Options of `cloche result` that a table of weighings takes (control and seconds: of chewed portions alone). */
export const weighingOptions = {
  matters: "text",
  balance: "text",
  drawn: "text",
  control: "text",
  seconds: "text",
} as const;
/** What belongs to answers of a panel. */
export const answerOptions = ["goal", "limit", "dprime-limit", "beta", "none", "predicted", "sides", "alpha"] as const;

/** `cloche result FILE` of a weighing ledger: losses and differences, or one document, to be printed. */
export function resultOfLedger(given: Given, text: string, path: string, output: Output, app: string): string {
  refuseGiven(given, [...answerOptions, "control", "seconds"], weighingTerminal.notOfLedger);
  const { ledger, lineOf, extraColumns } = readLedger(text, path);
  if (extraColumns.length > 0) output.note(terminal.notices.extraColumns(extraColumns));
  const whole = { ...ledger, balanceStep: balanceOf(given), drawn: drawnOf(given), matters: mattersOf(given) };
  const [refusal] = refusalsOf(whole);
  if (refusal) {
    const line = lineOf(refusal.batch, refusal.step);
    throw problem("csv/impossible-weighing", { path, line, because: refusedText(refusal) });
  }
  const found = ledgerResult(whole, confidenceOf(given), app);
  return given.has("json") ? asJson(found) : weighingText(describeLedger(found));
}

/** A result of weighings as plain text: what was found first. */
export const weighingText = ({ heading, found, tables, notShown }: WeighingText): string =>
  [heading, found.join("\n"), ...tables.map(tableText), section(terminal.headings.notShown, notShown)].join("\n\n");

/** Smallest difference that matters, in percentage points; null where none is named. */
export function mattersOf(given: Given): number | null {
  if (given.text("matters") === null) return null;
  return number(given, "matters", 1, (value) => value > 0 && value <= 100, weighingTerminal.matters);
}

/** The smallest step of the balance, as it was typed; empty where it is not named. */
export function balanceOf(given: Given): string {
  const value = given.text("balance") ?? "";
  if (value === "" || (readingPattern.test(value) && Number(value) > 0)) return value;
  throw problem("cli/bad-option", { option: "--balance", value, expected: weighingTerminal.balance });
}

function drawnOf(given: Given): Drawing {
  const value = given.text("drawn");
  if (value === null) return drawings[0];
  if (value === "yes" || value === "no") return value === "yes" ? "drawn" : "not-drawn";
  throw problem("cli/bad-option", { option: "--drawn", value, expected: weighingTerminal.drawn });
}
