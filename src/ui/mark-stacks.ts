import type { NumberAxis } from "./number-axis.ts";

/** Marks in one row above which single marks are stacked: they would only be a black band. */
const mostSingle = 500;
/** Pixels from column to column, and from dot to dot in a column. */
const pitch = 5;
const tallest = 9;
export const stackDot = 4;
/** Room above a lane that the tallest column takes. */
export const stackRoom = tallest * pitch;

/** Columns of dots for one lane as one path of points, to be drawn with round ends. */
export type MarkStacks = {
  /** Marks that a dot stands for, at most. */
  each: number;
  /** For each lane the columns: their middle, and dots from the lane up. */
  lanes: { x: number; dots: number }[][];
};

/**
 * Marks counted into columns, where a row has more than can be told apart; null where every mark is drawn.
 *
 * A dot stands for up to `each` marks and a column with a single mark has a dot, so that what lies far off is seen.
 */
export function markStacks(rows: readonly (readonly number[])[], at: NumberAxis["at"]): MarkStacks | null {
  if (rows.every((values) => values.length <= mostSingle)) return null;
  const counted = rows.map((values) => {
    const columns = new Map<number, number>();
    for (const value of values) {
      const column = Math.floor(at(value) / pitch);
      columns.set(column, (columns.get(column) ?? 0) + 1);
    }
    return columns;
  });
  const most = Math.max(...counted.flatMap((columns) => [...columns.values()]));
  const each = roundUp(most / tallest);
  return {
    each,
    lanes: counted.map((columns) =>
      [...columns].map(([column, count]) => ({ x: (column + 0.5) * pitch, dots: Math.ceil(count / each) })),
    ),
  };
}

/** The next of 1, 2, 5, 10, 20, 50 … */
function roundUp(value: number): number {
  const power = 10 ** Math.floor(Math.log10(value));
  return ([1, 2, 5].find((step) => step * power >= value) ?? 10) * power;
}

/** One path for the dots of a lane that lies at y. */
export const stackPath = (columns: MarkStacks["lanes"][number], y: number): string =>
  columns
    .flatMap(({ x, dots }) => Array.from({ length: dots }, (_, dot) => `M${x.toFixed(1)} ${y - dot * pitch}h0`))
    .join("");
