import { problem } from "../model/problem.ts";
import type { ChoiceRow } from "../model/record.ts";
import { columnOf, extraOf, panelistOf, refuseTwice, repeatOf, short } from "./cells.ts";
import { readTable } from "./csv.ts";

export type ReadChoices = {
  answers: ChoiceRow[];
  /** Products that somebody chose, in the order they first appear: two at most. */
  products: string[];
  extraColumns: string[];
};

/** What stands in the column `choice` for "no preference". */
export const noneWord = "none";

/**
 * Reads the answers of a paired preference, or of a paired difference in which either product may have more, from CSV:
 * columns `panelist` and `choice` (the name of a product, or `none`) and, if people answered more than once, `repeat`, in
 * any order. Where a file of several questions has the column `question`, only the answers to the first are read.
 *
 * Takes    text; path: names the file in errors
 * Throws   Problem "csv/missing-column", "csv/bad-value", "csv/third-product" and "csv/duplicate-row" with line and
 *          column, and what `readTable` throws
 */
export function readChoices(text: string, path: string): ReadChoices {
  const table = readTable(text, path);
  const columns = table.columns.map((column) => column.toLowerCase());
  const at = {
    panelist: columnOf(columns, "panelist", path),
    choice: columnOf(columns, "choice", path),
    repeat: columns.indexOf("repeat"),
    question: columns.indexOf("question"),
  };
  const seen = new Map<string, number>();
  const products: string[] = [];
  const first = table.rows.filter(({ cells }) => at.question < 0 || Number(cells[at.question]) === 1);
  if (first.length === 0) throw problem("csv/no-rows", { path });
  const answers = first.map(({ line, cells }): ChoiceRow => {
    const cell = (place: number) => cells[place]?.trim() ?? "";
    const panelist = panelistOf(cell(at.panelist), path, line);
    const repeat = at.repeat < 0 ? "1" : repeatOf(cell(at.repeat), path, line);
    const choice = choiceOf(cell(at.choice), products, path, line);
    refuseTwice(seen, { panelist, repeat }, path, line);
    return { panelist, repeat, choice };
  });
  return { answers, products, extraColumns: extraOf(table, Object.values(at)) };
}

/** A product, noted when it is new; null for none. */
function choiceOf(value: string, products: string[], path: string, line: number): string | null {
  if (value === "") throw problem("csv/bad-value", { path, line, column: "choice", value });
  if (value.toLowerCase() === noneWord) return null;
  const [first, second] = products;
  if (first !== undefined && second !== undefined && value !== first && value !== second) {
    const shown = { value: short(value), first: short(first), second: short(second) };
    throw problem("csv/third-product", { path, line, ...shown });
  }
  if (!products.includes(value)) products.push(value);
  return value;
}
