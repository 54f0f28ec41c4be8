import { type MarkStacks, markStacks, stackPath, stackRoom } from "./mark-stacks.ts";
import { type NumberAxis, numberAxis, roundStep, stepAxis } from "./number-axis.ts";
import { shortened, textWidth, wrapped } from "./picture-style.ts";

/** Everybody's marks of one property, and for two products the difference of their means. */
export type MarkFigures = {
  /** In the order of the plan; `text` names the mean. */
  products: readonly { name: string; mean: number | null; text: string }[];
  /** Values in the order of the products; null: no answer. */
  panelists: readonly { panelist: string; values: readonly (number | null)[] }[];
  /** Ends of the scale. */
  range: { low: number; high: number };
  /** End words of the line; null for values from elsewhere. */
  ends: { low: string; high: string } | null;
  /** How many steps the scale has: many then share a place, and it is drawn larger; null for a line. */
  steps?: number | null;
  /** Mean difference with its interval, counted from the product at this place; for two products only. */
  difference: { from: number; label: string; text: string; estimate: number; low: number; high: number } | null;
};

type Line = { text: string; y: number };
export type MarkLayout = {
  width: number;
  height: number;
  /** A lane for each product: its label above, its mean, its marks; `top`: where the stroke of the mean begins. */
  lanes: { name: Line; mean: Line & { end: boolean }; y: number; top: number; meanX: number | null }[];
  /** One path through the marks of each panelist, a gap where an answer is missing; of steps one for each way between two. */
  paths: { panelist: string; path: string; people: number }[];
  /** `people`: how many stand in this one place; 1 on a line, where everybody has a dot of their own. */
  dots: { x: number; y: number; people: number }[];
  /** In place of paths and dots where a line has too many: a path of dots for each lane, and marks that a dot stands for. */
  stacks: { each: number; paths: string[] } | null;
  axis: { from: number; to: number; y: number; ticks: NumberAxis["ticks"] };
  ends: { low: Line[]; high: Line[] } | null;
  difference: Difference | null;
};
type Difference = {
  label: Line;
  text: Line & { end: boolean };
  y: number;
  at: (points: number) => number;
  axis: { from: number; to: number; y: number; ticks: NumberAxis["ticks"] };
  /** Thin lines down from both means; empty where a mean is missing. */
  guides: { x: number; from: number; to: number }[];
};

const side = 14;
const letter = 15 * 0.56;

/**
 * Where everything stands, in CSS pixels, for the width at hand. Values run from left to right as on the line itself;
 * the difference stands below on the same scale, its zero under the mean it is counted from.
 */
export function markLayout(figures: MarkFigures, width: number): MarkLayout {
  const own = known.get(figures) ?? new Map<number, MarkLayout>();
  const layout = own.get(width) ?? laidOut(figures, width);
  known.set(figures, own.set(width, layout));
  return layout;
}

/** Caption, screen and paper ask for the same layouts again and again, and thousands of marks take a while. */
const known = new WeakMap<MarkFigures, Map<number, MarkLayout>>();

function laidOut(figures: MarkFigures, width: number): MarkLayout {
  const inner = Math.max(200, width);
  const { range, difference, products } = figures;
  const base = difference ? (products[difference.from]?.mean ?? null) : null;
  // an interval may reach beyond the ends of the scale; the scale itself does not
  const reach = difference && base !== null ? [base + difference.low, base + difference.high] : [];
  const domain = { low: Math.min(range.low, ...reach), high: Math.max(range.high, ...reach) };
  const steps = figures.steps ?? null;
  const main = stepAxis(numberAxis(domain, { from: side, to: inner - side }, range), steps);
  const rows = products.map((_, at) => figures.panelists.flatMap(({ values }) => values[at] ?? []));
  // of steps each place is drawn once anyway
  const stacks = steps === null ? markStacks(rows, main.at) : null;
  const lanes = lanesOf(products, inner, main.at, stacks ? stackRoom : 0);
  const axisY = (lanes.at(-1)?.y ?? 0) + 24;
  const ends = endsOf(figures.ends, inner, axisY + 40);
  const below = ends ? Math.max(...[...ends.low, ...ends.high].map(({ y }) => y)) : axisY + 22;
  const shift = difference && base !== null ? differenceOf(difference, base, domain, inner, below + 30) : null;
  return {
    width: inner,
    height: shift ? shift.axis.y + 28 : below + 8,
    lanes,
    ...(stacks ? stacked(stacks, lanes) : single(figures, lanes, main.at)),
    axis: { from: main.at(range.low), to: main.at(range.high), y: axisY, ticks: main.ticks },
    ends,
    difference: shift ? { ...shift, guides: guidesOf(lanes, shift) } : null,
  };
}

