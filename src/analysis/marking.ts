import { problem } from "../model/problem.ts";
import type { Judgment, StudyRecord } from "../model/record.ts";

/** One counted answer, held against the opened key. `oddPosition` counts from 1 in serving order. */
export type Marked = Judgment & {
  order: string;
  oddPosition: number;
  correct: boolean;
  samples: readonly { product: string; batch: string }[];
};

const letters = "ABCDEFGHIJKL";

/**
 * Every counted answer of a triangle study, right or wrong by the opened key.
 *
 * Returns  one entry per judgment, in the record's order; the order label is read from the samples, not from the
 *          label that the key carries, so that the two cannot disagree
 * Throws   Problem "analysis/tray-counted-twice", "analysis/tray-not-in-key", "analysis/no-odd-sample",
 *          "analysis/code-not-on-tray": the record contradicts itself
 */
export function markedTriangles(record: StudyRecord): Marked[] {
  const products = record.plan.products.map((product) => product.id);
  const keys = new Map(record.opened.key.trays.map((tray) => [tray.tray, tray]));
  const seen = new Set<number>();
  return record.judgments.map((judgment) => {
    const { tray, choice } = judgment;
    if (seen.has(tray)) throw problem("analysis/tray-counted-twice", { tray });
    seen.add(tray);
    const samples = keys.get(tray)?.samples;
    if (!samples) throw problem("analysis/tray-not-in-key", { tray });
    const order = samples.map((sample) => letters[products.indexOf(sample.product)] ?? "?").join("");
    const odd = oddPlace(order);
    if (odd === null) throw problem("analysis/no-odd-sample", { tray });
    const picked = samples.findIndex((sample) => sample.code === choice);
    if (picked < 0) throw problem("analysis/code-not-on-tray", { tray, code: choice });
    return { ...judgment, order, oddPosition: odd + 1, correct: picked === odd, samples };
  });
}

/** Where the odd letter of a triangle order stands, from 0; null when it is no triangle. Example: oddPlace("AAB") // 2 */
export function oddPlace(order: string): number | null {
  const [first, second, third] = order;
  if (order.length !== 3 || order.includes("?")) return null;
  if (first === second && third !== first) return 2;
  if (first === third && second !== first) return 1;
  return second === third && first !== second ? 0 : null;
}
