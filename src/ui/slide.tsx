import type { ComponentChild } from "preact";
import { font, ink, paper, soft, wrapped } from "./picture-style.ts";

/** One number for the wall: what it is, the number, what stands behind it (may be empty). */
export type SlideNumber = { label: string; value: string; behind: string };
type Props = {
  /** Study and property. */
  title: string;
  verdict: string;
  /** A drawing and the CSS pixels it takes. */
  drawing: ComponentChild;
  size: { width: number; height: number };
  numbers: readonly SlideNumber[];
  foot: string;
};

const wide = { width: 1920, height: 1080, side: 80 };
/** Widest a drawing is made for a wall: at twice its size its small print is 28 px of 1080. */
export const slideDrawingWidth = 560;
const drawingRoom = 1140;
const serif = 'Georgia, "Noto Serif", serif';

/** Pixels of a line in the text face, by its letters. */
const letters = (width: number, size: number): number => Math.floor(width / (size * 0.52));

/** Everything a room has to read, 1920 by 1080: question, verdict, picture, the numbers that matter. */
export function Slide({ title, verdict, drawing, size, numbers, foot }: Props) {
  const inner = wide.width - 2 * wide.side;
  const big = wrapped(verdict, letters(inner, 58), 9).length <= 3 ? 58 : 46;
  const lines = wrapped(verdict, letters(inner, big), 5);
  const verdictY = 150;
  const top = verdictY + lines.length * big * 1.22 + 24;
  const bottom = wide.height - 76;
  const scale = Math.min(drawingRoom / size.width, (bottom - top) / size.height, 2.2);
  return (
    // biome-ignore lint/a11y/noSvgWithoutTitle: a file of its own, never shown on a page
    <svg
      width={wide.width}
      height={wide.height}
      viewBox={`0 0 ${wide.width} ${wide.height}`}
      font-family={font}
      fill={ink}
    >
      <rect width={wide.width} height={wide.height} fill={paper} />
      <text x={wide.side} y={88} font-size="32" fill={soft}>
        {wrapped(title, letters(inner, 33), 1)}
      </text>
      <g font-family={serif} font-size={big} font-weight="500">
        {lines.map((line, at) => (
          <text key={line} x={wide.side} y={verdictY + big * (0.8 + 1.22 * at)}>
            {line}
          </text>
        ))}
      </g>
      <g transform={`translate(${wide.side} ${Math.round(top)}) scale(${scale})`}>{drawing}</g>
      <Numbers numbers={numbers} top={top} />
      <text x={wide.side} y={wide.height - 30} font-size="24" fill={soft}>
        {wrapped(foot, letters(inner, 25), 1)}
      </text>
    </svg>
  );
}

function Numbers({ numbers, top }: { numbers: readonly SlideNumber[]; top: number }) {
  const x = wide.side + drawingRoom + 60;
  const room = wide.width - wide.side - x;
  const step = Math.min(190, (wide.height - 90 - top) / Math.max(1, numbers.length));
  return (
    <>
      {numbers.map(({ label, value, behind }, at) => {
        const heads = wrapped(label, letters(room, 30), 2);
        const y = top + step * at + 34 * (heads.length - 1);
        const size = Math.min(54, room / Math.max(1, [...value].length * 0.6));
        return (
          <g key={label}>
            {heads.map((line, row) => (
              <text key={line} x={x} y={top + step * at + 28 + 34 * row} font-size="28" fill={soft}>
                {line}
              </text>
            ))}
            <text x={x} y={y + 84} font-size={Math.round(size)} font-weight="600">
              {value}
            </text>
            <text x={x} y={y + 120} font-size="28" fill={soft}>
              {wrapped(behind, letters(room, 30), 1)}
            </text>
          </g>
        );
      })}
    </>
  );
}
