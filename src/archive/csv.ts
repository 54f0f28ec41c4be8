import Papa from "papaparse";
import { problem } from "../model/problem.ts";
import { refuseNoHeader } from "./header.ts";

/** A table read from CSV: its columns as the header names them, and each row with the line of the file it begins on. */
export type Table = { columns: string[]; rows: { line: number; cells: string[] }[] };

/** What a spreadsheet takes for a formula or swallows: such a text gets a leading quote mark. */
const risky = /^'*[=+\-@\t\r\0]/;

/**
 * Reads a CSV text (RFC 4180; also semicolons or tabs between cells, a byte order mark, any line endings).
 *
 * Takes    text; path: names the file in errors
 * Returns  columns trimmed, cells as they stand but for the quote mark that `writeTable` puts before risky text.
 *          Blank lines are left out
 * Throws   Problem "csv/no-header", "csv/column-twice", "csv/cell-count", "csv/open-quote", "csv/stray-quote" or "csv/unreadable-line"
 *          with the line; "csv/no-rows" when there is nothing below the header
 */
export function readTable(text: string, path: string): Table {
  const plain = withPlainLineEnds(text.replace(/^\uFEFF/, ""));
  const { data, errors } = Papa.parse<string[]>(plain, { delimiter: delimiterOf(plain), newline: "\n" });
  const lines = linesOf(data);
  const [error] = errors;
  if (error) throw problem(problemOf(error.code), { path, line: lines[error.row ?? 0] ?? 1 });
  const [header, ...rows] = data
    .map((cells, at) => ({ line: lines[at] ?? 1, cells: cells.map(withoutMark) }))
    .filter(({ cells }) => cells.length > 1 || cells[0]?.trim() !== "");
  if (!header) throw problem("csv/no-rows", { path });
  const columns = header.cells.map((cell) => cell.trim());
  const twice = columns.find((column, at) => columns.indexOf(column) < at);
  // two equal values in a first line of values are no header with a name too many
  if (twice !== undefined) refuseNoHeader(columns, path);
  if (twice !== undefined) throw problem("csv/column-twice", { path, line: header.line, column: twice });
  for (const { line, cells } of rows) {
    if (cells.length !== columns.length) {
      throw problem("csv/cell-count", { path, line, columns: columns.length, cells: cells.length });
    }
  }
  if (rows.length === 0) throw problem("csv/no-rows", { path });
  return { columns, rows };
}

/**
 * Writes a table as CSV by RFC 4180: a header, lines that end in CR LF, quotes where needed.
 *
 * Takes    two columns or more. Texts that a spreadsheet would run as a formula (they begin with = + - @, tab, CR or
 *          NUL) get a leading quote mark, which `readTable` takes off again; numbers stay numbers
 */
export function writeTable(columns: readonly string[], rows: readonly (readonly (string | number)[])[]): string {
  const cells = [columns, ...rows].map((row) =>
    row.map((cell) => (typeof cell === "string" && risky.test(cell) ? `'${cell}` : String(cell))),
  );
  return `${Papa.unparse(cells, { newline: "\r\n" })}\r\n`;
}

const withoutMark = (cell: string): string => (cell.startsWith("'") && risky.test(cell) ? cell.slice(1) : cell);

/** Line ends outside quotes as LF; those inside quotes belong to a cell and stay. */
const withPlainLineEnds = (text: string): string =>
  text.replace(/"[^"]*(?:"|$)|\r\n?/g, (part) => (part.startsWith('"') ? part : "\n"));

/** Comma, semicolon or tab: whichever stands most often in the header. */
function delimiterOf(text: string): string {
  const header = text.slice(0, text.search(/\n|$/));
  const count = (mark: string) => header.split(mark).length;
  return [",", ";", "\t"].reduce((best, mark) => (count(mark) > count(best) ? mark : best));
}

/** The line on which each row begins: one more than those before, and one for each line end inside a cell. */
function linesOf(rows: readonly string[][]): number[] {
  let next = 1;
  return rows.map((cells) => {
    const line = next;
    next += 1 + cells.reduce((ends, cell) => ends + (cell.match(/\r\n|\r|\n/g)?.length ?? 0), 0);
    return line;
  });
}

function problemOf(code: string): "csv/open-quote" | "csv/stray-quote" | "csv/unreadable-line" {
  if (code === "MissingQuotes") return "csv/open-quote";
  return code === "InvalidQuotes" ? "csv/stray-quote" : "csv/unreadable-line";
}
