import type { ChoiceStatistics } from "../model/result.ts";

export type ChanceFigures = Pick<ChoiceStatistics, "judgments" | "correct" | "criticalNumber" | "guessingPanels">;

/** One stack of dots: the counts it stands for (one count, or a run of them where columns would be too thin). */
export type DotColumn = { first: number; last: number; panels: number; x: number };

export type DotLayout = {
  width: number;
  height: number;
  columns: DotColumn[];
  /** Centers of the dots, in pixels. */
  dots: { x: number; y: number }[];
  radius: number;
  axis: { from: number; to: number; y: number };
  ticks: { x: number; value: number }[];
  /** The locked critical number: a rule before the first count that reaches it. */
  rule: { x: number; from: number; anchor: "start" | "end" } | null;
  /** The observed count. */
  seen: { x: number; anchor: "start" | "middle" | "end" };
  /** Where the axis is named: at the end away from the observed count. */
  axisName: { x: number; anchor: "start" | "end" };
};

const side = 10;
const flagRoom = 34;
const widestColumn = 40;
const thinnestColumn = 7;
/** A digit of a 14 px label, in pixels; wide enough for every system font. */
const digit = 9;

/**
 * Where everything in the picture of chance goes, in CSS pixels, for the width at hand.
 *
 * Takes    the counts of a choice test; width: pixels the picture may take, 200 or more; stack: pixels that the tallest
 *          stack of dots may take
 * Returns  all counts from 0 to `judgments` when each gets 14 px or more, else the part where something is to be
 *          seen; columns under 7 px are joined, with a border of columns at the critical number
 */
export function dotLayout(figures: ChanceFigures, width: number, stack = 240): DotLayout {
  const inner = Math.max(200, width) - 2 * side;
  const { first, last, join } = range(figures, inner);
  const number = Math.ceil((last - first + 1) / join);
  const columnWidth = Math.min(widestColumn, inner / number);
  const at = (count: number): number => side + (Math.floor((count - first) / join) + 0.5) * columnWidth;
  const columns: DotColumn[] = Array.from({ length: number }, (_, index) => {
    const from = first + index * join;
    const panels = figures.guessingPanels.slice(Math.max(0, from), from + join).reduce((sum, more) => sum + more, 0);
    return { first: from, last: from + join - 1, panels, x: at(from) };
  });
  const tallest = Math.max(1, ...columns.map((column) => column.panels));
  const pitch = Math.min(11.5, columnWidth * 0.95, stack / tallest);
  const radius = Math.min(4.8, pitch * 0.43);
  const axisY = flagRoom + tallest * pitch + 4;
  const dots = columns.flatMap(({ panels, x }) =>
    Array.from({ length: panels }, (_, index) => ({ x, y: axisY - 3 - pitch * (index + 0.5) })),
  );
  const end = side + number * columnWidth;
  const seenX = at(figures.correct);
  const shown = { first, last, perCount: columnWidth / join, seenX };
  return {
    width: Math.max(200, width),
    height: axisY + 50,
    columns,
    dots,
    radius,
    axis: { from: side, to: end, y: axisY },
    ticks: ticks(shown, join).map((value) => ({ value, x: at(value) })),
    rule: ruleAt(figures.criticalNumber, at, columnWidth, width),
    seen: { x: seenX, anchor: seenX < 40 ? "start" : seenX > width - 40 ? "end" : "middle" },
    axisName: seenX > (side + end) / 2 ? { x: side, anchor: "start" } : { x: end, anchor: "end" },
  };
}

function range({ judgments, correct, criticalNumber, guessingPanels }: ChanceFigures, inner: number) {
  if (inner / (judgments + 1) >= 14) return { first: 0, last: judgments, join: 1 };
  const spots = [correct, criticalNumber ?? correct, ...guessingPanels.flatMap((dots, count) => (dots ? [count] : []))];
  const low = Math.max(0, Math.min(...spots) - 2);
  const last = Math.min(judgments, Math.max(...spots) + 2);
  const join = Math.max(1, Math.ceil((thinnestColumn * (last - low + 1)) / inner));
  // a column must not hold counts on both sides of the critical number
  const border = criticalNumber ?? low;
  return { first: border - join * Math.ceil((border - low) / join), last, join };
}

function ruleAt(needed: number | null, at: (count: number) => number, columnWidth: number, width: number) {
  if (needed === null) return null;
  const x = at(needed) - columnWidth / 2;
  return { x, from: 8, anchor: x > width - 120 ? ("end" as const) : ("start" as const) };
}

/** Round counts to print below the axis, as many as fit, leaving room for the mark of the observed count. */
function ticks(shown: { first: number; last: number; perCount: number; seenX: number }, join: number): number[] {
  const labelWidth = String(shown.last).length * digit;
  const steps = [1, 2, 5].flatMap((step) => [step, step * 10, step * 100, step * 1000]).sort((a, b) => a - b);
  const step = steps.find((one) => one >= join && one * shown.perCount >= labelWidth + 6) ?? 10_000;
  const values: number[] = [];
  for (let value = Math.max(0, Math.ceil(shown.first / step) * step); value <= shown.last; value += step) {
    const x = side + (Math.floor((value - shown.first) / join) + 0.5) * join * shown.perCount;
    if (Math.abs(x - shown.seenX) >= labelWidth / 2 + 10) values.push(value);
  }
  return values;
}
