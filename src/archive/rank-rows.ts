import { problem } from "../model/problem.ts";
import type { RankRow } from "../model/record.ts";
import { columnOf, extraOf, panelistOf, short } from "./cells.ts";
import { readTable } from "./csv.ts";

export type ReadRanks = { answers: RankRow[]; extraColumns: string[] };

/** A place as people write it: whole, or with a decimal point where places are shared. */
const number = /^\+?(\d{1,4}\.?\d{0,6}|\.\d{1,6})$/;

/**
 * Reads ranks from CSV: columns `panelist`, `product`, `rank` (1 for the least; shared places as their mean, or as the
 * same place twice; empty: none), in any order; one line for each product of each panelist.
 *
 * Takes    text; path: names the file in errors
 * Returns  rows in the order of the file
 * Throws   Problem "csv/missing-column", "csv/bad-value" and "csv/duplicate-rank" with line and column, and what
 *          `readTable` throws
 */
export function readRanks(text: string, path: string): ReadRanks {
  const table = readTable(text, path);
  const columns = table.columns.map((column) => column.toLowerCase());
  const needed = ["panelist", "product", "rank"].map((column) => columnOf(columns, column, path));
  const [panelistAt = -1, productAt = -1, rankAt = -1] = needed;
  const products = new Set(table.rows.map(({ cells }) => cells[productAt]?.trim() ?? ""));
  const lines = new Map<string, number>();
  const answers = table.rows.map(({ line, cells }): RankRow => {
    const cell = (place: number) => cells[place]?.trim() ?? "";
    const panelist = panelistOf(cell(panelistAt), path, line);
    const product = cell(productAt);
    if (product === "") throw problem("csv/bad-value", { path, line, column: "product", value: product });
    const name = JSON.stringify([panelist, product]);
    const first = lines.get(name);
    if (first !== undefined) throw problem("csv/duplicate-rank", { path, line, first });
    lines.set(name, line);
    return { panelist, product, rank: rankOf(cell(rankAt), products.size, path, line) };
  });
  return { answers, extraColumns: extraOf(table, needed) };
}

function rankOf(value: string, most: number, path: string, line: number): number | null {
  if (value === "") return null;
  if (number.test(value) && Number(value) >= 1 && Number(value) <= most) return Number(value);
  throw problem("csv/bad-value", { path, line, column: "rank", value: short(value) });
}
