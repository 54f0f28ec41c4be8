import { readingPattern } from "../model/grams.ts";
import { problem } from "../model/problem.ts";
import { columnOf, extraOf, panelistOf, refuseTwice, repeatOf, short } from "./cells.ts";
import { readTable } from "./csv.ts";

/** A line of a file of chewed portions: readings in grams as typed, or a gain in percent. */
export type ChewLine = {
  line: number;
  panelist: string;
  product: string;
  repeat: string;
  readings: { gramsIn: string; gramsOut: string; cup: string; rinse: string } | null;
  gainPercent: number | null;
  seconds: number | null;
};
export type ReadChews = { rows: ChewLine[]; extraColumns: string[] };

const percentPattern = /^[-−+]?\d{1,5}(\.\d{1,9})?$/;
const secondsPattern = /^\d{1,4}(\.\d{1,6})?$/;

/**
 * Reads chewed and weighed portions from CSV: columns `panelist` and `product`, and `grams_in` with `grams_out`, or
 * `gain_percent` where gains were worked out elsewhere; also `repeat`, `cup`, `rinse` and `seconds`. One line a portion, in
 * any order; a portion whose mass out (or gain) is empty was not weighed and is left out.
 *
 * Takes    text; path: names the file in errors
 * Throws   Problem "csv/missing-column", "csv/bad-value", "csv/left-blank", "csv/duplicate-row" with the line, "csv/no-rows", and what
 *          `readTable` throws
 */
export function readChews(text: string, path: string): ReadChews {
  const table = readTable(text, path);
  const columns = table.columns.map((column) => column.toLowerCase());
  const weighed = columns.includes("grams_out") || columns.includes("grams_in") || !columns.includes("gain_percent");
  const needed = ["panelist", "product", ...(weighed ? ["grams_in", "grams_out"] : ["gain_percent"])];
  for (const column of needed) columnOf(columns, column, path);
  const used = [...needed, "repeat", "seconds", ...(weighed ? ["cup", "rinse"] : [])];
  const seen = new Map<string, number>();
  const rows = table.rows.flatMap(({ line, cells }): ChewLine[] => {
    const cell = (column: string): string => {
      const at = used.includes(column) ? columns.indexOf(column) : -1;
      return at < 0 ? "" : (cells[at]?.trim() ?? "");
    };
    const panelist = panelistOf(cell("panelist"), path, line);
    const product = cell("product");
    if (product === "") throw problem("csv/bad-value", { path, line, column: "product", value: product });
    const repeat = columns.includes("repeat") ? repeatOf(cell("repeat"), path, line) : "1";
    refuseTwice(seen, { panelist: `${panelist}, ${product}`, repeat }, path, line);
    const seconds = secondsOf(cell("seconds"), path, line);
    const given = { line, panelist, product, repeat, seconds };
    if (!weighed) return gainRow(given, cell("gain_percent"), path);
    return weighedRow(given, cell, path);
  });
  if (rows.length === 0) throw problem("csv/no-rows", { path });
  refuseBlankRinse(rows, path);
  return {
    rows,
    extraColumns: extraOf(
      table,
      used.map((column) => columns.indexOf(column)),
    ),
  };
}

/** Where others name their rinse water, an empty one would count as none, and the water as a gain. */
function refuseBlankRinse(rows: readonly ChewLine[], path: string): void {
  const filled = rows.find(({ readings }) => readings && readings.rinse !== "");
  const blank = rows.find(({ readings }) => readings?.rinse === "");
  if (!filled || !blank) return;
  throw problem("csv/left-blank", { path, line: blank.line, first: filled.line, column: "rinse" });
}

type Given = Pick<ChewLine, "line" | "panelist" | "product" | "repeat" | "seconds">;

function gainRow(given: Given, value: string, path: string): ChewLine[] {
  if (value === "") return [];
  if (!percentPattern.test(value)) {
    throw problem("csv/bad-value", { path, line: given.line, column: "gain_percent", value: short(value) });
  }
  return [{ ...given, readings: null, gainPercent: Number(value.replace("−", "-")) }];
}

function weighedRow(given: Given, cell: (column: string) => string, path: string): ChewLine[] {
  if (cell("grams_out") === "") return [];
  for (const column of ["grams_in", "grams_out", "cup", "rinse"] as const) {
    const value = cell(column);
    const left = value === "" && column !== "grams_in";
    if (!left && !readingPattern.test(value)) {
      throw problem("csv/bad-value", { path, line: given.line, column, value: short(value) });
    }
  }
  const readings = { gramsIn: cell("grams_in"), gramsOut: cell("grams_out"), cup: cell("cup"), rinse: cell("rinse") };
  return [{ ...given, readings, gainPercent: null }];
}

function secondsOf(value: string, path: string, line: number): number | null {
  if (value === "") return null;
  if (secondsPattern.test(value)) return Number(value);
  throw problem("csv/bad-value", { path, line, column: "seconds", value: short(value) });
}
