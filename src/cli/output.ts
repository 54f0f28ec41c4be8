import { type AttributeText, describe, type Part, type Row, type WordTable } from "../analysis/describe.ts";
import { isOfCurve } from "../analysis/describe-curve.ts";
import type { Result } from "../model/result.ts";
import { report } from "../words/en/report.ts";
import { terminal } from "../words/en/terminal.ts";

/** Where a command writes: results, and notices beside them. */
export type Output = { print(text: string): void; note(text: string): void };

/** One JSON document, numbers with full precision. */
export const asJson = (value: unknown): string => JSON.stringify(value, null, 2);

/** A result as plain text, top to bottom as the report has it. */
export function resultText(result: Result): string {
  const words = describe(result, report);
  const sections = [
    words.test,
    [words.verdict, words.size, words.agreed].join("\n"),
    ...(words.attributes.length > 0
      ? words.attributes.filter(({ apart }) => !apart).map(attributeText)
      : [`${terminal.headings.numbers}\n${rowsText(words.rows)}`]),
    ...words.parts.filter(({ id }) => isOfCurve(id) || /^(rank|right)-/.test(id)).map(partText),
    [words.meaning, words.caution].filter((line) => line !== "").join("\n"),
    section(terminal.headings.notShown, words.caveats),
    section(terminal.headings.departures, words.departures),
  ];
  return sections.filter((text) => text !== "").join("\n\n");
}

const rowsText = (rows: readonly Row[]): string =>
  columns(rows.map(({ label, value, behind }) => [label, behind === "" ? value : `${value} (${behind})`]));

/** One property of a scale: what was found, its numbers, means and differences. */
function attributeText(text: AttributeText): string {
  const { heading, ends, beside, finding, lead, rows, distribution, means, contrasts } = text;
  const told = [ends, beside, finding, lead].filter((line) => line !== "").map((line) => `  ${line}`);
  const tables = [distribution, means, contrasts].flatMap((table) => (table ? [`\n${tableText(table)}`] : []));
  return [heading, ...told, rowsText(rows), ...tables].join("\n");
}

/** A property over the chew: what was found, and its table. */
const partText = ({ heading, sentences, table }: Part): string =>
  [section(heading, sentences), tableText(table)].join("\n");

/** A table as columns under its caption. */
export const tableText = ({ caption, columns: heads, rows, note }: WordTable): string =>
  [caption, columns([heads, ...rows]), ...(note === "" ? [] : [`  ${note}`])].join("\n");

/** A heading and its lines, set in; nothing where there are none. */
export const section = (heading: string, lines: readonly string[]): string =>
  lines.length === 0 ? "" : `${heading}\n${lines.map((line) => `  ${line}`).join("\n")}`;

/** Rows of cells as columns, two spaces between. */
export function columns(rows: readonly (readonly string[])[]): string {
  const widths: number[] = [];
  for (const row of rows) {
    row.forEach((cell, at) => {
      widths[at] = Math.max(widths[at] ?? 0, cell.length);
    });
  }
  return rows
    .map((row) => `  ${row.map((cell, at) => (at < row.length - 1 ? cell.padEnd(widths[at] ?? 0) : cell)).join("  ")}`)
    .join("\n");
}
