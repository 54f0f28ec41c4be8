import { Halo, Ticks } from "./interval-picture.tsx";
import { Ends } from "./mark-picture.tsx";
import { PictureFrame, type PictureIds } from "./picture-frame.tsx";
import { accent, dot, ink, round, soft } from "./picture-style.ts";
import { type StepFigures, stepLayout } from "./steps-layout.ts";

type Props = PictureIds & {
  figures: StepFigures;
  width: number;
};

/** How often each step was chosen: a row of bars for each product with their counts, the mean as a mark below. */
export function StepBars({ figures, width, caption, table }: Props) {
  const layout = stepLayout(figures, width);
  const { axis } = layout;
  return (
    <PictureFrame width={layout.width} height={round(layout.height)} caption={caption} table={table}>
      {layout.lanes.map(({ name, mean, y, meanX, bars }) => (
        <g key={y} class="lane">
          <g class="bars" fill={dot}>
            {bars.map(({ x, width: wide, top, count }) => count > 0 && <path key={x} d={bar(x, top, wide, y)} />)}
          </g>
          <g class="counts" fill={ink} font-size="13" text-anchor="middle">
            {bars.map(
              ({ x, width: wide, top, count }) =>
                count > 0 && (
                  <text key={x} x={round(x + wide / 2)} y={round(top) - 5}>
                    {count}
                  </text>
                ),
            )}
          </g>
          <path d={`M${round(axis.from)} ${round(y)}H${round(axis.to)}`} stroke={soft} fill="none" />
          {meanX !== null && <path class="mean" d={`M${round(meanX)} ${round(y) + 2}l6 10h-12z`} fill={accent} />}
          <Halo x={0} y={name.y} text={name.text} weight="600" />
          <Halo x={mean.end ? layout.width : 0} y={mean.y} text={mean.text} end={mean.end} />
        </g>
      ))}
      <path d={`M${round(axis.from)} ${round(axis.y)}H${round(axis.to)}`} stroke={ink} fill="none" />
      <Ticks ticks={axis.ticks} y={round(axis.y)} />
      {layout.ends && <Ends ends={layout.ends} width={layout.width} />}
    </PictureFrame>
  );
}

const bar = (x: number, top: number, wide: number, base: number): string =>
  `M${round(x)} ${round(base)}V${round(top)}h${round(wide)}V${round(base)}z`;
