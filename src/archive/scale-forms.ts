import type { ScaleForm } from "../model/attribute.ts";
import { problem } from "../model/problem.ts";
import type { ScaleRow } from "../model/record.ts";
import { short } from "./cells.ts";

/** What the column `scale` says of a row: the kind of its scale, and how many steps that has. */
type Told = { kind: "line" } | { kind: "steps" | "liking" | "just-right"; steps: number };

/** A row with what it says of its scale and of its step, and the line of the file it stands on. */
export type RowOfScale = { row: ScaleRow; told: Told; label: string; line: number };

/** How many steps each kind may have. */
const stepsAllowed = (kind: string, steps: number): boolean =>
  kind === "just-right" ? steps === 3 || steps === 5 : steps >= 2 && steps <= 11;

/**
 * What a cell of the column `scale` says: "line", "steps 9", "liking 9", "just-right 5"; empty is a line.
 * Throws   Problem "csv/bad-value"
 */
export function scaleOf(value: string, path: string, line: number): Told {
  if (/^(line)?$/i.test(value)) return { kind: "line" };
  const [, kind = "", steps = ""] = /^(steps|liking|just-right)\s+(\d{1,2})$/.exec(value.toLowerCase()) ?? [];
  if ((kind === "steps" || kind === "liking" || kind === "just-right") && stepsAllowed(kind, Number(steps))) {
    return { kind, steps: Number(steps) };
  }
  throw problem("csv/bad-value", { path, line, column: "scale", value: short(value) });
}

/** The cell that `scaleOf` reads back. */
export function scaleCell(form: ScaleForm): string {
  if (form.kind === "line") return "line";
  return `${form.kind === "steps" && form.liking ? "liking" : form.kind} ${form.labels.length}`;
}

/**
 * Gives each row the scale of its attribute, with the words of the steps as far as the file has them.
 *
 * Throws   Problem "csv/bad-step" for a value that is no step, "csv/scales-differ" where an attribute has two scales
 */
export function withForms(rows: readonly RowOfScale[], path: string): ScaleRow[] {
  const first = new Map<string, RowOfScale>();
  const labels = new Map<string, string[]>();
  for (const one of rows) {
    const { row, told, label, line } = one;
    const name = nameOf(row);
    const before = first.get(name) ?? one;
    first.set(name, before);
    if (textOf(before.told) !== textOf(told)) throw problem("csv/scales-differ", { path, line, first: before.line });
    if (told.kind === "line") continue;
    const known = labels.get(name) ?? new Array<string>(told.steps).fill("");
    labels.set(name, known);
    if (row.value === null) continue;
    if (!Number.isInteger(row.value) || row.value < 1 || row.value > told.steps) {
      throw problem("csv/bad-step", { path, line, value: String(row.value), steps: told.steps });
    }
    known[row.value - 1] ||= label;
  }
  return rows.map(({ row, told }) => {
    const words = labels.get(nameOf(row));
    return told.kind === "line" || !words ? row : { ...row, form: formOf(told.kind, words) };
  });
}

const nameOf = ({ attribute, moment }: ScaleRow): string => JSON.stringify([attribute, moment]);
const textOf = (told: Told): string => (told.kind === "line" ? told.kind : `${told.kind} ${told.steps}`);

const formOf = (kind: "steps" | "liking" | "just-right", labels: string[]): ScaleForm =>
  kind === "just-right" ? { kind, labels } : { kind: "steps", labels, liking: kind === "liking" };
