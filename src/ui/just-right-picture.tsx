import { Halo, Ticks } from "./interval-picture.tsx";
import { numberAxis } from "./number-axis.ts";
import { PictureFrame, type PictureIds } from "./picture-frame.tsx";
import { accent, dot, ink, paper, round, shortened, textWidth } from "./picture-style.ts";

/** Shares of too little, just right and too much, product by product. */
export type JustRightFigures = {
  /** What the three parts are called. */
  labels: readonly [string, string, string];
  /** In the order of the plan; `text` names how many answers there are. */
  products: readonly { name: string; text: string; counts: readonly [number, number, number] }[];
};

const side = 14;
const letter = 15 * 0.56;
const bar = 30;
const swatch = 16;
const keyRow = 26;
/** Light enough for dark figures, and apart from the paper by its outline. */
const light = "#dfe1de";
/** The goal stands out; both sides keep apart in gray. */
const parts = [
  { fill: dot, text: ink },
  { fill: accent, text: paper },
  { fill: light, text: ink },
] as const;

/** Where everything stands, in CSS pixels. */
export function justRightLayout({ labels, products }: JustRightFigures, width: number) {
  const inner = Math.max(200, width);
  const letters = Math.floor(inner / letter);
  const axis = numberAxis({ low: 0, high: 100 }, { from: side, to: inner - side });
  const keys = keysOf(labels, inner);
  let y = (keys.at(-1)?.y ?? 0) + 12;
  const rows = products.map(({ name, text, counts }) => {
    const beside = textWidth(name, 15) + textWidth(text, 15) + 24 <= inner;
    const nameY = y + 20;
    const textY = beside ? nameY : nameY + 19;
    const top = textY + 8;
    y = top + bar + 8;
    return {
      name: { text: shortened(name, letters), y: nameY },
      text: { text: shortened(text, letters), y: textY, end: beside },
      top,
      parts: partsOf(counts, axis.at),
    };
  });
  return {
    width: inner,
    height: y + 36,
    keys,
    rows,
    axis: { from: side, to: inner - side, y: y + 8, ticks: axis.ticks },
  };
}

function partsOf(counts: readonly number[], at: (share: number) => number) {
  const all = counts.reduce((sum, count) => sum + count, 0);
  let before = 0;
  return counts.map((count) => {
    const x = at(all === 0 ? 0 : (100 * before) / all);
    before += count;
    const wide = at(all === 0 ? 0 : (100 * before) / all) - x;
    const text = String(count);
    return { x, width: wide, text: textWidth(text, 14) + 8 <= wide ? text : "" };
  });
}

/** Samples and names of the parts, row by row as they fit. */
function keysOf(labels: readonly string[], width: number): { text: string; x: number; y: number }[] {
  const letters = Math.floor((width - swatch - 10) / letter);
  let [x, y] = [0, 16];
  return labels.map((label) => {
    const text = shortened(label, letters);
    const room = swatch + 8 + textWidth(text, 15);
    if (x > 0 && x + room > width) [x, y] = [0, y + keyRow];
    const key = { text, x, y };
    x += room + 20;
    return key;
  });
}

type Props = PictureIds & { figures: JustRightFigures; width: number };

/** One bar for each product, divided into too little, just right and too much. */
export function JustRightBars({ figures, width, caption, table }: Props) {
  const layout = justRightLayout(figures, width);
  const { axis } = layout;
  return (
    <PictureFrame width={layout.width} height={round(layout.height)} caption={caption} table={table}>
      {layout.keys.map(({ text, x, y }, at) => (
        <g key={at} class="key">
          <rect
            {...{ x: x + 0.5, y: y - swatch + 2.5, width: swatch, height: swatch }}
            fill={parts[at]?.fill}
            stroke={ink}
          />
          <Halo x={x + swatch + 8} y={y} text={text} />
        </g>
      ))}
      {layout.rows.map(({ name, text, top, parts: own }) => (
        <g key={top} class="row">
          <Halo x={0} y={name.y} text={name.text} weight="600" />
          <Halo x={text.end ? layout.width : 0} y={text.y} text={text.text} end={text.end} />
          {own.map(
            (part, at) =>
              part.width > 0 && (
                <g key={at}>
                  <rect
                    {...{ x: round(part.x), y: top, width: round(part.width), height: bar }}
                    fill={parts[at]?.fill}
                    stroke={ink}
                  />
                  <text
                    x={round(part.x + part.width / 2)}
                    y={top + bar / 2 + 5}
                    fill={parts[at]?.text}
                    font-size="14"
                    font-weight="600"
                    text-anchor="middle"
                  >
                    {part.text}
                  </text>
                </g>
              ),
          )}
        </g>
      ))}
      <path d={`M${axis.from} ${axis.y}H${round(axis.to)}`} stroke={ink} fill="none" />
      <Ticks ticks={axis.ticks} y={axis.y} />
    </PictureFrame>
  );
}
