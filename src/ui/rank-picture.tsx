import { Halo, Ticks } from "./interval-picture.tsx";
import { PictureFrame, type PictureIds } from "./picture-frame.tsx";
import { accent, dot, ink, round, soft } from "./picture-style.ts";
import { type RankFigures, rankLayout } from "./rank-layout.ts";

type Props = PictureIds & {
  figures: RankFigures;
  width: number;
};

/** Everybody's ranks: a lane for each product, a dot for each person above the rank given, the mean as an upright stroke. */
export function RankDots({ figures, width, caption, table }: Props) {
  const layout = rankLayout(figures, width);
  const { axis } = layout;
  return (
    <PictureFrame width={layout.width} height={round(layout.height)} caption={caption} table={table}>
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
    </PictureFrame>
  );
}
