import { Halo, Interval, Ticks } from "./interval-picture.tsx";
import { type MarkFigures, type MarkLayout, markLayout } from "./mark-layout.ts";
import { stackDot } from "./mark-stacks.ts";
import { PictureFrame, type PictureIds } from "./picture-frame.tsx";
import { dot, ink, paper, round, soft } from "./picture-style.ts";

type Props = PictureIds & {
  figures: MarkFigures;
  width: number;
};

/**
 * Every panelist's marks: a dot for each product, joined by a thin line, means as upright strokes. For two products
 * the mean difference stands below with its interval, on the same scale. Thousands of marks are dots in columns.
 */
export function Marks({ figures, width, caption, table }: Props) {
  const layout = markLayout(figures, width);
  const { axis, difference } = layout;
  const means = (
    <g class="means" stroke={ink} stroke-width="3.5" fill="none">
      {layout.lanes.map(
        ({ y, top, meanX }) => meanX !== null && <path key={y} d={`M${round(meanX)} ${top}V${y + 14}`} />,
      )}
    </g>
  );
  // the rings of steps are large enough to cover a mean
  const onTop = (figures.steps ?? null) !== null;
  return (
    <PictureFrame width={layout.width} height={round(layout.height)} caption={caption} table={table}>
      {difference && (
        <g class="guides" stroke={soft} stroke-dasharray="2 4" fill="none">
          {difference.guides.map(({ x, from, to }) => (
            <path key={from} d={`M${round(x)} ${from}V${round(to)}`} />
          ))}
        </g>
      )}
      <g class="panelists" stroke={dot} stroke-width="1" fill="none">
        {layout.paths.map(({ path, people }, at) => (
          <path key={at} d={path} {...(people > 1 ? { "stroke-width": widthOf(people) } : {})} />
        ))}
      </g>
      {layout.stacks && (
        <g class="stacks" stroke={dot} stroke-width={stackDot} stroke-linecap="round" fill="none">
          {layout.stacks.paths.map((path, lane) => (
            <path key={lane} d={path} />
          ))}
        </g>
      )}
      {onTop ? null : means}
      <g class="dots" stroke={ink} stroke-width="1.25" fill={paper}>
        {layout.dots.map(({ x, y, people }, at) => (
          <circle key={at} cx={round(x)} cy={y} r={radiusOf(people)} />
        ))}
      </g>
      {onTop ? means : null}
      {layout.lanes.map((lane) => (
        <g key={lane.y} class="lane">
          <Halo x={0} y={lane.name.y} text={lane.name.text} weight="600" />
          <Halo x={lane.mean.end ? layout.width : 0} y={lane.mean.y} text={lane.mean.text} end={lane.mean.end} />
        </g>
      ))}
      <path d={`M${round(axis.from)} ${axis.y}H${round(axis.to)}`} stroke={ink} fill="none" />
      <Ticks ticks={axis.ticks} y={axis.y} />
      {layout.ends && <Ends ends={layout.ends} width={layout.width} />}
      {difference && figures.difference && <Shift shown={difference} row={figures.difference} width={layout.width} />}
    </PictureFrame>
  );
}

/** A ring as large in area as the people it stands for, and a line as wide, as far as they do not cover the picture. */
const radiusOf = (people: number): number => (people === 1 ? 4 : round(Math.min(13, 3 + Math.sqrt(3 * people))));
const widthOf = (people: number): number => Math.min(7, people);

type ShiftProps = {
  shown: NonNullable<MarkLayout["difference"]>;
  row: NonNullable<MarkFigures["difference"]>;
  width: number;
};

/** The mean difference with its interval, on an axis of its own below the marks. */
function Shift({ shown: { label, text, y, at, axis }, row, width }: ShiftProps) {
  return (
    <g class="difference">
      <Halo x={0} y={label.y} text={label.text} weight="600" />
      <Halo x={text.end ? width : 0} y={text.y} text={text.text} end={text.end} />
      <Interval row={row} y={y} at={at} />
      <path d={`M${round(axis.from)} ${axis.y}H${round(axis.to)}`} stroke={ink} fill="none" />
      <Ticks ticks={axis.ticks} y={axis.y} />
    </g>
  );
}

export function Ends({ ends, width }: { ends: NonNullable<MarkLayout["ends"]>; width: number }) {
  return (
    <g class="ends">
      {ends.low.map(({ text, y }) => (
        <Halo key={y} x={0} y={y} text={text} />
      ))}
      {ends.high.map(({ text, y }) => (
        <Halo key={y} x={width} y={y} text={text} end />
      ))}
    </g>
  );
}