/** Every panelist by themselves; of steps, what falls in one place. */
function single(
  { panelists, steps = null }: MarkFigures,
  lanes: MarkLayout["lanes"],
  at: NumberAxis["at"],
): Pick<MarkLayout, "paths" | "dots" | "stacks"> {
  return {
    stacks: null,
    paths: gathered(
      panelists.flatMap(({ panelist, values }) => {
        const path = pathOf(values, lanes, at);
        // between steps many go the same way, each part of it counted by itself
        const parts = steps === null ? [path] : partsOf(path);
        return parts.map((part) => ({ panelist, path: part, people: 1 }));
      }),
      steps === null ? null : ({ path }) => path,
    ),
    dots: gathered(
      panelists.flatMap(({ values }) =>
        values.flatMap((value, lane) => (value === null ? [] : [{ x: at(value), y: lanes[lane]?.y ?? 0, people: 1 }])),
      ),
      steps === null ? null : ({ x, y }) => `${x} ${y}`,
    ),
  };
}

const stacked = (
  { each, lanes: columns }: MarkStacks,
  lanes: MarkLayout["lanes"],
): Pick<MarkLayout, "paths" | "dots" | "stacks"> => ({
  paths: [],
  dots: [],
  stacks: { each, paths: lanes.map(({ y }, at) => stackPath(columns[at] ?? [], y)) },
});

/** What falls in one place once, with how many people it stands for; without `placeOf` all stay apart. */
function gathered<T extends { people: number }>(all: readonly T[], placeOf: ((one: T) => string) | null): T[] {
  if (placeOf === null) return [...all];
  const found = new Map<string, T>();
  for (const one of all) {
    const before = found.get(placeOf(one));
    found.set(placeOf(one), before ? { ...before, people: before.people + one.people } : one);
  }
  return [...found.values()];
}

/** Takes room: pixels above each lane for what is stacked there. */
function lanesOf(
  products: MarkFigures["products"],
  width: number,
  at: NumberAxis["at"],
  room: number,
): MarkLayout["lanes"] {
  const letters = Math.floor(width / letter);
  let y = 0;
  return products.map(({ name, mean, text }) => {
    const beside = textWidth(name, 15) + textWidth(text, 15) + 24 <= width;
    const nameY = y + 16;
    const textY = beside ? nameY : nameY + 19;
    const laneY = textY + 22 + room;
    y = laneY + 32;
    return {
      name: { text: shortened(name, letters), y: nameY },
      mean: { text: shortened(text, letters), y: textY, end: beside },
      y: laneY,
      top: laneY - room - (room > 0 ? 2 : 14),
      meanX: mean === null ? null : at(mean),
    };
  });
}

/** A line from lane to lane; it stops where an answer is missing, so that no line stands for what nobody said. */
function pathOf(values: readonly (number | null)[], lanes: MarkLayout["lanes"], at: (value: number) => number): string {
  return values
    .map((value, place) => {
      if (value === null) return "";
      const before = place > 0 ? values[place - 1] : null;
      const start = before === null || before === undefined ? "M" : "L";
      return `${start}${at(value).toFixed(2)} ${lanes[place]?.y ?? 0}`;
    })
    .join("");
}

/** The single lines of a path: "M1 2L3 4L5 6" is two. */
const partsOf = (path: string): string[] =>
  [...path.matchAll(/(?<=[ML])([\d.]+ [\d.]+)(?=L([\d.]+ [\d.]+))/g)].map(([, from, to]) => `M${from}L${to}`);

export function endsOf(ends: MarkFigures["ends"], width: number, y: number): MarkLayout["ends"] {
  if (!ends) return null;
  const letters = Math.floor((width / 2 - 12) / letter);
  const lines = (text: string): Line[] => wrapped(text, letters, 3).map((line, at) => ({ text: line, y: y + 19 * at }));
  return { low: lines(ends.low), high: lines(ends.high) };
}

function differenceOf(
  difference: NonNullable<MarkFigures["difference"]>,
  base: number,
  domain: { low: number; high: number },
  width: number,
  top: number,
): Difference {
  const { low, high, label, text } = difference;
  const beside = textWidth(label, 15) + textWidth(text, 15) + 24 <= width;
  const letters = Math.floor(width / letter);
  const textY = beside ? top : top + 19;
  const y = textY + 22;
  const step = roundStep((46 * (domain.high - domain.low)) / (width - 2 * side));
  const shown = {
    low: Math.max(domain.low - base, Math.floor(Math.min(0, low) / step) * step),
    high: Math.min(domain.high - base, Math.ceil(Math.max(0, high) / step) * step),
  };
  const points = { low: domain.low - base, high: domain.high - base };
  const axis = numberAxis(points, { from: side, to: width - side }, shown);
  return {
    label: { text: shortened(label, letters), y: top },
    text: { text: shortened(text, letters), y: textY, end: beside },
    y,
    at: axis.at,
    axis: { from: axis.at(shown.low), to: axis.at(shown.high), y: y + 24, ticks: axis.ticks },
    guides: [],
  };
}

function guidesOf(lanes: MarkLayout["lanes"], { axis, y }: Difference): Difference["guides"] {
  return lanes.flatMap(({ y: from, meanX }) => (meanX === null ? [] : [{ x: meanX, from, to: Math.max(y, axis.y) }]));
}
