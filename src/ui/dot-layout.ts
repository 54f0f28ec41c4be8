import type { ChoiceStatistics } from "../model/result-choice.ts";
import type { KindsStatistics } from "../model/result-kinds.ts";
import type { PairStatistics } from "../model/result-pair.ts";

/** What the picture of chance shows. */
export type ChanceFigures = {
  judgments: number;
  /** The count that was observed. */
  seen: number;
  /** The rule: least count that meets it, most count that meets it. A preference has both, other tests one or none. */
  atLeast: number | null;
  atMost: number | null;
  /** 100 panels that only guess: how many of them fall on each count (index = count). */
  guessingPanels: readonly number[];
};

/** One stack of dots: the counts it stands for (one count, or a run of them where columns would be too thin). */
export type DotColumn = { first: number; last: number; panels: number; x: number };
type Rule = { x: number; from: number; anchor: "start" | "end" };

export type DotLayout = {
  width: number;
  height: number;
  columns: DotColumn[];
  /** Centers of the dots, in pixels. */
  dots: { x: number; y: number }[];
  radius: number;
  axis: { from: number; to: number; y: number };
  ticks: { x: number; value: number }[];
  /** The rule: a line before the least count that meets it, and one behind the most. */
  atLeast: Rule | null;
  atMost: Rule | null;
  /** The observed count. */
  seen: { x: number; anchor: "start" | "middle" | "end" };
  /** Where the axis is named: at the end away from the observed count. */
  axisName: { x: number; anchor: "start" | "end" };
};

const side = 10;
const flagRoom = 34;
const flagLine = 20;
const widestColumn = 40;
const thinnestColumn = 7;
/** A digit of a 14 px label, in pixels; wide enough for every system font. */
const digit = 9;
/** Pixels that a flag's label may need. */
const labelRoom = 120;

/** The figures of a choice test; for a similarity goal the critical number is the most that meets the rule. */
export const chanceOfChoice = (test: ChoiceStatistics): ChanceFigures => ({
  judgments: test.judgments,
  seen: test.correct,
  atLeast: test.goal === "difference" ? test.criticalNumber : null,
  atMost: test.goal === "similarity" ? test.criticalNumber : null,
  guessingPanels: test.guessingPanels,
});

/** The figures of a preference, counted for the first product: so many votes or more for it, or for the second. */
export const chanceOfPreference = (test: PairStatistics): ChanceFigures => ({
  judgments: test.judgments,
  seen: test.tested.first,
  atLeast: test.criticalNumber,
  atMost: test.criticalNumber === null ? null : test.judgments - test.criticalNumber,
  guessingPanels: test.guessingPanels,
});

/** The figures of same-different and A-not-A, counted on trays of two products (samples that were not A). */
export const chanceOfKinds = (test: KindsStatistics): ChanceFigures => ({
  judgments: test.unlike.of,
  seen: test.unlike.told,
  atLeast: test.criticalNumber,
  atMost: null,
  guessingPanels: test.guessingPanels,
});

/**
 * Where everything in the picture of chance goes, in CSS pixels, for the width at hand.
 *
 * Takes    the counts of a test; width: pixels the picture may take, 200 or more; stack: pixels that the tallest
 *          stack of dots may take
 * Returns  all counts from 0 to `judgments` when each gets 14 px or more, else the part where something is to be
 *          seen; columns under 7 px are joined, with a border of columns at each end of the rule
 */
