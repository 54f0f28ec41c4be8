import { endsOf, type MarkFigures, type MarkLayout } from "./mark-layout.ts";
import { type NumberAxis, numberAxis, stepAxis } from "./number-axis.ts";
import { shortened, textWidth } from "./picture-style.ts";

/** How often each step was chosen, product by product. */
export type StepFigures = {
  /** In the order of the plan; `text` names the mean. Counts from the first step to the last. */
  products: readonly { name: string; text: string; mean: number | null; counts: readonly number[] }[];
  steps: number;
  ends: MarkFigures["ends"];
};

type Line = { text: string; y: number };
export type StepLayout = {
  width: number;
  height: number;
  /** A lane for each product; its bars stand on `y`. */
  lanes: {
    name: Line;
    mean: Line & { end: boolean };
    y: number;
    meanX: number | null;
    bars: { x: number; width: number; top: number; count: number }[];
  }[];
  axis: { from: number; to: number; y: number; ticks: NumberAxis["ticks"] };
  ends: MarkLayout["ends"];
};

const side = 14;
const letter = 15 * 0.56;
/** Pixels of the highest bar, and of the count above it. */
const highest = 64;
const countRoom = 18;
const widestBar = 44;

/** Where everything stands, in CSS pixels. All products share one axis and one height for a share of their answers. */
export function stepLayout({ products, steps, ends }: StepFigures, width: number): StepLayout {
  const inner = Math.max(200, width);
  const room = (inner - 2 * side) / steps;
  const pixels = { from: side + room / 2, to: inner - side - room / 2 };
  const axis = stepAxis(numberAxis({ low: 1, high: steps }, pixels), steps);
  const bar = Math.min(widestBar, room * 0.72);
  const shares = products.map(({ counts }) => sharesOf(counts));
  const most = Math.max(0, ...shares.flat());
  const letters = Math.floor(inner / letter);
  let y = 0;
  const lanes = products.map(({ name, text, mean, counts }, at) => {
    const beside = textWidth(name, 15) + textWidth(text, 15) + 24 <= inner;
    const nameY = y + 16;
    const textY = beside ? nameY : nameY + 19;
    const base = textY + countRoom + highest + 6;
    y = base + 22;
    return {
      name: { text: shortened(name, letters), y: nameY },
      mean: { text: shortened(text, letters), y: textY, end: beside },
      y: base,
      meanX: mean === null ? null : axis.at(mean),
      bars: counts.map((count, step) => ({
        x: axis.at(step + 1) - bar / 2,
        width: bar,
        top: base - (most === 0 ? 0 : (highest * (shares[at]?.[step] ?? 0)) / most),
        count,
      })),
    };
  });
  const axisY = y;
  const words = endsOf(ends, inner, axisY + 40);
  const below = words ? Math.max(...[...words.low, ...words.high].map((line) => line.y)) : axisY + 22;
  return {
    ...{ width: inner, height: below + 8, lanes, ends: words },
    axis: { from: side, to: inner - side, y: axisY, ticks: axis.ticks },
  };
}

function sharesOf(counts: readonly number[]): number[] {
  const all = counts.reduce((sum, count) => sum + count, 0);
  return counts.map((count) => (all === 0 ? 0 : count / all));
}
