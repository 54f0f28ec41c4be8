import { Halo, Interval, Ticks } from "./interval-picture.tsx";
import { numberAxis } from "./number-axis.ts";
import { PictureFrame, type PictureIds } from "./picture-frame.tsx";
import { ink, round, soft, textWidth } from "./picture-style.ts";

/** An estimate on a ruler with words along it. `words` say where each of them begins, from 0 up. */
export type RulerFigures = {
  estimate: number | null;
  low: number | null;
  high: number | null;
  text: string;
  words: readonly { from: number; word: string }[];
  limit: number | null;
};

const side = 14;
const rowY = 40;
const axisY = 66;
const usual = 4;

/** Ends of the ruler: 0 to 4, wider where the figures reach further. */
function endsOf({ estimate, low, high, limit }: RulerFigures): { low: number; high: number } {
  const values = [estimate, low, high, limit].filter((value) => value !== null);
  return {
    low: Math.min(0, Math.floor(Math.min(...values, 0))),
    high: Math.max(usual, Math.ceil(Math.max(...values, 0))),
  };
}

type Props = { figures: RulerFigures; width: number } & PictureIds;

/** One distance with its interval on a ruler; words for sizes stand below the numbers, each in its own stretch. */
export function Ruler({ figures, width, caption, table }: Props) {
  const inner = Math.max(200, width);
  const ends = endsOf(figures);
  const axis = numberAxis(ends, { from: side, to: inner - side });
  const { estimate, low, high, limit, text } = figures;
  // a bound without another end reaches to the end of the ruler, and has no stroke there
  const from = low ?? (high === null ? null : ends.low);
  const to = high ?? (low === null ? null : ends.high);
  return (
    <PictureFrame width={inner} height={132} caption={caption} table={table}>
      {limit !== null && (
        <path
          class="limit"
          d={`M${round(axis.at(limit))} ${rowY - 14}V${axisY}`}
          stroke={ink}
          stroke-width="2"
          stroke-dasharray="3 3"
          fill="none"
        />
      )}
      <Halo x={0} y={16} text={text} weight="600" />
      {from !== null && to !== null && (
        <path
          class="reach"
          d={`M${round(axis.at(from))} ${rowY}H${round(axis.at(to))}${low === null ? "" : `M${round(axis.at(from))} ${rowY - 5}v10`}${high === null ? "" : `M${round(axis.at(to))} ${rowY - 5}v10`}`}
          stroke={ink}
          stroke-width="2"
          fill="none"
        />
      )}
      <Interval row={{ estimate, low: null, high: null }} y={rowY} at={axis.at} />
      <path d={`M${side} ${axisY}H${round(inner - side)}`} stroke={ink} fill="none" />
      <Ticks ticks={axis.ticks} y={axisY} />
      <Stretches words={figures.words} end={ends.high} at={axis.at} />
    </PictureFrame>
  );
}

/** Each word under its stretch of the ruler; of neighbors that would meet, every other one stands a line lower. */
function Stretches(props: { words: RulerFigures["words"]; end: number; at: (value: number) => number }) {
  const { words, end, at } = props;
  const stretches = words.map(({ from, word }, index) => ({ word, from, to: words[index + 1]?.from ?? end }));
  const tight = stretches.some(({ word, from, to }) => textWidth(word, 14) + 8 > at(to) - at(from));
  return (
    <g class="words" font-size="14" fill={soft} text-anchor="middle">
      {stretches.map(({ word, from, to }, index) => (
        <g key={word}>
          <path
            d={`M${round(at(from))} ${axisY + 26}v${tight && index % 2 === 1 ? 30 : 12}`}
            stroke={soft}
            fill="none"
          />
          <text
            x={round(
              Math.max(
                side + textWidth(word, 14) / 2,
                Math.min(at(end) - textWidth(word, 14) / 2, (at(from) + at(to)) / 2),
              ),
            )}
            y={axisY + (tight && index % 2 === 1 ? 56 : 37)}
          >
            {word}
          </text>
        </g>
      ))}
    </g>
  );
}
