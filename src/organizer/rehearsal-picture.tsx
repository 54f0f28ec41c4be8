import { PictureFrame, type PictureIds } from "../ui/picture-frame.tsx";
import { ink, soft } from "../ui/picture-style.ts";

/** One row of a hundred: how many of them say yes, and what the row is called. */
type Hundred = { yes: number; label: string };

const side = 11;
const gap = 2;
const labelHeight = 20;

/** Studies as squares, a hundred to a row, those that say yes dark; folded into as many lines as the width asks for. */
export function HundredSquares({ rows, width, ...ids }: PictureIds & { rows: readonly Hundred[]; width: number }) {
  const columns = width >= 100 * (side + gap) ? 100 : width >= 50 * (side + gap) ? 50 : 25;
  const lines = 100 / columns;
  const height = labelHeight + lines * (side + gap) + 12;
  return (
    <PictureFrame width={columns * (side + gap)} height={rows.length * height} {...ids}>
      {rows.map(({ yes, label }, row) => (
        <g key={label} transform={`translate(0 ${row * height})`}>
          <text x="0" y="14" font-size="14" fill={soft}>
            {label}
          </text>
          {Array.from({ length: 100 }, (_, at) => (
            <rect
              key={at}
              x={(at % columns) * (side + gap) + 0.5}
              y={labelHeight + Math.floor(at / columns) * (side + gap) + 0.5}
              width={side - 1}
              height={side - 1}
              stroke={ink}
              stroke-width="1"
              fill={at < yes ? ink : "none"}
            />
          ))}
        </g>
      ))}
    </PictureFrame>
  );
}
