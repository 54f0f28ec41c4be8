import { Halo, Ticks } from "./interval-picture.tsx";
import { accent, dot, font, ink, round, soft } from "./picture-style.ts";
import { type RankFigures, rankLayout } from "./rank-layout.ts";

type Props = {
  figures: RankFigures;
  width: number;
  /** Ids of the caption that names it and of the table that says the same. Without them it is for the eye only. */
  caption?: string;
  table?: string;
};

/** Everybody's ranks: a lane for each product, a dot for each person above the rank given, the mean as an upright stroke. */
export function RankDots({ figures, width, caption, table }: Props) {
  const layout = rankLayout(figures, width);
  const { axis } = layout;
  return (
    // biome-ignore lint/a11y/noSvgWithoutTitle: the caption names it, by id; a title would show as a tooltip
    <svg
      {...(caption ? { role: "img", "aria-labelledby": caption, "aria-details": table } : { "aria-hidden": true })}
      width={layout.width}
      height={round(layout.height)}
      viewBox={`0 0 ${layout.width} ${round(layout.height)}`}
      font-family={font}
      class="chance"
    >
      <g class="lanes" stroke={soft} fill="none">
        {layout.lanes.map(({ y }) => (
          <path key={y} d={`M${round(axis.from)} ${round(y)}H${round(axis.to)}`} />
        ))}
      </g>
      <g class="dots" fill={dot}>
        {layout.dots.map(({ x, y }) => (
          <circle key={`${x} ${y}`} cx={round(x)} cy={round(y)} r={round(layout.radius)} />
        ))}
      </g>
      <g class="means" stroke={accent} stroke-width="3" fill="none">
        {layout.lanes.map(
          ({ y, top, meanX }) => meanX !== null && <path key={y} d={`M${round(meanX)} ${round(top)}V${round(y)}`} />,
        )}
      </g>
      {layout.lanes.map((lane) => (
        <g key={lane.y} class="lane">
          <Halo x={0} y={lane.name.y} text={lane.name.text} weight="600" />
          <Halo x={lane.sum.end ? layout.width : 0} y={lane.sum.y} text={lane.sum.text} end={lane.sum.end} />
        </g>
      ))}
      <path d={`M${round(axis.from)} ${round(axis.y)}H${round(axis.to)}`} stroke={ink} fill="none" />
      <Ticks ticks={axis.ticks} y={round(axis.y)} />
    </svg>
  );
}
