import { problem } from "../model/problem.ts";
import type { Table } from "./csv.ts";
import { refuseNoHeader } from "./header.ts";

/** Cells that answers of every method have, read and refused in one way. */

/** Where a column that must be there stands. Throws Problem "csv/missing-column" or "csv/no-header". */
export function columnOf(columns: readonly string[], column: string, path: string): number {
  const at = columns.indexOf(column);
  if (at < 0) refuseNoHeader(columns, path);
  if (at < 0) throw problem("csv/missing-column", { path, column, found: columns.join(", ") });
  return at;
}

/** Throws Problem "csv/bad-value" for nobody. */
export function panelistOf(value: string, path: string, line: number): string {
  if (value !== "") return value;
  throw problem("csv/bad-value", { path, line, column: "panelist", value });
}

/** A whole number from 1, without leading zeros. Throws Problem "csv/bad-value". */
export function repeatOf(value: string, path: string, line: number): string {
  if (/^0*[1-9]\d{0,5}$/.test(value)) return String(Number(value));
  throw problem("csv/bad-value", { path, line, column: "repeat", value: short(value) });
}

/** Columns that were left unread, as the header names them. */
export const extraOf = ({ columns }: Table, read: readonly number[]): string[] =>
  columns.filter((_, at) => !read.includes(at));

/** A value as an error shows it. */
export const short = (value: string): string => (value.length > 40 ? `${value.slice(0, 40)}…` : value);

/**
 * Notes one answer of a person, by the line it stands on; two of the same repeat are refused.
 * Throws   Problem "csv/duplicate-row" with both lines
 */
export function refuseTwice(
  seen: Map<string, number>,
  { panelist, repeat }: { panelist: string; repeat: string },
  path: string,
  line: number,
): void {
  const name = JSON.stringify([panelist, repeat]);
  const first = seen.get(name);
  if (first !== undefined) {
    throw problem("csv/duplicate-row", { path, line, first, panelist: short(panelist), repeat });
  }
  seen.set(name, line);
}
