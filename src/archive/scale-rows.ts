import { problem } from "../model/problem.ts";
import type { ScaleRow } from "../model/record.ts";
import { columnOf, extraOf, panelistOf, repeatOf, short } from "./cells.ts";
import { readTable } from "./csv.ts";
import { type RowOfScale, scaleOf, withForms } from "./scale-forms.ts";

export type ReadScale = { answers: ScaleRow[]; extraColumns: string[] };

/** Columns that may be there. Session, batch and position are terms of the mixed model. */
const optional = ["repeat", "attribute", "moment", "session", "scale", "label", "batch", "position"] as const;

/** A number with a decimal point, as people and programs write it. */
const number = /^[+-]?(\d+\.?\d*|\.\d+)(e[+-]?\d{1,3})?$/i;
/** Values this far from 0 have no use on a scale and could overflow as squares. */
const mostValue = 1e12;

/**
 * Reads values of a scale from CSV: columns `panelist`, `product`, `value` (empty: no answer), and where there was more
 * than one, `repeat`, `attribute`, `moment`, `session`; `scale` where values are steps ("steps 9", "liking 9",
 * "just-right 5", with values from 1) and `label`, the words of the step; also `batch`, `position`; in any order.
 *
 * Takes    text; path: names the file in errors
 * Returns  rows in the order of the file
 * Throws   Problem "csv/missing-column", "csv/bad-value" and "csv/duplicate-value" with line and column, and what
 *          `withForms` and `readTable` throw
 */
export function readScale(text: string, path: string): ReadScale {
  const table = readTable(text, path);
  const columns = table.columns.map((column) => column.toLowerCase());
  const needed = ["panelist", "product", "value"].map((column) => columnOf(columns, column, path));
  const [panelistAt = -1, productAt = -1, valueAt = -1] = needed;
  const known = new Map(optional.map((column) => [column, columns.indexOf(column)]));
  const has = (column: (typeof optional)[number]) => (known.get(column) ?? -1) >= 0;
  const lines = new Map<string, number>();
  const rows = table.rows.map(({ line, cells }): RowOfScale => {
    const cell = (place: number) => cells[place]?.trim() ?? "";
    const other = (column: (typeof optional)[number]) => cell(known.get(column) ?? -1);
    const row: ScaleRow = {
      panelist: panelistOf(cell(panelistAt), path, line),
      product: productOf(cell(productAt), path, line),
      repeat: has("repeat") ? repeatOf(other("repeat"), path, line) : "1",
      attribute: other("attribute"),
      moment: other("moment"),
      ...(has("position") ? { place: placeOf(other("position"), path, line) } : {}),
      ...(has("session") ? { session: other("session") } : {}),
      ...(has("batch") ? { batch: other("batch") } : {}),
      value: numberOf(cell(valueAt), path, line),
    };
    const { panelist, product, repeat, attribute, moment, session } = row;
    // a value of another session is another repeat
    const name = JSON.stringify([panelist, product, repeat, attribute, moment, session]);
    const first = lines.get(name);
    if (first !== undefined) throw problem("csv/duplicate-value", { path, line, first });
    lines.set(name, line);
    return { row, told: scaleOf(other("scale"), path, line), label: other("label"), line };
  });
  return { answers: withForms(rows, path), extraColumns: extraOf(table, [...needed, ...known.values()]) };
}

function productOf(value: string, path: string, line: number): string {
  if (value !== "") return value;
  throw problem("csv/bad-value", { path, line, column: "product", value });
}

/** A place served, from 1; null where nobody wrote it down. */
function placeOf(value: string, path: string, line: number): number | null {
  if (value === "") return null;
  if (/^0*[1-9]\d{0,2}$/.test(value)) return Number(value);
  throw problem("csv/bad-value", { path, line, column: "position", value: short(value) });
}

function numberOf(value: string, path: string, line: number): number | null {
  if (value === "") return null;
  if (number.test(value) && Math.abs(Number(value)) <= mostValue) return Number(value);
  throw problem("csv/bad-value", { path, line, column: "value", value: short(value) });
}
