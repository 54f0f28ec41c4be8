import { problem } from "../model/problem.ts";

/** Every name of a column that some reader of this room knows, in lower case. */
const known = new Set([
  ...[
    "panelist",
    "repeat",
    "correct",
    "served",
    "answer",
    "choice",
    "product",
    "value",
    "attribute",
    "moment",
    "scale",
  ],
  ...["position", "rank", "wave", "pot", "what", "celsius", "held_seconds", "rest_minutes", "time", "note", "probe"],
  ...["batch", "step", "grams", "tare", "drip", "added", "minutes", "blotted", "reason", "lot", "pair"],
  ...["tray", "code", "stage", "portion", "after", "grams_in", "grams_out", "cup", "rinse", "seconds", "gain_percent"],
]);

/** Refuses a first line in which no name of a column stands. Throws Problem "csv/no-header". */
export function refuseNoHeader(columns: readonly string[], path: string): void {
  if (columns.some((column) => known.has(column.toLowerCase()))) return;
  throw problem("csv/no-header", { path, found: foundIn(columns) });
}

/** What stands in the first line, as an error shows it. */
export function foundIn(columns: readonly string[]): string {
  const text = columns.join(", ");
  return text.length > 120 ? `${text.slice(0, 120)}…` : text;
}

/** The cells of the first line of a CSV that nobody has read yet, trimmed. */
export function headerOf(text: string): string[] {
  const line = text.replace(/^\uFEFF/, "").split(/[\r\n]/, 1)[0] ?? "";
  return line.split(/[,;\t]/).map((column) => column.replace(/"/g, "").trim());
}
