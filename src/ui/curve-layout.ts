import { numberAxis, stepAxis } from "./number-axis.ts";
import { shortened, textWidth, wrapped } from "./picture-style.ts";

/** Means of one property at several moments, a curve for each product. */
export type CurveFigures = {
  /** In the order of the chew. `seconds` sets them apart to scale where all have some; else they stand evenly. */
  moments: readonly { label: string; seconds: number | null }[];
  /** In the order of the plan; a value for each moment, null where there is none. An end is null without an interval. */
  products: readonly { name: string; values: readonly CurveValue[] }[];
  /** Ends of the scale. */
  range: { low: number; high: number };
  /** How many steps the scale has; null for a line. */
  steps?: number | null;
};
type CurveValue = { estimate: number; low: number | null; high: number | null } | null;

/** Lines and marks that stay apart in black and white: a product has a pattern and a shape of its own. */
export const shapes = ["disc", "square", "triangle", "ring", "diamond", "cross"] as const;
export type Shape = (typeof shapes)[number];
const dashes = ["", "8 4", "2 4", "12 4 2 4"];

export type CurveLayout = {
  width: number;
  height: number;
  curves: {
    name: string;
    /** Where its sample line and its name stand above the plot. */
    key: { x: number; y: number };
    shape: Shape;
    dash: string;
    path: string;
    points: { x: number; y: number; low: number | null; high: number | null }[];
  }[];
  plot: { left: number; right: number; top: number; bottom: number };
  ticks: { y: number; text: string }[];
  moments: { x: number; lines: { text: string; y: number }[] }[];
};

const letter = 15 * 0.56;
export const keyLine = 44;
const keyRow = 24;
const plotHeight = 250;
/** Room at the left for the numbers of the scale, and at both sides for the words below the first and last moment. */
const numbers = 40;
const edge = 52;
/** Products are set apart by so many pixels, so that their intervals do not cover each other. */
const apart = 8;

/** Where everything stands, in CSS pixels, for the width at hand. Values run upward; time runs to the right. */
export function curveLayout(figures: CurveFigures, width: number): CurveLayout {
  const inner = Math.max(240, width);
  const keys = keysOf(
    figures.products.map(({ name }) => name),
    inner,
  );
  const top = (keys.at(-1)?.y ?? 0) + 24;
  const plot = { left: numbers, right: inner - 4, top, bottom: top + plotHeight };
  const bounds = figures.products.flatMap(({ values }) =>
    values.flatMap((value) => (value ? [value.estimate, value.low, value.high].filter((end) => end !== null) : [])),
  );
  const { range } = figures;
  // an interval may reach beyond the ends of the scale; the scale itself does not
  const domain = { low: Math.min(range.low, ...bounds), high: Math.max(range.high, ...bounds) };
  const axis = stepAxis(numberAxis(domain, { from: 0, to: plotHeight }, range), figures.steps ?? null);
  const up = (value: number): number => plot.bottom - axis.at(value);
  const places = placesOf(figures.moments, plot);
  const letters = Math.max(6, Math.floor(gapOf(places, inner) / letter));
  const moments = figures.moments.map(({ label }, at) => ({
    x: places[at] ?? 0,
    lines: wrapped(label, letters, 3).map((text, row) => ({ text, y: plot.bottom + 22 + row * 18 })),
  }));
  return {
    width: inner,
    height: Math.max(plot.bottom, ...moments.flatMap(({ lines }) => lines.map(({ y }) => y))) + 10,
    curves: figures.products.map(({ values }, at, all) => ({
      name: keys[at]?.text ?? "",
      key: { x: keys[at]?.x ?? 0, y: keys[at]?.y ?? 0 },
      shape: shapes[at % shapes.length] ?? "disc",
      dash: dashes[at % dashes.length] ?? "",
      ...curveOf(values, places, (at - (all.length - 1) / 2) * apart, up),
    })),
    plot,
    ticks: axis.ticks.map(({ value, text }) => ({ y: up(value), text })),
    moments,
  };
}

/** Samples and names, row by row as they fit. */
function keysOf(names: readonly string[], width: number): { text: string; x: number; y: number }[] {
  const letters = Math.floor((width - keyLine - 10) / letter);
  let [x, y] = [0, 14];
  return names.map((name) => {
    const text = shortened(name, letters);
    const room = keyLine + 10 + textWidth(text, 15);
    if (x > 0 && x + room > width) [x, y] = [0, y + keyRow];
    const key = { text, x, y };
    x += room + 22;
    return key;
  });
}

function placesOf(moments: CurveFigures["moments"], { left, right }: CurveLayout["plot"]): number[] {
  const [from, to] = [left + edge, right - edge];
  const seconds = moments.flatMap((moment) => (moment.seconds === null ? [] : [moment.seconds]));
  const [first = 0, last = 0] = [seconds[0], seconds.at(-1)];
  const timed = seconds.length === moments.length && last > first;
  return moments.map((_, at) => {
    const share = timed ? ((seconds[at] ?? 0) - first) / (last - first) : at / Math.max(1, moments.length - 1);
    return from + share * (to - from);
  });
}

/** Room for the words below a moment: up to half way to its neighbors, and to the end of the picture. */
const gapOf = (places: readonly number[], width: number): number =>
  Math.min(2 * (width - (places.at(-1) ?? 0)), ...places.slice(1).map((x, at) => x - (places[at] ?? 0) - 8));

function curveOf(
  values: readonly CurveValue[],
  places: readonly number[],
  aside: number,
  up: (value: number) => number,
): Pick<CurveLayout["curves"][number], "path" | "points"> {
  const points = values.map((value, at) => {
    if (!value) return null;
    const { estimate, low, high } = value;
    const end = (bound: number | null) => (bound === null ? null : up(bound));
    return { x: (places[at] ?? 0) + aside, y: up(estimate), low: end(low), high: end(high) };
  });
  // the line stops where a moment has no mean, so that none stands for what nobody marked
  const path = points
    .map((point, at) => (point ? `${points[at - 1] ? "L" : "M"}${point.x.toFixed(2)} ${point.y.toFixed(2)}` : ""))
    .join("");
  return { path, points: points.filter((point) => point !== null) };
}
