import { type NumberAxis, numberAxis } from "./number-axis.ts";
import { shortened, textWidth } from "./picture-style.ts";

/** Everybody's ranks, product by product. `text` names the rank sum. */
export type RankFigures = {
  products: readonly { name: string; text: string; mean: number | null; ranks: readonly number[] }[];
};

type Line = { text: string; y: number };
export type RankLayout = {
  width: number;
  height: number;
  lanes: { name: Line; sum: Line & { end: boolean }; y: number; top: number; meanX: number | null }[];
  dots: { x: number; y: number }[];
  radius: number;
  axis: { from: number; to: number; y: number; ticks: NumberAxis["ticks"] };
};

const side = 14;
const letter = 15 * 0.56;
/** Pixels that the tallest stack of dots may take, and one dot at most. */
const tallest = 78;
const most = 11;

/** Where everything stands, in CSS pixels: a lane for each product, its dots in stacks above the places 1, 2, … */
export function rankLayout({ products }: RankFigures, width: number): RankLayout {
  const inner = Math.max(200, width);
  const axis = numberAxis(
    { low: 0.5, high: products.length + 0.5 },
    { from: side, to: inner - side },
    { low: 1, high: products.length },
  );
  const stacks = products.map(({ ranks }) => stacksOf(ranks));
  const high = Math.max(1, ...stacks.flatMap((lane) => lane.map(({ count }) => count)));
  const step = Math.min(most, tallest / high);
  const letters = Math.floor(inner / letter);
  let y = 0;
  const lanes = products.map(({ name, text, mean }) => {
    const beside = textWidth(name, 15) + textWidth(text, 15) + 24 <= inner;
    const nameY = y + 16;
    const sumY = beside ? nameY : nameY + 19;
    const top = sumY + 8;
    y = top + high * step + 10;
    return {
      ...{ name: { text: shortened(name, letters), y: nameY }, y, top },
      sum: { text: shortened(text, letters), y: sumY, end: beside },
      meanX: mean === null ? null : axis.at(mean),
    };
  });
  const dots = stacks.flatMap((lane, at) =>
    lane.flatMap(({ rank, count }) =>
      Array.from({ length: count }, (_, above) => ({
        x: axis.at(rank),
        y: (lanes[at]?.y ?? 0) - step * (above + 0.5) - 2,
      })),
    ),
  );
  const axisY = y + 10;
  return {
    ...{ width: inner, height: axisY + 28, lanes, dots, radius: Math.max(1, step / 2 - 1) },
    axis: { from: axis.at(0.5), to: axis.at(products.length + 0.5), y: axisY, ticks: axis.ticks },
  };
}

const stacksOf = (ranks: readonly number[]): { rank: number; count: number }[] =>
  [...new Set(ranks)].map((rank) => ({ rank, count: ranks.filter((other) => other === rank).length }));
