import { problem } from "../model/problem.ts";
import type { AnswerRow } from "../model/record.ts";
import { columnOf, extraOf, panelistOf, refuseTwice, repeatOf, short } from "./cells.ts";
import { readTable } from "./csv.ts";

export type ReadAnswers = {
  answers: AnswerRow[];
  /** Columns that were left unread, as the header names them. */
  extraColumns: string[];
};

/**
 * Reads the answers of a choice test from CSV: columns `panelist`, `correct` (1 or 0) and, if people answered more
 * than once, `repeat` (a whole number from 1; 1 where the column is missing), in any order. Where a file of several
 * questions has the column `question`, only the answers to the first one (1) are read.
 *
 * Takes    text; path: names the file in errors
 * Throws   Problem "csv/missing-column", "csv/bad-value" and "csv/duplicate-row" with line and column, and what
 *          `readTable` throws
 */
export function readAnswers(text: string, path: string): ReadAnswers {
  const table = readTable(text, path);
  const columns = table.columns.map((column) => column.toLowerCase());
  const at = {
    panelist: columnOf(columns, "panelist", path),
    correct: columnOf(columns, "correct", path),
    repeat: columns.indexOf("repeat"),
    question: columns.indexOf("question"),
  };
  const seen = new Map<string, number>();
  const first = table.rows.filter(({ cells }) => at.question < 0 || Number(cells[at.question]) === 1);
  if (first.length === 0) throw problem("csv/no-rows", { path });
  const answers = first.map(({ line, cells }) => {
    const cell = (place: number) => cells[place]?.trim() ?? "";
    const answer = {
      panelist: panelistOf(cell(at.panelist), path, line),
      repeat: at.repeat < 0 ? "1" : repeatOf(cell(at.repeat), path, line),
      correct: correctOf(cell(at.correct), path, line),
    };
    refuseTwice(seen, answer, path, line);
    return answer;
  });
  return { answers, extraColumns: extraOf(table, Object.values(at)) };
}

function correctOf(value: string, path: string, line: number): boolean {
  if (value === "1" || value === "0") return value === "1";
  throw problem("csv/bad-value", { path, line, column: "correct", value: short(value) });
}