export function dotLayout(figures: ChanceFigures, width: number, stack = 240): DotLayout {
  const inner = Math.max(200, width) - 2 * side;
  const runs = runsOf(figures, inner);
  const columnWidth = Math.min(widestColumn, inner / runs.length);
  const columns = runs.map(({ first, last }, at) => ({
    ...{ first, last, x: side + (at + 0.5) * columnWidth },
    panels: figures.guessingPanels.slice(first, last + 1).reduce((sum, more) => sum + more, 0),
  }));
  const at = (count: number): number => columns.find(({ last }) => count <= last)?.x ?? columns.at(-1)?.x ?? side;
  const tallest = Math.max(1, ...columns.map((column) => column.panels));
  const pitch = Math.min(11.5, columnWidth * 0.95, stack / tallest);
  const bothSides = figures.atLeast !== null && figures.atMost !== null;
  const axisY = flagRoom + (bothSides ? flagLine : 0) + tallest * pitch + 4;
  const end = side + columns.length * columnWidth;
  const seenX = at(figures.seen);
  return {
    width: Math.max(200, width),
    // below the axis: its numbers, what was observed, and its name, which do not meet however narrow it is
    height: axisY + 70,
    columns,
    dots: columns.flatMap(({ panels, x }) =>
      Array.from({ length: panels }, (_, index) => ({ x, y: axisY - 3 - pitch * (index + 0.5) })),
    ),
    radius: Math.min(4.8, pitch * 0.43),
    axis: { from: side, to: end, y: axisY },
    ticks: ticksOf(columns, columnWidth, seenX),
    // two flags stand one above the other, so that their labels never meet
    atLeast: figures.atLeast === null ? null : startRule(at(figures.atLeast) - columnWidth / 2, width, bothSides),
    atMost: figures.atMost === null ? null : endRule(at(figures.atMost) + columnWidth / 2),
    seen: { x: seenX, anchor: seenX < 40 ? "start" : seenX > width - 40 ? "end" : "middle" },
    axisName: seenX > (side + end) / 2 ? { x: side, anchor: "start" } : { x: end, anchor: "end" },
  };
}

const startRule = (x: number, width: number, lower: boolean): Rule => ({
  x,
  from: 8 + (lower ? flagLine : 0),
  anchor: x > width - labelRoom ? "end" : "start",
});
const endRule = (x: number): Rule => ({ x, from: 8, anchor: x < labelRoom ? "start" : "end" });

/** The counts that share a column, from left to right. */
function runsOf(figures: ChanceFigures, inner: number): { first: number; last: number }[] {
  const { judgments, seen, atLeast, atMost, guessingPanels } = figures;
  const whole = inner / (judgments + 1) >= 14;
  const spots = [seen, atLeast ?? seen, atMost ?? seen, ...guessingPanels.flatMap((dots, at) => (dots ? [at] : []))];
  const low = whole ? 0 : Math.max(0, Math.min(...spots) - 2);
  const high = whole ? judgments : Math.min(judgments, Math.max(...spots) + 2);
  // a column must not hold counts on both sides of an end of the rule
  const cuts = [atMost === null ? low : atMost + 1, atLeast ?? low].filter((cut) => cut > low && cut <= high);
  const starts = [low, ...new Set(cuts)];
  const parts = starts.map((first, at) => ({ first, last: (starts[at + 1] ?? high + 1) - 1 }));
  const most = Math.max(parts.length, Math.floor(inner / thinnestColumn));
  let join = 1;
  while (parts.reduce((sum, { first, last }) => sum + Math.ceil((last - first + 1) / join), 0) > most) join += 1;
  return parts.flatMap((part, at) => joined(part, join, at === 0 && parts.length > 1));
}

/** Runs of `join` counts; what is left over makes a shorter run at the end away from the border. */
function joined({ first, last }: { first: number; last: number }, join: number, fromEnd: boolean) {
  const counts = last - first + 1;
  const rest = fromEnd ? counts % join : 0;
  const runs = rest > 0 ? [{ first, last: first + rest - 1 }] : [];
  for (let from = first + rest; from <= last; from += join)
    runs.push({ first: from, last: Math.min(last, from + join - 1) });
  return runs;
}

/** Round counts to print below the axis, as many as fit, leaving room for the mark of the observed count. */
function ticksOf(columns: readonly DotColumn[], columnWidth: number, seenX: number): DotLayout["ticks"] {
  const first = columns[0]?.first ?? 0;
  const last = columns.at(-1)?.last ?? 0;
  const join = Math.max(1, ...columns.map((column) => column.last - column.first + 1));
  const labelWidth = String(last).length * digit;
  const steps = [1, 10, 100, 1000, 10_000].flatMap((ten) => [ten, 2 * ten, 5 * ten]);
  const step = steps.find((one) => one >= join && (one * columnWidth) / join >= labelWidth + 6) ?? 100_000;
  const ticks: DotLayout["ticks"] = [];
  for (let value = Math.ceil(first / step) * step; value <= last; value += step) {
    const x = columns.find((column) => value <= column.last)?.x ?? 0;
    const apart = x - (ticks.at(-1)?.x ?? -labelWidth * 2) >= labelWidth + 4;
    if (apart && Math.abs(x - seenX) >= labelWidth / 2 + 10) ticks.push({ value, x });
  }
  return ticks;
}
