import { problem } from "../model/problem.ts";
import type { KindRow } from "../model/record.ts";
import { columnOf, extraOf, panelistOf, refuseTwice, repeatOf, short } from "./cells.ts";
import { readTable } from "./csv.ts";

/** What files call the two kinds of trays, and the two answers. */
export type KindsWords = { like: string; unlike: string };
export const kindsWords = {
  "same-different": { like: "same", unlike: "different" },
  "a-not-a": { like: "A", unlike: "not A" },
} as const satisfies Record<string, KindsWords>;

export type ReadKinds = { answers: KindRow[]; extraColumns: string[] };

/**
 * Reads the answers of same-different or A-not-A from CSV: columns `panelist`, `served` and `answer` ("same" or
 * "different"; "A" or "not A", in any case) and, if people answered more than once, `repeat`, in any order.
 *
 * Takes    text; path: names the file in errors; method: whose words stand in the file
 * Throws   Problem "csv/missing-column", "csv/bad-value" and "csv/duplicate-row" with line and column, and what
 *          `readTable` throws
 */
export function readKinds(text: string, path: string, method: keyof typeof kindsWords): ReadKinds {
  const table = readTable(text, path);
  const columns = table.columns.map((column) => column.toLowerCase());
  const at = {
    panelist: columnOf(columns, "panelist", path),
    served: columnOf(columns, "served", path),
    answer: columnOf(columns, "answer", path),
    repeat: columns.indexOf("repeat"),
  };
  const seen = new Map<string, number>();
  const answers = table.rows.map(({ line, cells }): KindRow => {
    const cell = (place: number) => cells[place]?.trim() ?? "";
    const unlike = (column: "served" | "answer") => unlikeOf(cell(at[column]), method, { path, line, column });
    const answer = {
      panelist: panelistOf(cell(at.panelist), path, line),
      repeat: at.repeat < 0 ? "1" : repeatOf(cell(at.repeat), path, line),
      unlike: unlike("served"),
      told: unlike("answer"),
    };
    refuseTwice(seen, answer, path, line);
    return answer;
  });
  return { answers, extraColumns: extraOf(table, Object.values(at)) };
}

function unlikeOf(
  value: string,
  method: keyof typeof kindsWords,
  where: { path: string; line: number; column: "served" | "answer" },
): boolean {
  const plain = (word: string) => word.toLowerCase().replaceAll("-", " ");
  const { like, unlike } = kindsWords[method];
  if (plain(value) === plain(unlike)) return true;
  if (plain(value) === plain(like)) return false;
  throw problem("csv/bad-value", { ...where, value: short(value) });
}
