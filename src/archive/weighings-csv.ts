import { readingPattern } from "../model/grams.ts";
import { portionStages } from "../model/kitchen-event.ts";
import { problem } from "../model/problem.ts";
import { readTrayLabel } from "../model/tray.ts";
import { columnOf, short } from "./cells.ts";
import { readTable, writeTable } from "./csv.ts";

/** Masses of chewed portions by tray and code, as whoever weighs has them: products are in no such file. */

type Stage = (typeof portionStages)[number];
type Column = Stage | "tray" | "code" | "stage" | "grams" | "rinse";

/** One reading of a file, by the line it stands on. `rinse`: of the closed cup only; empty: the file says nothing of it. */
export type WeighingLine = {
  line: number;
  tray: number;
  code: string;
  stage: Stage;
  grams: string;
  rinse: string;
};

/** What stands of a portion; empty: not weighed, or contradicted. */
export type WeighedCells = { tray: number; wave: number; code: string; rinse: string } & Record<Stage, string>;

/** Those of the study's own page: one line for each portion. Read back, they change nothing. */
export const weighingsCsv = (portions: readonly WeighedCells[]): string =>
  writeTable(
    ["tray", "wave", "code", ...portionStages, "rinse"],
    portions.map((each) => [
      ...[each.tray, each.wave, each.code],
      ...portionStages.map((stage) => each[stage]),
      each.rinse,
    ]),
  );

/**
 * Reads masses from CSV: columns `tray` and `code`; and `stage` with `grams`, or `cup`, `portion` and `after` (those that
 * the file has). Also `rinse`. Empty cells are no readings; other columns are left unread.
 *
 * Takes    text; path: names the file in errors. A tray is its number, or number and check digit as on its card (17-4)
 * Throws   Problem "csv/missing-column", "csv/bad-value" with the line, "csv/no-rows" where nothing was weighed, and
 *          what `readTable` throws
 */
export function readWeighings(text: string, path: string): WeighingLine[] {
  const table = readTable(text, path);
  const columns = table.columns.map((column) => column.toLowerCase());
  const wide = portionStages.filter((stage) => columns.includes(stage));
  for (const column of ["tray", "code", ...(wide.length > 0 ? [] : ["stage", "grams"])])
    columnOf(columns, column, path);
  const lines = table.rows.flatMap(({ line, cells }): WeighingLine[] => {
    const cell = (column: string): string => cells[columns.indexOf(column)]?.trim() ?? "";
    const bad = (column: Column): never => {
      throw problem("csv/bad-value", { path, line, column, value: short(cell(column)) });
    };
    const grams = (column: Stage | "grams" | "rinse"): string => {
      const value = cell(column);
      return value === "" || readingPattern.test(value) ? value : bad(column);
    };
    const tray = trayOf(cell("tray")) ?? bad("tray");
    const code = /^[1-9]\d\d$/.test(cell("code")) ? cell("code") : bad("code");
    const rinse = grams("rinse");
    const reading = (stage: Stage, column: Stage | "grams"): WeighingLine[] => {
      const value = grams(column);
      return value === "" ? [] : [{ line, tray, code, stage, grams: value, rinse: stage === "after" ? rinse : "" }];
    };
    if (wide.length > 0) return wide.flatMap((stage) => reading(stage, stage));
    const stage = portionStages.find((each) => each === cell("stage").toLowerCase()) ?? bad("stage");
    return reading(stage, "grams");
  });
  if (lines.length === 0) throw problem("csv/no-rows", { path });
  return lines;
}

function trayOf(text: string): number | null {
  if (/^[1-9]\d{0,3}$/.test(text)) return Number(text);
  return /[\s\-–]/.test(text) ? readTrayLabel(text) : null;
}
