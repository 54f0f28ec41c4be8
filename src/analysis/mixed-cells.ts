import type { MixedRow } from "./mixed-design.ts";

type Levels = MixedRow["levels"];

/** Rows that are alike in every level taken together: all that a fit can tell of them. */
export type MixedCells = {
  levels: Levels[];
  /** Rows of each cell, the sum of their values and of its squares. */
  counts: Float64Array;
  totals: Float64Array;
  squares: Float64Array;
};

/** Takes values: one for each row, in place of its own. */
export function mixedCells(
  rows: readonly MixedRow[],
  factors: readonly string[],
  values: readonly number[],
): MixedCells {
  const all = rows.map(({ levels }) => levels);
  const { of, count } = numbered(all, factors);
  const levels: Levels[] = [];
  const [counts, totals, squares] = [new Float64Array(count), new Float64Array(count), new Float64Array(count)];
  for (const [i, own] of all.entries()) {
    const cell = of[i] ?? 0;
    // cells are numbered as they turn up
    if (cell === levels.length) levels.push(own);
    const value = values[i] ?? 0;
    counts[cell] = (counts[cell] ?? 0) + 1;
    totals[cell] = (totals[cell] ?? 0) + value;
    squares[cell] = (squares[cell] ?? 0) + value * value;
  }
  return { levels, counts, totals, squares };
}

/** Numbers what is alike in all these factors, from 0 on in the order in which it turns up. */
export function numbered(levels: readonly Levels[], factors: readonly string[]): { of: Int32Array; count: number } {
  const of = new Int32Array(levels.length);
  let count = Math.min(1, levels.length);
  for (const factor of factors) {
    const [names, pairs] = [new Map<string, number>(), new Map<number, number>()];
    for (const [i, own] of levels.entries()) {
      const name = numberOf(names, own[factor] ?? "");
      of[i] = numberOf(pairs, (of[i] ?? 0) * levels.length + name);
    }
    count = pairs.size;
  }
  return { of, count };
}

function numberOf<Key>(known: Map<Key, number>, key: Key): number {
  const found = known.get(key);
  if (found !== undefined) return found;
  known.set(key, known.size);
  return known.size - 1;
}
