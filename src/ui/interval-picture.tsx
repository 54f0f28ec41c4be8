import { numberAxis, roundRange } from "./number-axis.ts";
import { PictureFrame, type PictureIds } from "./picture-frame.tsx";
import { accent, ink, paper, round, shortened, soft, textWidth } from "./picture-style.ts";

/** One estimate with its interval; both null where there is nothing to draw. `text` says the same in figures. */
export type IntervalRow = {
  id: string;
  label: string;
  text: string;
  estimate: number | null;
  low: number | null;
  high: number | null;
};
export type IntervalFigures = {
  rows: readonly IntervalRow[];
  /** Ends of the axis; null: as far as the rows reach, zero included. */
  range: { low: number; high: number } | null;
  /** A line through all rows, at no difference. */
  zero: boolean;
};

const side = 14;
const lane = 26;
const gap = 20;
/** How far the line at no difference reaches above and below a row. */
const zeroReach = 10;
const letter = 15 * 0.56;

/** Ends of the axis that the rows are drawn on. */
export function rangeOf({ rows, range }: IntervalFigures): { low: number; high: number } {
  const values = rows.flatMap(({ estimate, low, high }) => [estimate, low, high].filter((value) => value !== null));
  return range ?? roundRange([0, ...values]);
}

/**
 * Where everything stands, in CSS pixels, for the width at hand. The figures of a row stand at the end of its label,
 * or, of all rows, in a line of their own where some do not fit.
 */
export function intervalLayout(figures: IntervalFigures, width: number) {
  const inner = Math.max(200, width);
  const axis = numberAxis(rangeOf(figures), { from: side, to: inner - side });
  const letters = Math.floor(inner / letter);
  let y = 0;
  // all rows alike: one that breaks where its neighbors do not would look like another kind of row
  const beside = figures.rows.every((row) => textWidth(row.label, 15) + textWidth(row.text, 15) + 24 <= inner);
  const rows = figures.rows.map((row) => {
    const label = { text: shortened(row.label, letters), y: y + 16 };
    const text = { text: shortened(row.text, letters), y: y + (beside ? 16 : 36), end: beside };
    const lineY = text.y + 14;
    y = lineY + lane;
    return { row, label, text, y: lineY };
  });
  const axisY = Math.max(0, y - lane + gap);
  return { width: inner, height: axisY + 28, rows, axisY, axis, from: side, to: inner - side };
}

type Props = PictureIds & {
  figures: IntervalFigures;
  width: number;
};

/** One row for each estimate: a dot, and its interval as a line with ends, on one axis that begins where it must. */
export function IntervalRows({ figures, width, caption, table }: Props) {
  const layout = intervalLayout(figures, width);
  const { axis, axisY } = layout;
  return (
    <PictureFrame width={layout.width} height={layout.height} caption={caption} table={table}>
      {figures.zero && (
        // at each row, not through the figures between them
        <path
          class="zero"
          d={[...layout.rows.map(({ y }) => y), axisY]
            .map((y) => `M${round(axis.at(0))} ${y - zeroReach}V${y + (y === axisY ? 0 : zeroReach)}`)
            .join("")}
          stroke={soft}
          stroke-dasharray="2 2"
          fill="none"
        />
      )}
      {layout.rows.map(({ row, label, text, y }) => (
        <g key={row.id} class="row">
          <Halo x={0} y={label.y} text={label.text} weight="600" />
          <Halo x={text.end ? layout.width : 0} y={text.y} text={text.text} end={text.end} />
          <Interval row={row} y={y} at={axis.at} />
        </g>
      ))}
      <path d={`M${layout.from} ${axisY}H${round(layout.to)}`} stroke={ink} fill="none" />
      <Ticks ticks={axis.ticks} y={axisY} />
    </PictureFrame>
  );
}

/** The mark of one estimate: its interval in ink, the observed value in the accent. */
export function Interval({
  row,
  y,
  at,
}: {
  row: Omit<IntervalRow, "label" | "text" | "id">;
  y: number;
  at: (value: number) => number;
}) {
  const { estimate, low, high } = row;
  return (
    <>
      {low !== null && high !== null && (
        <path
          class="interval"
          d={`M${round(at(low))} ${y - 5}v10M${round(at(low))} ${y}H${round(at(high))}M${round(at(high))} ${y - 5}v10`}
          stroke={ink}
          stroke-width="2"
          fill="none"
        />
      )}
      {estimate !== null && <circle class="estimate" cx={round(at(estimate))} cy={y} r="5.5" fill={accent} />}
    </>
  );
}

/** A text that stays readable over lines: its outline is the paper. */
export function Halo(props: { x: number; y: number; text: string; end?: boolean; weight?: string }) {
  const { x, y, text, end = false, weight = "400" } = props;
  return (
    <text
      {...{ x, y, fill: ink, stroke: paper }}
      font-size="15"
      font-weight={weight}
      stroke-width="5"
      stroke-linejoin="round"
      paint-order="stroke"
      text-anchor={end ? "end" : "start"}
    >
      {text}
    </text>
  );
}

/** Short strokes with their numbers below an axis. */
export function Ticks({ ticks, y }: { ticks: readonly { x: number; text: string }[]; y: number }) {
  return (
    <g font-size="14" fill={soft} text-anchor="middle" class="ticks">
      {ticks.map(({ x, text }) => (
        <g key={text}>
          <path d={`M${round(x)} ${y}v4`} stroke={ink} fill="none" />
          <text x={round(x)} y={y + 19} stroke={paper} stroke-width="4" paint-order="stroke">
            {text}
          </text>
        </g>
      ))}
    </g>
  );
}
